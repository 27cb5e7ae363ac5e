"""The checked planting list as plain data: each line as it was read and judged, then the list as a whole."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from service.domain.checked_list import AddedTree, Addition, LineChange
from service.domain.units import Language
from service.present.advice import About, Advice
from service.present.planting_list_drawn import chart_data, sketch_data
from service.present.planting_list_line import LineWriter, name_of, root_of
from service.present.sentences import Sentences
from service.questions.planting_list import CheckedList, Mended
from service.reasoning.rulebook import Rulebook

OF_PLACE = ("hardiness_zone", "chill_hours", "chill_portions", "width_ft", "depth_ft", "max_height_ft", "sun_hours")


def planting_list_advice(checked: CheckedList, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the answer in it."""
    return _Writer(checked, rulebook, language).envelope()


def subject(line: int) -> str:
    """What a conclusion on a line is about.

    >>> subject(3)
    'line.3'
    """
    return f"line.{line}"


class _Writer:
    def __init__(self, checked: CheckedList, rulebook: Rulebook, language: Language) -> None:
        self.checked, self.rulebook, self.language = checked, rulebook, language
        self.southern = checked.site.southern
        self.sentences = Sentences(rulebook, language=language, southern=self.southern)
        self.advice = Advice(rulebook, self.sentences)
        self.by_number = {line.line.line: line for line in checked.lines}
        self.lines = LineWriter(rulebook, self.sentences, self.advice, southern=self.southern)

    def envelope(self) -> dict[str, Any]:
        told = {
            "language": self.language,
            "place": self.place(),
            "verdict": self.checked.verdict,
            "looked_at_whole": self.checked.whole,
            "lines": [self.lines.line(line) for line in self.checked.lines],
            "list_findings": self.advice.reasons(self.checked.judgement.conclusions),
            "totals": self.totals(),
            "sketch": sketch_data(self.checked, self.sentences, self.rulebook),
            "harvest": chart_data(self.checked.harvest, self.rulebook, southern=self.southern),
            "addition": self.addition(self.checked.addition),
            "repair": self.repair(self.checked.mended),
            "planting_order": [self.turn(number) for number in self.checked.order],
            "read": self.read(),
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=self.checked.not_judged)

    def concluded(self) -> Iterable[About]:
        """The conclusions on the whole list first, then those on each line."""
        yield from (About(one) for one in self.checked.judgement.conclusions)
        for line in self.checked.lines:
            for name in line.names:
                yield from (About(one, subject(line.line.line)) for one in name.judgement.conclusions)

    def place(self) -> dict[str, str | None]:
        """What was known of the place, as a person reads it."""
        facts = self.checked.site_facts
        found = {name: facts.get(f"site.{name}") for name in OF_PLACE}
        shown = {name: None if value is None else self.sentences.value(f"site.{name}", value)
                 for name, value in found.items()}  # fmt: skip
        return {**shown, "state": self.checked.place.state}

    def totals(self) -> dict[str, Any]:
        totals = self.checked.totals
        return {
            "lines": totals.all_lines,
            "trees": totals.all_trees,
            "lines_by_verdict": dict(totals.lines),
            "trees_by_verdict": dict(totals.trees),
            "guesses": totals.guesses,
            "repeats": totals.repeats,
            "without_quantity": totals.without_quantity,
            "skipped": totals.skipped,
            "priced_lines": totals.priced_lines,
            "prices": [{"currency": name, "amount": float(amount)} for name, amount in totals.prices.items()],
        }

    def addition(self, addition: Addition | None) -> dict[str, Any] | None:
        if addition is None:
            return None
        return {
            "trees": [self.added(tree) for tree in addition.trees],
            "unserved": [name_of(one, self.rulebook) for one in addition.unserved],
        }

    def added(self, tree: AddedTree) -> dict[str, Any]:
        return {
            **self.lines.named(tree.cultivar),
            "rootstock": root_of(tree.rootstock, self.rulebook),
            "fit": tree.fit,
            "serves": [name_of(one, self.rulebook) for one in tree.serves],
            "in_stock": tree.in_stock,
        }

    def repair(self, mended: Mended | None) -> dict[str, Any] | None:
        if mended is None:
            return None
        repair, after = mended.repair, mended.after
        if repair is None or after is None:
            return {"found": False, "reason": mended.reason, "verdict": None, "cost": None, "proven": None,
                    "lines": [], "added": [], "sketch": None}  # fmt: skip
        return {
            "found": True,
            "reason": None,
            "verdict": after.verdict,
            "cost": repair.cost,
            "proven": repair.proven,
            "lines": [self.change(line) for line in repair.lines],
            "added": [self.added(tree) for tree in repair.added],
            "sketch": sketch_data(after, self.sentences, self.rulebook),
        }

    def change(self, change: LineChange) -> dict[str, Any]:
        return {
            "line": change.line,
            "change": change.change,
            "trees": change.trees,
            "cultivars": [name_of(one, self.rulebook) for one in change.cultivars],
            "rootstock": root_of(change.rootstock, self.rulebook),
        }

    def turn(self, number: int) -> dict[str, Any]:
        line = self.by_number[number]
        seasons = [name.judgement.concluded.get("planting_season") for name in line.names]
        return {
            "line": number,
            "names": [name.tree.candidate.cultivar.denomination for name in line.names if name.tree is not None],
            "season": next((season for season in seasons if season is not None), None),
        }

    def read(self) -> dict[str, Any]:
        """What was read, and how: the sources, the rows that are no lines, and the limits that were reached."""
        return {
            "sources": [
                {
                    **self.lines.place(source.place),
                    "kind": source.kind,
                    "encoding": source.encoding,
                    "separator": source.separator,
                    "headings": list(source.headings),
                    "mail": None if source.mail is None else asdict(source.mail),
                }
                for source in self.checked.sources
            ],
            "skipped": [
                {
                    **self.lines.place(one.row.place),
                    "row": one.row.number,
                    "written": one.row.text,
                    "cells": [cell.text for cell in one.row.cells],
                    "why": one.why,
                }
                for one in self.checked.skipped
            ],
            "limits_hit": list(self.checked.limits_hit),
        }
