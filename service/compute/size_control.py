"""How tall a tree grows on a root, from the surest statement that there is.

A height stated for the root itself comes first. Failing that, the size of the root (in percent of a tree on seedling
roots) is taken of the height of the crop on seedling roots. Failing that, the height of the crop as a whole. What
nobody states stays unknown.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from service.domain.crop import Crop
from service.domain.provenance import Span, Stated
from service.domain.rootstock import Rootstock

HeightBasis = Literal["rootstock", "share_of_seedling", "crop"]
PERCENT = 100


@dataclass(frozen=True, slots=True)
class Height:
    """A mature height in feet, what it rests on, and who says so."""

    span_ft: Span
    basis: HeightBasis
    sources: tuple[str, ...]
    from_memory: bool


def mature_height(crop: Crop, root: Rootstock | None) -> Height | None:
    """The mature height of a crop on a root, or of the crop where the root is unknown; None where nobody states it."""
    if root is not None and root.height_ft is not None:
        return _height(root.height_ft.value, "rootstock", root.height_ft)
    if crop.height_ft is None:
        return None
    if root is not None and root.size_percent is not None:
        span = share_of(crop.height_ft.value, root.size_percent.value)
        return _height(span, "share_of_seedling", crop.height_ft, root.size_percent)
    return _height(crop.height_ft.value, "crop", crop.height_ft)


def share_of(standard_ft: Span, percent: Span) -> Span:
    """The heights that a root of a given size leaves of the height on seedling roots.

    A standard tree of 20-30 ft on a root of 50-60 % (source psu-apple-roots gives such percentages):

    >>> share_of(Span(20, 30), Span(50, 60))
    Span(low=10.0, high=18.0)
    """
    return Span(_product(standard_ft.low, percent.low), _product(standard_ft.high, percent.high))


def height_over_wanted(height: Height | None, wanted_ft: float | None) -> float | None:
    """The lower end of the mature height divided by the height wanted; above 1 the tree outgrows the wish."""
    if height is None or wanted_ft is None or height.span_ft.low is None:
        return None
    return height.span_ft.low / wanted_ft


def roots_within(crop: Crop, roots: Iterable[Rootstock], wanted_ft: float) -> tuple[Rootstock, ...]:
    """The roots of a crop whose trees are known to stay at or under a height, the smallest tree first."""
    heights = [(root, mature_height(crop, root)) for root in roots if crop.id in root.crops]
    within = [
        (height.span_ft.middle, root.id, root)
        for root, height in heights
        if height is not None and height.span_ft.high is not None and height.span_ft.high <= wanted_ft
    ]
    return tuple(root for _, _, root in sorted(within, key=lambda entry: entry[:2]))


def _product(length: float | None, percent: float | None) -> float | None:
    return None if length is None or percent is None else length * percent / PERCENT


def _height(span: Span, basis: HeightBasis, *stated: Stated[Span]) -> Height:
    return Height(
        span_ft=span,
        basis=basis,
        sources=tuple(dict.fromkeys(source for each in stated for source in each.sources)),
        from_memory=any(each.from_memory for each in stated),
    )
