"""Which cultivar a name means, told by what stands around it.

One name can belong to two crops. What the text or its column says of the crop decides first, then what the rootstock
carries, then the heading above, and last what the list is mostly made of, which is no more than a guess.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from service.domain.planting_list import How, Mark, Near, ReadName, ReadRootstock
from service.intake.planting_list.lexicon import Bearer, Lexicon
from service.intake.planting_list.near import NearNames, guess
from service.intake.planting_list.phrase import Called

_REMEMBERED = 32_768
_LEAST_INNER = 4
Marks = tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Around:
    """The crops that a name may belong to by what stands around it; an empty set says nothing."""

    said: frozenset[str] = frozenset()
    column: frozenset[str] = frozenset()
    row: frozenset[str] = frozenset()
    root: frozenset[str] = frozenset()
    heading: frozenset[str] = frozenset()
    mostly: frozenset[str] = frozenset()

    @property
    def strong(self) -> frozenset[str]:
        """What the line itself says of the crop."""
        return self.said or self.column

    @property
    def sole(self) -> str | None:
        """The one crop that is said, if it is one."""
        told = self.strong or self.root or self.heading
        return next(iter(told)) if len(told) == 1 else None


class Naming:
    """Reads names and rootstocks; every answer is remembered, since long lists repeat themselves."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon, self.near_names = lexicon, NearNames(lexicon)
        self.near = lru_cache(maxsize=_REMEMBERED)(self.near_names.cultivars)
        self.name: Callable[[Called, Around], tuple[ReadName, Marks]] = lru_cache(maxsize=_REMEMBERED)(self._name)
        self.root: Callable[[str, tuple[str, How] | None], ReadRootstock] = lru_cache(maxsize=4096)(self._root)

    def choice(self, called: Iterable[Called], around: Around) -> tuple[ReadName, Marks]:
        """One name for "this or that": ambiguous between them."""
        named = list(called)
        bearers = [bearer for one in named for bearer in self._fitting(one.bearers, around)[0]]
        written = " or ".join(one.written for one in named)
        return ReadName(written, "ambiguous", None, around.sole, self._all(bearers)), ()

    def _name(self, called: Called, around: Around) -> tuple[ReadName, Marks]:
        if called.bearers:
            return self._known(called.written, called.bearers, around)
        return self._unknown(called, around), ()

    def _known(self, written: str, bearers: tuple[Bearer, ...], around: Around) -> tuple[ReadName, Marks]:
        """A name that is spelt like one or more in the catalogue."""
        if around.strong and not self._fits(bearers, around.strong):
            return self._disagreeing(written, bearers, around)
        left, marks = self._fitting(bearers, around)
        if len(left) == 1:
            cultivar, how = left[0]
            if "crop_from_list" in marks:
                others = self._all(bearer for bearer in bearers if bearer != left[0])
                return ReadName(written, "guess", cultivar, self.lexicon.crop_of(cultivar), others), marks
            return ReadName(written, how, cultivar, self.lexicon.crop_of(cultivar)), marks
        return ReadName(written, "ambiguous", None, None, self._all(left)), marks

    def _fitting(self, bearers: tuple[Bearer, ...], around: Around) -> tuple[tuple[Bearer, ...], Marks]:
        """The bearers that are left when all around the name has been heard, and what told them apart."""
        left = self._fits(bearers, around.said) or bearers
        left, marks = self._fits(left, around.row) or left, list[Mark]()
        told: tuple[tuple[Mark, frozenset[str]], ...] = (
            ("crop_from_column", around.column), ("crop_from_rootstock", around.root),
            ("crop_from_heading", around.heading), ("crop_from_list", around.mostly),
        )  # fmt: skip
        for mark, crops in told:
            fewer = self._fits(left, crops) if len(left) > 1 else left
            if fewer and len(fewer) < len(left):
                left = fewer
                marks.append(mark)
        return left, tuple(marks)

    def _fits(self, bearers: tuple[Bearer, ...], crops: frozenset[str]) -> tuple[Bearer, ...]:
        """The bearers of some crops, or else of crops that share their last word."""
        fit = tuple(one for one in bearers if self.lexicon.crop_of(one[0]) in crops)
        if fit or not crops:
            return fit
        kin = self.lexicon.siblings(crops)
        return tuple(one for one in bearers if self.lexicon.crop_of(one[0]) in kin)

    def _disagreeing(self, written: str, bearers: tuple[Bearer, ...], around: Around) -> tuple[ReadName, Marks]:
        """A name of another crop than the line says: a guess, with the near names of that crop beside it."""
        near = self.near(written, self.lexicon.siblings(around.strong))
        marks: Marks = ("crop_and_name_disagree",)
        if len(bearers) == 1:
            cultivar = bearers[0][0]
            return ReadName(written, "guess", cultivar, self.lexicon.crop_of(cultivar), near), marks
        return ReadName(written, "ambiguous", None, around.sole, (*self._all(bearers), *near)), marks

    def _unknown(self, called: Called, around: Around) -> ReadName:
        """A name that nobody bears: guessed where one is near, and offered what is less near."""
        near = self._nearest(called.written, around)
        inner, _ = self._fitting(called.inner, around)
        if (best := guess(near)) is not None:
            return self._guessed(called.written, best, near)
        offered = (*self._all(inner), *(one for one in near if one.id not in dict(inner)))
        if called.lower and len(inner) == 1 and len(self.lexicon.name_of(inner[0][0])) >= _LEAST_INNER:
            return self._guessed(called.written, offered[0], offered)
        return ReadName(called.written, "not_recognised", None, around.sole, offered)

    def _nearest(self, written: str, around: Around) -> tuple[Near, ...]:
        """Near names of the crop that is told, or of all crops where none of it is near."""
        for crops in (self.lexicon.siblings(around.strong), around.root, around.heading):
            if crops and ((near := self.near(written, crops)) or crops == self.lexicon.siblings(around.strong)):
                return near
        return self.near(written, frozenset())

    def _guessed(self, written: str, best: Near, near: tuple[Near, ...]) -> ReadName:
        others = tuple(one for one in near if one.id != best.id)
        return ReadName(written, "guess", best.id, self.lexicon.crop_of(best.id), others)

    def _all(self, bearers: Iterable[Bearer]) -> tuple[Near, ...]:
        ids = dict.fromkeys(cultivar for cultivar, _ in bearers)
        return tuple(Near(cultivar, self.lexicon.name_of(cultivar), 100.0) for cultivar in ids)

    def _root(self, written: str, found: tuple[str, How] | None) -> ReadRootstock:
        if found:
            return ReadRootstock(written, found[1], found[0])
        near = self.near_names.rootstocks(written)
        if (best := guess(near)) is not None:
            return ReadRootstock(written, "guess", best.id, tuple(one for one in near if one.id != best.id))
        return ReadRootstock(written, "not_recognised", None, near)
