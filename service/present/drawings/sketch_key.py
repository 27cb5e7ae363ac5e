"""The key below a planting sketch: each tree with its place in feet and metres, or each line where trees are many."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from service.domain.units import Language, quantity_text
from service.present.drawings.drawing_words import SKETCH
from service.present.drawings.shapes import INK, PAGE_WIDTH, PALE, Shape, Stroke, Words
from service.present.drawings.sketch_plan import Shown
from service.present.drawings.texts import cut, wrapped

_EACH_TREE = 24
_ROW, _SIZE, _LEFT = 11.0, 7.5, 8.0
_COLUMNS = {"tag": 0.0, "name": 32.0, "x": 210.0, "y": 284.0, "spread": 358.0, "nearest": 432.0}
_BY_LINE = {"tag": 0.0, "name": 32.0, "trees": 284.0, "spread": 358.0, "nearest": 432.0}


@dataclass
class Key:
    """The shapes of the key and where it ends."""

    bottom: float
    shapes: list[Shape] = field(default_factory=list)

    def row(self, cells: Mapping[float, str], *, bold: bool = False) -> None:
        """One row of the table, each cell at its distance from the left."""
        self.bottom += _ROW
        ends = [*list(cells)[1:], PAGE_WIDTH - _LEFT]
        for (left, text), end in zip(cells.items(), ends, strict=True):
            fitted = cut(text, end - left - 4, size=_SIZE, bold=bold)
            self.shapes.append(Words(_LEFT + left, self.bottom, fitted, _SIZE, bold=bold))

    def line(self, text: str, *, colour: str = INK) -> None:
        """A sentence, on as many lines as it takes."""
        for part in wrapped(text, PAGE_WIDTH - 2 * _LEFT, size=_SIZE):
            self.bottom += _ROW
            self.shapes.append(Words(_LEFT, self.bottom, part, _SIZE, colour=colour))


def key_of(sketch: Mapping[str, Any], trees: Sequence[Shown], *, top: float, language: Language) -> Key:
    """The key, from `top` downwards."""
    key = Key(top)
    columns = _COLUMNS if len(trees) <= _EACH_TREE else _BY_LINE
    rows = _each_tree(trees, language) if len(trees) <= _EACH_TREE else _each_line(trees, language)
    if trees:
        key.row({at: SKETCH[name][language] for name, at in columns.items()}, bold=True)
        key.shapes.append(Stroke(((_LEFT, key.bottom + 2.5), (PAGE_WIDTH - _LEFT, key.bottom + 2.5)), PALE, 0.5))
    for row in rows:
        key.row({at: row[name] for name, at in columns.items()})
    if sketch["left_over"]:
        key.bottom += 3
        key.line(_left_over(sketch["left_over"], language))
    key.bottom += 3
    return key


def _each_tree(trees: Sequence[Shown], language: Language) -> Iterator[dict[str, str]]:
    stands = SKETCH["stands"][language]
    for tree in trees:
        yield {
            "tag": tree.tag or "–",
            "name": f"{tree.name} ({stands})" if tree.stands else tree.name,
            "x": _ft(tree.x_ft, language),
            "y": _ft(tree.y_ft, language),
            "spread": _ft(tree.spread_ft, language),
            "nearest": _nearest([tree], language),
        }


def _each_line(trees: Sequence[Shown], language: Language) -> Iterator[dict[str, str]]:
    for line in dict.fromkeys((tree.line, tree.name) for tree in trees):
        alike = [tree for tree in trees if (tree.line, tree.name) == line]
        yield {
            "tag": "–" if line[0] is None else str(line[0]),
            "name": f"{line[1]} ({SKETCH['stands'][language]})" if alike[0].stands else line[1],
            "trees": str(len(alike)),
            "spread": _ft(alike[0].spread_ft, language),
            "nearest": _nearest(alike, language),
        }


def _nearest(trees: Sequence[Shown], language: Language) -> str:
    nearest = [tree.nearest_ft for tree in trees if tree.nearest_ft is not None]
    return _ft(min(nearest), language) if nearest else "–"


def _ft(feet: float, language: Language) -> str:
    return quantity_text(round(feet, 1), "ft", language=language)


def _left_over(left_over: Sequence[Mapping[str, Any]], language: Language) -> str:
    said = [SKETCH["of_line"][language].format(trees=one["trees"], line=one["line"]) for one in left_over]
    return SKETCH["left_over"][language].format(trees=", ".join(said))
