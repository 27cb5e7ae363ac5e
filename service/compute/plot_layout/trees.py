"""Trees before and after they are given a place. Lengths are feet, measured from the left front corner of the plot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Circle:
    """A tree that stands on the plot already."""

    x_ft: float
    y_ft: float
    spacing_ft: float


@dataclass(frozen=True, slots=True)
class ToPlace:
    """A tree to place: how wide it grows, which is drawn, and how far it stands from its own kind."""

    spread_ft: float
    spacing_ft: float

    def __post_init__(self) -> None:
        if self.spacing_ft <= 0 or self.spread_ft < 0:
            raise ValueError(f"a tree takes some room, not {self.spacing_ft} ft, and is not {self.spread_ft} ft wide")


@dataclass(frozen=True, slots=True)
class Placed:
    """A tree with its place; `tree` counts the trees from nought, as they were given."""

    tree: int
    x_ft: float
    y_ft: float
    spread_ft: float
    spacing_ft: float


@dataclass(frozen=True, slots=True)
class Layout:
    """The trees with a place, in the order in which they were given, and those that found none.

    `nearest_ft` is how far each stands from the nearest other trunk; a lone tree has no such distance.
    """

    placed: tuple[Placed, ...]
    left_over: tuple[int, ...]
    nearest_ft: Mapping[int, float]
