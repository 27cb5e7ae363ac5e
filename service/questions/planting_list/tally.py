"""Counts checked lines as they come by, so that a list of any length is summed in little memory.

Tallies of parts of a list add up to the tally of the whole.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from service.domain.checked_list import VERDICTS, Totals
from service.domain.planting_list import ReadPrice
from service.questions.planting_list.question import CheckedLine

Counted = Counter[str]
_COUNTS = ("lines", "trees", "of_cultivar", "of_crop", "odd")


@dataclass
class Tally:
    """The counts so far: lines and trees by verdict, trees by cultivar and by crop, and what was odd."""

    lines: Counted = field(default_factory=Counter)
    trees: Counted = field(default_factory=Counter)
    of_cultivar: Counted = field(default_factory=Counter)
    of_crop: Counted = field(default_factory=Counter)
    odd: Counted = field(default_factory=Counter)
    prices: dict[str, Decimal] = field(default_factory=dict)
    stock_known: bool = False

    def add(self, checked: CheckedLine) -> None:
        """Count one line."""
        line, verdict = checked.line, checked.verdict
        self.lines[verdict] += 1
        self.trees[verdict] += line.trees
        for name in checked.names:
            if name.tree is not None:
                self.of_cultivar[name.tree.candidate.cultivar.id] += line.trees
                self.of_crop[name.tree.candidate.crop.id] += line.trees
            self.stock_known |= name.short_by is not None
            self.odd["short_in_stock"] += bool(name.short_by)
        self.odd["guesses"] += any(name.how == "guess" for name in line.names)
        self.odd["repeats"] += checked.repeats is not None
        self.odd["without_quantity"] += line.quantity is None
        if line.price is not None:
            self._add_price(line.price, line.trees)

    def merge(self, other: Tally) -> None:
        """Count what another tally counted."""
        for name in _COUNTS:
            getattr(self, name).update(getattr(other, name))
        for currency, amount in other.prices.items():
            self.prices[currency] = self.prices.get(currency, Decimal(0)) + amount
        self.stock_known |= other.stock_known

    def plain(self) -> dict[str, Any]:
        """The counts as plain data, which `tally_of` reads."""
        counts = {name: dict(getattr(self, name)) for name in _COUNTS}
        prices = {currency: str(amount) for currency, amount in self.prices.items()}
        return {**counts, "prices": prices, "stock_known": self.stock_known}

    def totals(self, skipped: int = 0) -> Totals:
        """The sums."""
        return Totals(
            lines={verdict: self.lines[verdict] for verdict in VERDICTS},
            trees={verdict: self.trees[verdict] for verdict in VERDICTS},
            guesses=self.odd["guesses"],
            repeats=self.odd["repeats"],
            without_quantity=self.odd["without_quantity"],
            skipped=skipped,
            prices=dict(sorted(self.prices.items())),  # type: ignore[arg-type]
            priced_lines=self.odd["priced"],
        )

    def _add_price(self, price: ReadPrice, trees: int) -> None:
        """Where nobody says whether a price is for one tree or for all, it counts only where that is the same."""
        if price.each is None and trees != 1:
            return
        amount = price.amount * trees if price.each else price.amount
        currency = price.currency or "not_said"
        self.prices[currency] = self.prices.get(currency, Decimal(0)) + amount
        self.odd["priced"] += 1


def tally_of(plain: Mapping[str, Any]) -> Tally:
    """The tally that was written as plain data.

    >>> tally_of({**Tally().plain(), "lines": {"fits": 3}}).totals().all_lines
    3
    """
    counts = {name: Counter(plain[name]) for name in _COUNTS}
    prices = {currency: Decimal(amount) for currency, amount in plain["prices"].items()}
    return Tally(**counts, prices=prices, stock_known=plain["stock_known"])
