"""The nearest cultivar that fits, where the one on the list does not or the store is short of it.

Nearest is the same crop, picked at about the same time and of the same uses; among such the fittest comes first. Where
the stock is known, only what is in stock is offered.
"""

from __future__ import annotations

from service.compute.harvest import YEAR_DAYS, Window
from service.domain.cultivar import SEASONS, Cultivar
from service.questions.planting_list.stock import Shelf
from service.questions.planting_list.tree import TreesHere
from service.questions.suggestion import Candidate

_WEEK_DAYS = 7
_NOT_COMPARABLE = 99


class Substitutes:
    """Finds substitutes at one place; each is looked for once."""

    def __init__(self, trees: TreesHere, shelf: Shelf | None) -> None:
        self._trees, self._shelf = trees, shelf
        self._fitting: dict[str, tuple[Candidate, ...]] = {}
        self._found: dict[str, tuple[Candidate, ...]] = {}
        self._most = int(trees.known.number("planting_list.answer.substitutes"))

    def of(self, cultivar: str) -> tuple[Candidate, ...]:
        """The nearest that fit in place of this one, the nearest first."""
        found = self._found.get(cultivar)
        if found is None:
            wanted = self._trees.known.cultivars[cultivar]
            others = [one for one in self.fitting(wanted.crop.id) if one.cultivar.id != cultivar]
            others.sort(key=lambda one: _distance(one, wanted.cultivar, wanted.harvest))
            found = self._found[cultivar] = tuple(others[: self._most])
        return found

    def fitting(self, crop: str) -> tuple[Candidate, ...]:
        """The cultivars of a crop that fit the place and are in stock where the stock is known."""
        if crop not in self._fitting:
            judged = (self._trees.candidate(known.cultivar.id) for known in self._trees.known.by_crop[crop])
            self._fitting[crop] = tuple(one for one in judged if one.fits and self._offered(one.cultivar.id))
        return self._fitting[crop]

    def _offered(self, cultivar: str) -> bool:
        return self._shelf is None or self._shelf.holds(cultivar) > 0


def _distance(one: Candidate, wanted: Cultivar, picked: Window | None) -> tuple[int, int, int, str]:
    """Weeks between the harvests, wished uses that it lacks, then the fit."""
    uses = set() if wanted.uses is None else set(wanted.uses.value)
    has = set() if one.cultivar.uses is None else set(one.cultivar.uses.value)
    return _weeks_apart(one, wanted, picked), len(uses - has), -one.fit, one.cultivar.id


def _weeks_apart(one: Candidate, wanted: Cultivar, picked: Window | None) -> int:
    if picked is not None and one.harvest is not None:
        days = abs(picked.from_day - one.harvest.from_day)
        return min(days, YEAR_DAYS - days) // _WEEK_DAYS
    if wanted.ripening is not None and one.cultivar.ripening is not None:
        return abs(SEASONS.index(wanted.ripening.value) - SEASONS.index(one.cultivar.ripening.value))
    return _NOT_COMPARABLE
