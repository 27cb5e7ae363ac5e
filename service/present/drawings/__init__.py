"""A simple drawing for each sign, put together from outlines and marks, so that a person points instead of reading."""

from __future__ import annotations

from functools import lru_cache
from html import escape

from service.domain.sign import Part
from service.present.drawings.marks import MARKS
from service.present.drawings.outlines import OUTLINES
from service.present.drawings.signs import DRAWN

_PLAIN: dict[Part, str] = {
    "leaf": "leaf", "shoot": "shoot", "blossom": "blossom", "fruit": "fruit", "branch": "branch", "trunk": "trunk",
    "root_crown": "crown", "whole_tree": "tree",
}  # fmt: skip


@lru_cache(maxsize=1024)
def drawing_of(sign: str, part: Part, *, title: str) -> str:
    """The drawing of a sign as SVG; one that has no marks of its own shows the bare part."""
    outline, marks = DRAWN.get(sign, (_PLAIN[part], ()))
    shapes = OUTLINES[outline] + "".join(f'<g class="mark">{MARKS[mark]}</g>' for mark in marks)
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100" role="img" fill="none" stroke="currentColor"'
        f' stroke-width="2" stroke-linecap="round" stroke-linejoin="round"><title>{escape(title)}</title>{shapes}</svg>'
    )
