"""What the choice of a planting set is made from: the trees on offer, the plot, the wishes and the weights."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

ALL_MONTHS = frozenset(range(1, 13))


@dataclass(frozen=True, slots=True)
class Limb:
    """One cultivar on a tree, how many partners it needs, and whose pollen serves it: proven, or merely likely."""

    cultivar: str
    partners_needed: int
    proven: frozenset[str] = frozenset()
    likely: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        if self.partners_needed < 0:
            raise ValueError(f"{self.cultivar}: a tree needs no partner or some, not {self.partners_needed}")


@dataclass(frozen=True, slots=True)
class Tree:
    """One tree on offer; several limbs make a multi-grafted tree. A spacing of None is unknown."""

    id: str
    crop: str
    limbs: tuple[Limb, ...]
    fit: float
    months: frozenset[int]
    spacing_ft: float | None

    def __post_init__(self) -> None:
        if not self.limbs:
            raise ValueError(f"{self.id}: a tree carries at least one cultivar")
        if self.spacing_ft is not None and self.spacing_ft <= 0:
            raise ValueError(f"{self.id}: a spacing lies above zero, not at {self.spacing_ft}")


@dataclass(frozen=True, slots=True)
class StandingPartner:
    """A cultivar that stands near already; `crops_alone` where it needs no partner itself."""

    cultivar: str
    crops_alone: bool = False


@dataclass(frozen=True, slots=True)
class Plot:
    """The ground for trees in feet; `edge_share` is the part of its spacing that a tree keeps to the edge."""

    width_ft: float
    depth_ft: float
    edge_share: float

    def __post_init__(self) -> None:
        if not 0 <= self.edge_share <= 0.5:
            raise ValueError(f"a tree keeps between none and half of its spacing to the edge, not {self.edge_share}")


@dataclass(frozen=True, slots=True)
class Weights:
    """Points: a tree earns its fit above `worth_fit`; each month and each crop covered and each unproven partner."""

    worth_fit: float
    month: float
    crop: float
    unproven_partner: float

    def __post_init__(self) -> None:
        if min(self.month, self.crop, self.unproven_partner) < 0:
            raise ValueError("months and crops earn points, and an unproven partner costs some; none lies below zero")


@dataclass(frozen=True, slots=True)
class Order:
    """One choice to make. A plot of None is of unknown size; no wished month means that any month is welcome."""

    trees: tuple[Tree, ...]
    max_trees: int
    weights: Weights
    plot: Plot | None = None
    standing: tuple[StandingPartner, ...] = ()
    wished_months: frozenset[int] = frozenset()
    months_already: frozenset[int] = frozenset()
    max_of_crop: int | None = None

    def __post_init__(self) -> None:
        if self.max_trees < 1:
            raise ValueError(f"a planting holds at least one tree, not {self.max_trees}")
        if len({tree.id for tree in self.trees}) != len(self.trees):
            raise ValueError("two trees on offer have the same id")

    @property
    def open_months(self) -> frozenset[int]:
        """The months that a new tree may cover: wished for, and not yet covered by a standing tree."""
        return (self.wished_months or ALL_MONTHS) - self.months_already

    @property
    def plantable(self) -> tuple[Tree, ...]:
        """The trees that can stand on the plot by themselves, in order of id; an unknown spacing fits no known plot."""
        return tuple(sorted(self._plantable(), key=lambda tree: tree.id))

    def _plantable(self) -> Iterator[Tree]:
        for tree in self.trees:
            if self.plot is None:
                yield tree
            elif tree.spacing_ft is not None:
                room_ft = 2 * self.plot.edge_share * tree.spacing_ft
                if room_ft <= min(self.plot.width_ft, self.plot.depth_ft):
                    yield tree
