"""The columns that we put beside the customer's own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.domain.units import Language, quantity_text
from service.present.hand_out.words import days_of
from service.present.planting_list_out.line_report import line_report, read_as
from service.present.planting_list_out.words import said

Told = Mapping[str, Any]
Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class OurColumn:
    """A column: the key of its heading, its width in letters, and its value for a line."""

    heading: str
    width: float
    value: Callable[[Told, Language], Cell]


def _findings(line: Told, language: Language) -> str:
    report = line_report(line, language)
    return "\n".join((*report.sentences, *report.spoken))


def _each(line: Told, value: Callable[[Told], str | None]) -> str | None:
    """A value for each tree that was judged; those of a tree with several names under one another."""
    found = [value(tree) for tree in line["judged"]]
    return "\n".join(one or "–" for one in found) if any(found) else None


def _number(line: Told, key: str) -> Cell:
    """A number where one tree was judged; where several grow on one it is told for each."""
    values = [tree[key] for tree in line["judged"]]
    if len(values) == 1 or not any(value is not None for value in values):
        return values[0] if values else None
    return "\n".join("–" if value is None else str(value) for value in values)


def _height(tree: Told, language: Language) -> str | None:
    high = tree["mature_height_ft"]["high"]
    return None if high is None else quantity_text(high, "ft", language=language)


def _spacing(tree: Told, language: Language) -> str | None:
    spacing = tree["spacing_ft"]
    return None if spacing is None else quantity_text(spacing, "ft", language=language)


def _harvest(tree: Told, language: Language) -> str | None:
    harvest = tree["harvest"]
    return None if harvest is None else days_of(harvest["from"], harvest["to"], language=language)


def _substitutes(line: Told, language: Language) -> str | None:
    return ", ".join(dict.fromkeys(_substituted(line, language))) or None


def _substituted(line: Told, language: Language) -> Iterator[str]:
    for tree in line["judged"]:
        for other in tree["substitutes"]:
            root = other["rootstock"]
            yield said("on", language, what=other["name"], root=root["name"]) if root else other["name"]


OUR_COLUMNS = (
    OurColumn("c_line", 6, lambda line, _: int(line["line"])),
    OurColumn("c_read_as", 34, read_as),
    OurColumn("c_verdict", 16, lambda line, language: said(line["verdict"], language)),
    OurColumn("c_findings", 70, _findings),
    OurColumn("c_trees", 7, lambda line, _: int(line["trees"])),
    OurColumn("c_root", 20, lambda line, _: _each(line, lambda tree: (tree["rootstock"] or {}).get("name"))),
    OurColumn("c_fit", 8, lambda line, _: _number(line, "fit")),
    OurColumn("c_stock", 10, lambda line, _: _number(line, "in_stock")),
    OurColumn("c_short", 8, lambda line, _: _number(line, "short_by")),
    OurColumn("c_substitutes", 34, _substitutes),
    OurColumn("c_spacing", 16, lambda line, language: _each(line, lambda tree: _spacing(tree, language))),
    OurColumn("c_height", 16, lambda line, language: _each(line, lambda tree: _height(tree, language))),
    OurColumn("c_harvest", 26, lambda line, language: _each(line, lambda tree: _harvest(tree, language))),
)
