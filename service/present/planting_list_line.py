"""One line of a planting list: what was written, what it was read as, and what rules and the variety question say."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from service.domain.month_day import season_day
from service.domain.planting_list import Place, ReadLine, ReadName, ReadRootstock, ReadSize
from service.present.advice import Advice
from service.present.sentences import Sentences
from service.questions.planting_list import CheckedLine, CheckedName, TreeHere
from service.questions.suggestion import Candidate
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook

_TOLD_ALWAYS = ("forbid", "set_aside", "advise", "caution", "mark_down")
_FOR = 2
_KEPT = 8_000


def name_of(cultivar: str, rulebook: Rulebook) -> dict[str, str]:
    """A cultivar by id and name."""
    return {"cultivar": cultivar, "name": rulebook.catalogue.cultivars[cultivar].denomination}


def root_of(rootstock: str | None, rulebook: Rulebook) -> dict[str, str] | None:
    """A rootstock by id and name."""
    return None if rootstock is None else {"id": rootstock, "name": rulebook.catalogue.rootstocks[rootstock].name}


class LineWriter:
    """Writes lines of one list."""

    def __init__(self, rulebook: Rulebook, sentences: Sentences, advice: Advice, *, southern: bool) -> None:
        self._book, self._sentences, self._advice, self._southern = rulebook, sentences, advice, southern
        self._reasons: dict[int, tuple[TreeHere, list[dict[str, Any]]]] = {}

    def line(self, checked: CheckedLine) -> dict[str, Any]:
        """The whole line."""
        line = checked.line
        return {
            "line": line.line,
            **self.place(line.row.place),
            "row": line.row.number,
            "written": line.written,
            "cells": [cell.text for cell in line.row.cells],
            "read_as": [self._read(name) for name in line.names],
            "quantity": line.quantity,
            "trees": line.trees,
            "rootstock": self._rootstock(line.rootstock),
            "size": self._size(line.size),
            "price": self._price(line),
            "note": line.note,
            "marks": list(line.marks),
            "repeats_line": checked.repeats,
            "verdict": checked.verdict,
            "findings": self._findings(checked.names),
            "judged": [self._judged(name) for name in checked.names if name.tree is not None],
        }

    def place(self, place: Place) -> dict[str, str | None]:
        """Where a row stands."""
        return {"file": place.file, "sheet": place.sheet, "attachment": place.attachment}

    def named(self, cultivar: str) -> dict[str, Any]:
        """A cultivar with its crop."""
        crop = self._book.catalogue.cultivars[cultivar].crop
        return {**name_of(cultivar, self._book), "crop": crop, "crop_name": self._sentences.crop(crop)}

    def _read(self, name: ReadName) -> dict[str, Any]:
        known = name.cultivar is not None
        return {
            "written": name.written,
            "how": name.how,
            "cultivar": name.cultivar,
            "name": self._book.catalogue.cultivars[name.cultivar].denomination if name.cultivar and known else None,
            "crop": name.crop,
            "crop_name": None if name.crop is None else self._sentences.crop(name.crop),
            "alternatives": [{"id": near.id, "name": near.name, "score": near.score} for near in name.alternatives],
        }

    def _rootstock(self, root: ReadRootstock | None) -> dict[str, Any] | None:
        if root is None:
            return None
        return {
            "written": root.written,
            "how": root.how,
            "id": root.rootstock,
            "name": None if root.rootstock is None else self._book.catalogue.rootstocks[root.rootstock].name,
            "alternatives": [{"id": near.id, "name": near.name, "score": near.score} for near in root.alternatives],
        }

    def _size(self, size: ReadSize | None) -> dict[str, Any] | None:
        if size is None:
            return None
        return {
            "written": size.written,
            "tree": size.tree,
            "form": size.form,
            "container": size.container,
            "box_in": size.box_in,
            "height_ft": _span(size.height_ft),
            "caliper_in": _span(size.caliper_in),
        }

    def _price(self, line: ReadLine) -> dict[str, Any] | None:
        price = line.price
        if price is None:
            return None
        return {"written": price.written, "amount": float(price.amount), "currency": price.currency, "each": price.each}

    def _findings(self, names: Sequence[CheckedName]) -> list[dict[str, Any]]:
        """What rules on lists say of each name; of several names on a tree each is told apart."""
        return [
            {**reason, "cultivar": None if name.tree is None else name.tree.candidate.cultivar.id}
            for name in names
            for reason in self._advice.reasons(name.judgement.conclusions)
        ]

    def _judged(self, name: CheckedName) -> dict[str, Any]:
        tree = name.tree
        assert tree is not None
        facts, one = tree.facts, tree.candidate
        return {
            **self.named(one.cultivar.id),
            "verdict": name.verdict,
            "fit": tree.fit,
            "fits": tree.fits,
            "rootstock": root_of(None if one.root.rootstock is None else one.root.rootstock.id, self._book),
            "rootstock_basis": tree.basis,
            "spacing_ft": facts.get("tree.spacing_ft"),
            "mature_height_ft": {
                "low": facts.get("tree.height_low_ft"),
                "high": facts.get("tree.height_high_ft"),
                "basis": facts.get("tree.height_basis"),
            },
            "harvest": self._harvest(tree),
            "pollination": _pollination(name),
            "in_stock": name.judgement.facts.get("stock.quantity"),
            "short_by": name.short_by,
            "substitutes": [self._substitute(other) for other in name.substitutes],
            "reasons": self._reasons_of(tree),
        }

    def _reasons_of(self, tree: TreeHere) -> list[dict[str, Any]]:
        """What the variety question says of a tree; of many lines that ask for the same one it is written once."""
        found = self._reasons.get(id(tree))
        if found is None:
            if len(self._reasons) >= _KEPT:
                self._reasons.clear()
            reasons = self._advice.reasons(_worth_telling(tree.conclusions))
            found = self._reasons[id(tree)] = tree, reasons  # with the tree, so that no other gets its number
        return found[1]

    def _harvest(self, tree: TreeHere) -> dict[str, Any] | None:
        window = tree.candidate.harvest
        if window is None:
            return None
        first, last = (season_day(day, southern=self._southern).text for day in (window.from_day, window.to_day))
        return {"from": first, "to": last, "basis": window.basis}

    def _substitute(self, one: Candidate) -> dict[str, Any]:
        root = one.root.rootstock
        return {
            **name_of(one.cultivar.id, self._book),
            "fit": one.fit,
            "rootstock": root_of(None if root is None else root.id, self._book),
        }


def _pollination(name: CheckedName) -> dict[str, Any]:
    facts = name.judgement.facts
    return {
        "partners_needed": facts.get("pollen.partners_needed"),
        "served": facts.get("pollen.served"),
        "shown_by": facts.get("pollen.shown_by"),
        "first_partner": facts.get("pollen.first_partner"),
        "partners_listed": facts.get("pollen.partners_listed"),
        "partners_standing": facts.get("pollen.partners_standing"),
    }


def _worth_telling(conclusions: Iterable[Conclusion]) -> list[Conclusion]:
    """What to do and what speaks against it, and the weightiest of what speaks for it."""
    told = list(conclusions)
    speaking_for = sorted((one for one in told if one.outcome == "prefer"), key=lambda one: -one.points)[:_FOR]
    return [one for one in told if one.outcome in _TOLD_ALWAYS or one in speaking_for]


def _span(span: tuple[float, float] | None) -> dict[str, float] | None:
    return None if span is None else {"low": span[0], "high": span[1]}
