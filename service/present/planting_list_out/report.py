"""A whole checked list in words: the headline, what to know, what to change, what to take care of, and who says so.

Text, mail, spreadsheet and paper say the same, since all of them are made of this.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Any

from service.domain.checked_list import VERDICTS
from service.domain.units import Language
from service.present.hand_out.words import day_of
from service.present.planting_list_out.line_report import WEIGHTS, names_of, tree_words
from service.present.planting_list_out.needs_words import needed
from service.present.planting_list_out.words import SEASONS, counted, said
from service.present.sentences import listed

Told = Mapping[str, Any]
_DIGEST = 12
_OF_PLACE = ("hardiness_zone", "chill_hours", "chill_portions", "plot", "max_height_ft", "sun_hours", "state")


@dataclass(frozen=True, slots=True)
class SourceLine:
    """A source with the address where it is read."""

    text: str
    url: str | None


@dataclass(frozen=True, slots=True)
class ListReport:
    """A checked list in words; `findings` are weighty, `spoken` merely says more."""

    language: Language
    headline: str
    made: str
    totals: str
    place: str
    findings: tuple[str, ...]
    spoken: tuple[str, ...]
    additions: tuple[str, ...]
    changes: tuple[str, ...]
    order: tuple[str, ...]
    cautions: tuple[str, ...]
    not_judged: tuple[str, ...]
    limits: tuple[str, ...]
    sources: tuple[SourceLine, ...]


def list_report(told: Told, lines: Mapping[int, Told], *, on: date) -> ListReport:
    """The report on a told list; `lines` are those that other sentences name, by number, and need not be all."""
    answer = told["answer"]
    writer = _Writer(answer, lines)
    findings = sorted(answer["list_findings"], key=lambda one: WEIGHTS[one["outcome"]])
    return ListReport(
        language=writer.language,
        headline=said(answer["verdict"], writer.language),
        made=writer.said(
            "made", day=day_of(on.isoformat(), language=writer.language), digest=told["rulebook"][:_DIGEST]
        ),
        totals=writer.totals(),
        place=writer.place(),
        findings=tuple(one["text"] for one in findings if one["outcome"] != "say"),
        spoken=tuple(one["text"] for one in findings if one["outcome"] == "say"),
        additions=tuple(writer.additions()),
        changes=tuple(writer.changes()),
        order=tuple(writer.order()),
        cautions=tuple(one["text"] for one in told["cautions"]),
        not_judged=tuple(dict.fromkeys(writer.needs(told["not_judged"]))),
        limits=tuple(answer["read"]["limits_hit"]),
        sources=tuple(_sources(told, writer.language)),
    )


class _Writer:
    def __init__(self, answer: Told, lines: Mapping[int, Told]) -> None:
        self.answer, self.lines = answer, lines
        self.language: Language = answer["language"]

    def said(self, key: str, **values: object) -> str:
        return said(key, self.language, **values)

    def totals(self) -> str:
        totals = self.answer["totals"]
        by_verdict = totals["lines_by_verdict"]
        verdicts = [f"{self.said(verdict)}: {by_verdict[verdict]}" for verdict in VERDICTS if by_verdict.get(verdict)]
        counts = "; ".join(verdicts)
        return self.said(
            "totals",
            lines=counted(totals["lines"], "line_one", "lines", language=self.language),
            trees=counted(totals["trees"], "tree_one", "trees", language=self.language),
            verdicts=counts[:1].upper() + counts[1:],
        )

    def place(self) -> str:
        """What was known of the place, in one line."""
        place = self.answer["place"]
        shown = {name: value for name, value in place.items() if value is not None}
        if "width_ft" in shown and "depth_ft" in shown:
            shown["plot"] = self.said("p_by", width=shown["width_ft"], depth=shown["depth_ft"])
        known = [self.said(f"p_{name}", value=shown[name]) for name in _OF_PLACE if name in shown]
        return self.said("place", known="; ".join(known)) if known else self.said("no_place")

    def needs(self, not_judged: Sequence[Told]) -> Iterator[str]:
        """What would have to be asked."""
        for one in not_judged:
            yield needed(one["needs"] or one["meaning"], self.language)

    def additions(self) -> Iterator[str]:
        addition = self.answer["addition"]
        if addition is None:
            return
        for tree in addition["trees"]:
            yield self.added(tree)
        if addition["unserved"]:
            names = listed([one["name"] for one in addition["unserved"]], language=self.language)
            yield self.said("unserved", names=names)

    def added(self, tree: Told) -> str:
        what = tree_words(tree, self.language)
        if tree["in_stock"]:
            what = self.said("in_stock", what=what, count=tree["in_stock"])
        serves = listed([one["name"] for one in tree["serves"]], language=self.language)
        return self.said("m_added", what=what, serves=serves) if serves else self.said("m_added_alone", what=what)

    def changes(self) -> Iterator[str]:
        """What the cheapest repair changes; what it keeps is not told again."""
        repair = self.answer["repair"]
        if repair is None:
            return
        if not repair["found"]:
            yield self.said("m_none")
            return
        for change in repair["lines"]:
            if change["change"] != "keep":
                yield self.change(change)
        for tree in repair["added"]:
            yield self.added(tree)
        yield self.said("m_after", verdict=self.said(repair["verdict"]))

    def change(self, change: Told) -> str:
        line = self.lines.get(change["line"])
        was = names_of(line) if line else ""
        if change["change"] == "drop":
            what = f"{change['trees']} × {was}" if was else str(change["trees"])
        else:
            what = tree_words(change, self.language, trees=change["trees"])
        return self.said(f"m_{change['change']}", line=change["line"], what=what, was=was)

    def mended(self) -> dict[int, list[str]]:
        """What grows on each line after the repair: none where it is left out."""
        repair = self.answer["repair"] or {"lines": ()}
        names: dict[int, list[str]] = {}
        for change in repair["lines"]:
            planted = [" / ".join(one["name"] for one in change["cultivars"])] if change["cultivars"] else []
            names.setdefault(change["line"], []).extend(planted)
        return names

    def order(self) -> Iterator[str]:
        """The names by the season in which they are planted, in the order of planting."""
        mended = self.mended()
        for season, turns in groupby(self.answer["planting_order"], key=lambda turn: turn["season"]):
            planted = (mended.get(turn["line"], [" / ".join(turn["names"])]) for turn in turns)
            names = dict.fromkeys(name for of_line in planted for name in of_line)
            if not names:
                continue
            when = SEASONS[season][self.language] if season else ""
            yield self.said("order", season=when, names=", ".join(names)).removeprefix(": ")


def _sources(told: Told, language: Language) -> Iterator[SourceLine]:
    """Each source once: those behind the list as a whole first."""
    cited: dict[str, Told] = {}
    memory = set()
    for conclusion in told["conclusions"]:
        for source in conclusion["sources"]:
            cited.setdefault(source["id"], source)
            if source["from_memory"]:
                memory.add(source["id"])
    for name, source in cited.items():
        year = f" ({source['year']})" if source["year"] else ""
        mark = "*" if name in memory else ""
        yield SourceLine(f"{source['publisher']}: {source['title']}{year}{mark}", source["url"])
    if memory:
        yield SourceLine("* " + said("from_memory", language), None)
