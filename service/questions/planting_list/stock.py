"""What the store has of the trees that a list asks for."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from service.domain.store import StockItem
from service.questions.planting_list.tree import RootAsked
from service.reasoning.vocabulary import Value


class Shelf:
    """The trees in stock by cultivar and root, and what has been asked for of them."""

    def __init__(self, stock: Iterable[StockItem]) -> None:
        self._kept: Counter[tuple[str, str | None]] = Counter()
        self._asked: Counter[tuple[str, str | None]] = Counter()
        self._of_cultivar: Counter[str] = Counter()
        for item in stock:
            self._kept[item.cultivar, item.rootstock] += item.quantity
            self._of_cultivar[item.cultivar] += item.quantity

    def holds(self, cultivar: str) -> int:
        """Trees of a cultivar on any root."""
        return self._of_cultivar[cultivar]

    def asked_for(self, cultivar: str, asked: RootAsked, trees: int) -> None:
        """Note that a line asks for so many."""
        self._asked[cultivar, asked.rootstock] += trees

    def facts(self, cultivar: str, asked: RootAsked, trees: int) -> dict[str, Value]:
        """What is in stock for a line; `trees` where nothing was noted, as for a list that is too long."""
        root = asked.rootstock
        kept = self.holds(cultivar) if root is None else self._kept[cultivar, root]
        wanted = self._asked[cultivar, root] or trees
        if root is None:
            wanted = sum(count for (one, _), count in self._asked.items() if one == cultivar) or trees
        return {
            "stock.quantity": kept,
            "stock.other_roots": self.holds(cultivar) - kept,
            "stock.short_by": max(0, wanted - kept),
        }
