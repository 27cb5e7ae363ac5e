"""The ground of a planting sketch: the plot with its grid, its sizes, and a scale in feet above one in metres."""

from __future__ import annotations

import math
from collections.abc import Iterator

from service.domain.units import FOOT_M, Language, quantity_text
from service.present.drawings.drawing_words import SKETCH
from service.present.drawings.shapes import GREY, INK, PALE, WHITE, Box, Shape, Stroke, Words
from service.present.drawings.sketch_plan import TOP, View

_SMALL, _SIZE = 7.0, 8.0
_BAR_LEFT, _BAR_HEIGHT, _LONGEST_BAR = 8.0, 4.0, 160.0
_METRES = (0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 15.0, 30.0, 60.0, 150.0, 300.0)


def grid(view: View) -> Iterator[Shape]:
    """The plot with a line each few feet, and their numbers along the front and the left."""
    yield Box(view.left, view.back, view.right - view.left, view.front - view.back, fill=WHITE)
    for ft in _steps(view.step_ft, view.shown_width_ft):
        yield Stroke(((view.x(ft), view.front), (view.x(ft), view.back)), PALE, 0.4)
        yield Words(view.x(ft), view.bottom + 10, f"{ft:g}", _SMALL, "middle", colour=GREY)
    for ft in _steps(view.step_ft, view.shown_depth_ft):
        yield Stroke(((view.left, view.y(ft)), (view.right, view.y(ft))), PALE, 0.4)
        yield Words(view.axis - 4, view.y(ft) + 2.5, f"{ft:g}", _SMALL, "end", colour=GREY)


def edges(view: View) -> Iterator[Shape]:
    """The edges of the plot; where the plot goes on, the edge is broken."""
    left, right, front, back = view.left, view.right, view.front, view.back
    yield Stroke(((left, back), (left, front), (right, front)), INK, 1.4)
    yield _far_edge(((right, front), (right, back)), goes_on=view.goes_on_right)
    yield _far_edge(((left, back), (right, back)), goes_on=view.goes_on_back)


def _far_edge(points: tuple[tuple[float, float], ...], *, goes_on: bool) -> Stroke:
    return Stroke(points, GREY, 0.8, dash=(2.0, 3.0)) if goes_on else Stroke(points, INK, 1.4)


def sides(view: View, language: Language) -> Iterator[Words]:
    """How wide and how deep the plot is; the depth stands upright at the left where the map is high enough for it."""
    depth = quantity_text(view.depth_ft, "ft", language=language)
    front = f"{SKETCH['front'][language]}: {quantity_text(view.width_ft, 'ft', language=language)}"
    upright = Words(view.axis - 26, (view.front + view.back) / 2, depth, _SIZE, "middle", turned=True)
    if upright.length <= view.bottom - TOP:
        yield upright
    else:
        front = f"{front}, {SKETCH['depth'][language]}: {depth}"
    yield Words((view.left + view.right) / 2, view.bottom + 22, front, _SIZE, "middle")


def scale_bar(view: View, top: float) -> Iterator[Shape]:
    """A scale in feet above one in metres."""
    feet = view.step_ft * 2 if view.step_ft * 2 * view.scale <= _LONGEST_BAR else view.step_ft
    metres = max((one for one in _METRES if one <= feet * FOOT_M), default=_METRES[0])
    yield from _bar(top + 9, feet * view.scale, f"{feet:g} ft")
    yield from _bar(top + 19, metres / FOOT_M * view.scale, f"{metres:g} m")


def _bar(y: float, length: float, said: str) -> Iterator[Shape]:
    half = length / 2
    yield Box(_BAR_LEFT, y - _BAR_HEIGHT, half, _BAR_HEIGHT, fill=INK, stroke=INK, line_width=0.5)
    yield Box(_BAR_LEFT + half, y - _BAR_HEIGHT, half, _BAR_HEIGHT, fill=WHITE, stroke=INK, line_width=0.5)
    yield Words(_BAR_LEFT + length + 4, y, said, 7.5)


def _steps(step: float, length: float) -> Iterator[float]:
    return (step * count for count in range(math.floor(length / step + 1e-9) + 1))
