"""The planting sketch: the plot to scale with each tree as wide as it grows, the distances between trunks, and a key.

A tree is told by the number of its line, so that nothing hangs on colour, and by its name where the crown has room for
it. No label covers another: the numbers come first, then names, then distances, and what finds no room is left to the
key below. Trees that stand already have a broken edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from service.domain.units import Language, quantity_text
from service.present.drawings.drawing_words import SKETCH
from service.present.drawings.labels import Taken, area_of, around, inside_crown
from service.present.drawings.shapes import GREY, INK, PAGE_WIDTH, WHITE, Box, Disc, Drawing, Shape, Stroke, Words
from service.present.drawings.sketch_ground import edges, grid, scale_bar, sides
from service.present.drawings.sketch_key import key_of
from service.present.drawings.sketch_plan import Shown, shown_trees, view_of

CROWNS = ("#d7ead2", "#fbe3c8", "#d9e4f5", "#f6d8d8", "#ece2f4", "#f3efc4", "#cfeae8", "#e6e0d4")
STANDING = "#ededed"
_TAG, _NAMES, _SMALL, _SMALLEST = 9.0, (8.0, 7.5, 7.0), 7.0, 5.5
_TRUNK, _GAP = 1.6, 1.5
_AXIS, _BAR = 30.0, 26.0
_SHORTEST = 62.0  # points between trunks; on a shorter line a label would hide the crowns


def planting_sketch(sketch: Mapping[str, Any], *, language: Language = "en") -> Drawing:
    """The drawing of a sketch as it is told in an answer."""
    return _Sketch(sketch, language).drawing()


class _Sketch:
    def __init__(self, sketch: Mapping[str, Any], language: Language) -> None:
        self.sketch, self.language = sketch, language
        self.trees = shown_trees(sketch)
        self.view = view_of(sketch, self.trees)
        self.taken = Taken()

    def drawing(self) -> Drawing:
        """All of it, from the ground up."""
        view, bottom = self.view, self.view.bottom
        crowns = [self.crown(tree) for tree in self.trees]
        tags = [words for tree in self.trees if tree.tag for words in self.tag(tree)]
        names = [words for tree in self.trees for words in self.name(tree)]
        distances = [shape for pair, feet in self.pairs().items() for shape in self.distance(pair, feet)]
        trunks = [Disc(view.x(tree.x_ft), view.y(tree.y_ft), _TRUNK, fill=INK) for tree in self.trees]
        key = key_of(self.sketch, self.trees, top=bottom + _AXIS + _BAR, language=self.language)
        for note in ("note", "goes_on") if view.goes_on_right or view.goes_on_back else ("note",):
            key.line(self.said(note), colour=GREY)
        shapes = (
            *grid(view), *crowns, *edges(view), *sides(view, self.language), *distances, *trunks, *tags, *names,
            *scale_bar(view, bottom + _AXIS), *key.shapes,
        )  # fmt: skip
        return Drawing(
            name="planting-sketch",
            width=PAGE_WIDTH,
            height=round(key.bottom + 4, 1),
            title=self.said("title"),
            description=self.description(),
            language=self.language,
            shapes=shapes,
        )

    def said(self, key: str, **values: object) -> str:
        return SKETCH[key][self.language].format(**values)

    def ft(self, feet: float) -> str:
        return quantity_text(feet, "ft", language=self.language)

    def description(self) -> str:
        """The plot and each tree in words."""
        new = [tree for tree in self.trees if not tree.stands]
        key = {0: "plot_none", 1: "plot_one"}.get(len(new), "plot")
        plot = self.said(key, width=self.ft(self.view.width_ft), depth=self.ft(self.view.depth_ft), count=len(new))
        return " ".join([plot, *(self.told(tree) for tree in new)])

    def told(self, tree: Shown) -> str:
        x, y, spread = (self.ft(one) for one in (tree.x_ft, tree.y_ft, tree.spread_ft))
        told = self.said("place", tag=tree.tag, name=tree.name, x=x, y=y, spread=spread).strip()
        return f"{told} ({self.said('stands')})" if tree.stands else told

    def crown(self, tree: Shown) -> Disc:
        colour = STANDING if tree.stands else CROWNS[self.lines.index(tree.line) % len(CROWNS)]
        return Disc(
            x=self.view.x(tree.x_ft),
            y=self.view.y(tree.y_ft),
            radius=tree.spread_ft / 2 * self.view.scale,
            fill=colour,
            stroke=INK,
            line_width=0.9,
            dash=(3.0, 2.0) if tree.stands else (),
            says=self.told(tree),
        )

    @property
    def lines(self) -> list[int | None]:
        """The lines of the sketch in order."""
        return list(dict.fromkeys(tree.line for tree in self.trees))

    def tag(self, tree: Shown) -> Iterator[Words]:
        """The tag above the trunk; among the smallest crowns the number of the line has to do, or the key alone."""
        x, y, radius = self.view.x(tree.x_ft), self.view.y(tree.y_ft), tree.spread_ft / 2 * self.view.scale
        for text in dict.fromkeys((tree.tag, str(tree.line))):
            size = min(_TAG, max(_SMALLEST, 2 * radius / (0.7 * (len(text) + 1))))
            words = Words(x, y - _TRUNK - _GAP, text, size, "middle", bold=True)
            if self.taken.take_if_free(area_of(words, around=0.5)):
                yield words
                return

    def name(self, tree: Shown) -> tuple[Words, ...]:
        """The name below the trunk, where the crown has room for it."""
        x, y, radius = self.view.x(tree.x_ft), self.view.y(tree.y_ft), tree.spread_ft / 2 * self.view.scale
        lines = inside_crown(tree.name, radius - 2, sizes=_NAMES, top=_TRUNK + _GAP)
        placed = tuple(Words(x, y + one.y, one.text, one.size, "middle") for one in lines)
        return placed if self.taken.take_if_free(*(area_of(one, around=0.3) for one in placed)) else ()

    def pairs(self) -> dict[tuple[int, int], float]:
        """Each tree with its nearest neighbour, every pair once, those nearest each other first."""
        pairs: dict[tuple[int, int], float] = {}
        for at, tree in enumerate(self.trees):
            others = [(_apart(tree, other), place) for place, other in enumerate(self.trees) if place != at]
            if others and not tree.stands:
                apart, nearest = min(others)
                pairs.setdefault((min(at, nearest), max(at, nearest)), tree.nearest_ft or apart)
        return dict(sorted(pairs.items(), key=lambda item: (round(item[1], 2), item[0])))

    def distance(self, pair: tuple[int, int], apart_ft: float) -> tuple[Shape, ...]:
        """A line from trunk to trunk with how long it is, where a label finds room on it."""
        ends = [(self.view.x(tree.x_ft), self.view.y(tree.y_ft)) for tree in (self.trees[at] for at in pair)]
        feet = self.ft(round(apart_ft, 1))
        upright = abs(ends[0][0] - ends[1][0]) < abs(ends[0][1] - ends[1][1]) / 4
        if math.dist(*ends) < _SHORTEST:
            return ()
        for labels in _labels(ends, feet, upright=upright):
            area = around(area_of(label, around=1.0) for label in labels)
            if self.taken.take_if_free(area):
                line = (Stroke(part, GREY, 0.6, dash=(1.5, 1.5)) for part in self.taken.left_of(ends[0], ends[1]))
                ground = Box(area.left, area.top, area.right - area.left, area.bottom - area.top, fill=WHITE)
                return (*line, ground, *labels)
        return ()


def _labels(ends: Sequence[tuple[float, float]], feet: str, *, upright: bool) -> Iterator[tuple[Words, ...]]:
    """Places for a label on a line, the middle first: in one line of text, or else in two."""
    (x, y), (to_x, to_y) = ends
    first, _, second = feet.partition(" (")
    for share in (0.5, 0.42, 0.58, 0.34, 0.66):
        at_x, at_y = x + (to_x - x) * share, y + (to_y - y) * share
        if upright:
            yield (Words(at_x + 2.5, at_y, feet, _SMALL, "middle", turned=True),)
        else:
            yield (Words(at_x, at_y + 2.5, feet, _SMALL, "middle"),)
        yield (
            Words(at_x, at_y - 1.5, first, _SMALL, "middle"),
            Words(at_x, at_y + 8.0, second.rstrip(")"), _SMALL, "middle"),
        )


def _apart(one: Shown, other: Shown) -> float:
    return math.hypot(one.x_ft - other.x_ft, one.y_ft - other.y_ft)
