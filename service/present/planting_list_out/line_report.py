"""One line of a checked list in words: what was written, what we read, the verdict, and what to know."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.domain.checked_list import VERDICTS, Verdict
from service.domain.units import Language
from service.present.planting_list_out.words import said

Told = Mapping[str, Any]
WEIGHTS = {name: weight for weight, name in enumerate(
    ("forbid", "set_aside", "caution", "advise", "mark_down", "prefer", "point_to", "say"))}  # fmt: skip
_OF_REASONS = ("forbid", "set_aside", "caution", "advise")


@dataclass(frozen=True, slots=True)
class LineReport:
    """One line in words; `sentences` are what to know of it, the weightiest first, and `spoken` merely says more."""

    line: int
    written: str
    read: str
    trees: int
    verdict: Verdict
    verdict_words: str
    sentences: tuple[str, ...]
    spoken: tuple[str, ...]

    @property
    def gravity(self) -> tuple[int, int]:
        """Those that need something come first."""
        return -VERDICTS.index(self.verdict), self.line


def line_report(line: Told, language: Language) -> LineReport:
    """The report on a line as it is told."""
    findings = sorted(line["findings"], key=lambda one: WEIGHTS[one["outcome"]])
    weighty = [one["text"] for one in findings if one["outcome"] != "say"]
    reasons = [one for tree in line["judged"] for one in tree["reasons"] if one["outcome"] in _OF_REASONS]
    weighty += [one["text"] for one in sorted(reasons, key=lambda one: WEIGHTS[one["outcome"]])]
    words = said(line["verdict"], language)
    return LineReport(
        line=line["line"],
        written=line["written"],
        read=read_as(line, language),
        trees=line["trees"],
        verdict=line["verdict"],
        verdict_words=words,
        sentences=tuple(dict.fromkeys(weighty)),
        spoken=tuple(dict.fromkeys(_spoken(findings, words))),
    )


def _spoken(findings: Sequence[Told], verdict: str) -> Iterator[str]:
    """What merely says more, without the verdict once more."""
    for one in findings:
        if one["outcome"] == "say" and one["text"].rstrip(".").casefold() != verdict.casefold():
            yield one["text"]


def read_as(line: Told, language: Language) -> str:
    """What a line was read as: how many trees of which name, on which root."""
    names = " / ".join(_name(name, language) for name in line["read_as"]) or said("no_name", language)
    root = line["rootstock"] and line["rootstock"]["name"]
    what = said("on", language, what=names, root=root) if root else names
    return f"{line['trees']} × {what}"


def _name(name: Told, language: Language) -> str:
    if name["name"] is not None:
        crop = f" ({name['crop_name']})" if name["crop_name"] else ""
        known = f"{name['name']}{crop}"
        return said("guessed", language, what=known) if name["how"] == "guess" else known
    near = [one["name"] for one in name["alternatives"]][:3]
    if not near:
        return said("not_recognised", language)
    return said("several", language, what=either(_told_apart(name, near), language))


def _told_apart(name: Told, near: Sequence[str]) -> list[str]:
    """Alternatives of one name are told apart by their crop."""
    if len(set(near)) == len(near):
        return list(near)
    return [f"{one['name']} ({one['id'].split('.')[0].replace('_', ' ')})" for one in name["alternatives"]][:3]


def either(names: Sequence[str], language: Language) -> str:
    """Names of which one is meant.

    >>> either(["Gala", "Galaxy"], "en")
    'Gala or Galaxy'
    """
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {said('or', language)} {names[-1]}"


def names_of(line: Told) -> str:
    """The names of a line for another sentence, as read or else as written."""
    return " / ".join(name["name"] or name["written"] for name in line["read_as"]) or line["written"]


def tree_words(tree: Told, language: Language, *, trees: int | None = None) -> str:
    """A tree to plant: how many, where that is to be said, of which name, on which root."""
    names = " / ".join(one["name"] for one in tree.get("cultivars", [tree]))
    what = names if trees is None else f"{trees} × {names}"
    root = tree["rootstock"] and tree["rootstock"]["name"]
    return said("on", language, what=what, root=root) if root else what
