"""The drawings of a checked list in one picture: the sketch of the plot above the chart of the harvest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from service.domain.units import Language
from service.present.drawings.harvest_chart import harvest_chart
from service.present.drawings.planting_sketch import planting_sketch
from service.present.drawings.shapes import GREY, PAGE_WIDTH, Drawing, Shape, Stroke, Words
from service.present.planting_list_out.words import said

_HEADING, _APART, _SIZE = 22.0, 16.0, 12.0


def drawings_of(answer: Mapping[str, Any]) -> Iterator[tuple[str, Drawing]]:
    """Each drawing under its heading: the sketch of the mended list where that is another, and the harvest."""
    language: Language = answer["language"]
    mended = (answer["repair"] or {}).get("sketch")
    if answer["sketch"] is not None:
        yield said("h_sketch", language), planting_sketch(answer["sketch"], language=language)
    if mended is not None and mended != answer["sketch"]:
        drawn = replace(planting_sketch(mended, language=language), name="mended-sketch")
        yield said("h_mended_sketch", language), drawn
    if answer["harvest"] is not None:
        yield said("h_harvest", language), harvest_chart(answer["harvest"], language=language)


def picture_of(answer: Mapping[str, Any]) -> Drawing:
    """All drawings under one another; where there is none it says why."""
    language: Language = answer["language"]
    drawn = list(drawings_of(answer))
    shapes: list[Shape] = []
    top = 0.0
    for heading, drawing in drawn:
        shapes.append(Words(0, top + _SIZE, heading, _SIZE, bold=True))
        shapes += (moved(shape, top + _HEADING) for shape in drawing.shapes)
        top += _HEADING + drawing.height + _APART
    if not drawn:
        shapes.append(Words(0, _SIZE, said("nothing_drawn", language), 9.0, colour=GREY))
        top = _HEADING
    return Drawing(
        name="planting-list",
        width=PAGE_WIDTH,
        height=round(top, 1),
        title=said("title", language),
        description=" ".join(drawing.description for _, drawing in drawn) or said("nothing_drawn", language),
        language=language,
        shapes=tuple(shapes),
    )


def moved(shape: Shape, down: float, *, right: float = 0.0) -> Shape:
    """A shape further down and to the right.

    >>> moved(Stroke(((0, 0), (10, 5))), 2, right=1).points
    ((1, 2), (11, 7))
    """
    if isinstance(shape, Stroke):
        return replace(shape, points=tuple((x + right, y + down) for x, y in shape.points))
    return replace(shape, x=shape.x + right, y=shape.y + down)
