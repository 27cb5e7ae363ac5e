"""From feet on the plot to points on the page: what part of the plot is shown, and how large."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from string import ascii_lowercase
from typing import Any

from service.present.drawings.shapes import PAGE_WIDTH

LEFT, RIGHT, TOP = 46.0, 12.0, 8.0
_MAP_WIDTH, _MAP_HEIGHT = PAGE_WIDTH - LEFT - RIGHT, 330.0
_SMALLEST_CROWN = 24.0  # points across; trees drawn smaller could not be told apart
_MORE = 1.2
_GRID_GAP = 30.0
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000)


@dataclass(frozen=True, slots=True)
class Shown:
    """One tree of the sketch with its tag: its line, and a letter where the line has several trees."""

    tag: str
    line: int | None
    name: str
    x_ft: float
    y_ft: float
    spread_ft: float
    nearest_ft: float | None
    stands: bool


def shown_trees(sketch: Mapping[str, Any]) -> tuple[Shown, ...]:
    """The trees of a told sketch with their tags; those that stand already have none."""
    by_line: dict[int, int] = {}
    for tree in sketch["trees"]:
        by_line[tree["line"]] = by_line.get(tree["line"], 0) + 1
    seen: dict[int, int] = {}
    trees = []
    for tree in sketch["trees"]:
        line = tree["line"]
        seen[line] = seen.get(line, 0) + 1
        trees.append(_shown(tree, tag_of(line, seen[line], by_line[line])))
    return (*trees, *(_shown(tree, "") for tree in sketch["standing"]))


def tag_of(line: int, number: int, count: int) -> str:
    """What stands in the crown.

    >>> tag_of(3, 1, 1), tag_of(3, 2, 2), tag_of(3, 28, 40)
    ('3', '3b', '3.28')
    """
    if count == 1:
        return str(line)
    return f"{line}{ascii_lowercase[number - 1]}" if count <= len(ascii_lowercase) else f"{line}.{number}"


def _shown(tree: Mapping[str, Any], tag: str) -> Shown:
    return Shown(
        tag=tag,
        line=tree.get("line"),
        name=" / ".join(one["name"] for one in tree["cultivars"]) or tree["crop_name"],
        x_ft=tree["x_ft"],
        y_ft=tree["y_ft"],
        spread_ft=tree["spread_ft"],
        nearest_ft=tree.get("nearest_ft"),
        stands=not tag,
    )


@dataclass(frozen=True, slots=True)
class View:
    """What is shown of the plot in feet, and points to the foot; crowns may hang over the edge of the plot."""

    width_ft: float
    depth_ft: float
    shown_width_ft: float
    shown_depth_ft: float
    over_ft: float
    scale: float

    @property
    def left(self) -> float:
        """Where the left edge of the plot stands on the page; the map stands in the middle of it."""
        spare = _MAP_WIDTH - (self.shown_width_ft + 2 * self.over_ft) * self.scale
        return LEFT + self.over_ft * self.scale + max(0.0, spare) / 2

    @property
    def front(self) -> float:
        """Where the front edge stands."""
        return TOP + (self.over_ft + self.shown_depth_ft) * self.scale

    @property
    def bottom(self) -> float:
        """Where the map ends."""
        return self.front + self.over_ft * self.scale

    @property
    def axis(self) -> float:
        """The left of everything on the map."""
        return self.left - self.over_ft * self.scale

    @property
    def goes_on_right(self) -> bool:
        """Whether the plot is wider than what is shown."""
        return self.shown_width_ft < self.width_ft

    @property
    def goes_on_back(self) -> bool:
        """Whether the plot is deeper than what is shown."""
        return self.shown_depth_ft < self.depth_ft

    @property
    def right(self) -> float:
        """Where what is shown of the plot ends on the right."""
        return self.x(self.shown_width_ft)

    @property
    def back(self) -> float:
        """Where what is shown of the plot ends at the back."""
        return self.y(self.shown_depth_ft)

    @property
    def step_ft(self) -> float:
        """Feet from line to line of the grid."""
        return next((step for step in _STEPS if step * self.scale >= _GRID_GAP), _STEPS[-1])

    def x(self, ft: float) -> float:
        """Feet from the left, on the page."""
        return self.left + ft * self.scale

    def y(self, ft: float) -> float:
        """Feet from the front, on the page."""
        return self.front - ft * self.scale


def view_of(sketch: Mapping[str, Any], trees: Sequence[Shown]) -> View:
    """The whole plot; of one on which the trees would be specks, the corner in which they stand."""
    width, depth = float(sketch["width_ft"]), float(sketch["depth_ft"])
    over = max((_over(tree, width, depth) for tree in trees), default=0.0)
    whole = _view(width, depth, shown=(width, depth), over=over)
    smallest = min((tree.spread_ft for tree in trees), default=width)
    if not trees or smallest * whole.scale >= _SMALLEST_CROWN:
        return whole
    far_x = max(tree.x_ft + tree.spread_ft / 2 for tree in trees) * _MORE
    far_y = max(tree.y_ft + tree.spread_ft / 2 for tree in trees) * _MORE
    return _view(width, depth, shown=(min(width, far_x), min(depth, far_y)), over=over)


def _view(width: float, depth: float, *, shown: tuple[float, float], over: float) -> View:
    scale = min(_MAP_WIDTH / (shown[0] + 2 * over), _MAP_HEIGHT / (shown[1] + 2 * over))
    return View(width, depth, shown[0], shown[1], over, scale)


def _over(tree: Shown, width: float, depth: float) -> float:
    radius = tree.spread_ft / 2
    edges = (tree.x_ft, width - tree.x_ft, tree.y_ft, depth - tree.y_ft)
    return max(0.0, *(radius - edge for edge in edges))
