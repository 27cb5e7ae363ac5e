"""Keeps labels from covering one another, and breaks names so that they fit into a crown."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from service.present.drawings.shapes import Words, words_length

_ASCENT, _DESCENT = 0.75, 0.23  # of the font size
MAX_LINES = 3
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Area) -> bool:
        """Whether the two cover a common spot.

        >>> Area(0, 0, 10, 10).meets(Area(10, 0, 20, 10)), Area(0, 0, 10, 10).meets(Area(9, 9, 20, 20))
        (False, True)
        """
        beside = self.right <= other.left or other.right <= self.left
        return not (beside or self.bottom <= other.top or other.bottom <= self.top)

    def share_of(self, start: Point, end: Point) -> tuple[float, float] | None:
        """The part of a line that lies within, as shares of its length; None where it passes by.

        >>> Area(2, -1, 5, 1).share_of((0, 0), (10, 0)), Area(2, 1, 5, 2).share_of((0, 0), (10, 0))
        ((0.2, 0.5), None)
        """
        first, last = 0.0, 1.0
        for low, high, at, to in ((self.left, self.right, start[0], end[0]), (self.top, self.bottom, start[1], end[1])):
            if at == to:
                if not low < at < high:
                    return None
                continue
            one, other = sorted(((low - at) / (to - at), (high - at) / (to - at)))
            first, last = max(first, one), min(last, other)
        return (first, last) if first < last else None


def around(areas: Iterable[Area]) -> Area:
    """The smallest area that holds some others.

    >>> around([Area(0, 0, 1, 1), Area(3, 2, 4, 5)])
    Area(left=0, top=0, right=4, bottom=5)
    """
    held = tuple(areas)
    return Area(
        min(one.left for one in held),
        min(one.top for one in held),
        max(one.right for one in held),
        max(one.bottom for one in held),
    )


def area_of(words: Words, *, around: float = 0.0) -> Area:
    """What some words cover, with a little room around them."""
    before = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * words.length
    up, down = words.size * _ASCENT + around, words.size * _DESCENT + around
    if words.turned:
        bottom = words.y + before
        return Area(words.x - up, bottom - words.length - around, words.x + down, bottom + around)
    left = words.x - before
    return Area(left - around, words.y - up, left + words.length + around, words.y + down)


@dataclass
class Taken:
    """The areas that labels have taken so far."""

    areas: list[Area] = field(default_factory=list)

    def take(self, *areas: Area) -> None:
        """Take areas without asking."""
        self.areas.extend(areas)

    def take_if_free(self, *areas: Area) -> bool:
        """Take areas if no label is there yet, all or none."""
        if any(area.meets(other) for area in areas for other in self.areas):
            return False
        self.take(*areas)
        return True


    def left_of(self, start: Point, end: Point) -> tuple[tuple[Point, Point], ...]:
        """The parts of a line that no label covers.

        >>> Taken([Area(4, -1, 6, 1)]).left_of((0, 0), (10, 0))
        (((0.0, 0.0), (4.0, 0.0)), ((6.0, 0.0), (10.0, 0.0)))
        """
        parts, at = [], 0.0
        for first, last in sorted(filter(None, (area.share_of(start, end) for area in self.areas))):
            if first > at:
                parts.append((at, first))
            at = max(at, last)
        parts += [(at, 1.0)] if at < 1 else []
        return tuple((_along(start, end, first), _along(start, end, last)) for first, last in parts)


def _along(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def broken(text: str, lines: int) -> tuple[str, ...]:
    """A name on some lines, broken at spaces so that the longest line is as short as can be.

    >>> broken("Cox's Orange Pippin", 2), broken("Liberty", 2)
    (("Cox's Orange", 'Pippin'), ('Liberty',))
    """
    words = text.split(" ")
    breaks = combinations(range(1, len(words)), min(lines, len(words)) - 1)
    ways = (tuple(" ".join(words[start:end]) for start, end in pairwise((0, *at, len(words)))) for at in breaks)
    return min(ways, key=lambda way: max(map(len, way)))


def inside_crown(text: str, radius: float, *, sizes: tuple[float, ...], top: float) -> tuple[Words, ...]:
    """A name within a circle around nought, from `top` below its centre downwards; nothing where it does not fit."""
    for size in sizes:
        for count in range(1, MAX_LINES + 1):
            lines = tuple(
                Words(0.0, top + size * (1 + place) - size * _DESCENT, line, size, "middle")
                for place, line in enumerate(broken(text, count))
            )
            if all(_within(line, radius) for line in lines):
                return lines
    return ()


def _within(words: Words, radius: float) -> bool:
    low = words.y + words.size * _DESCENT
    return low < radius and words_length(words.text, words.size) <= 2 * math.sqrt(radius**2 - low**2)
