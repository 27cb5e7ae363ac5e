"""Room for the trees of a list: how much ground they need, and a sketch of where each could stand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from service.compute.plot_layout import Circle, ToPlace, lay_out
from service.domain.checked_list import Sketch, Sketched, Stood
from service.domain.planting_list import ReadLine
from service.domain.site import Site, StandingTree
from service.questions.planting_list.tree import TreeHere
from service.questions.suggestion.prepared import Prepared


@dataclass(frozen=True, slots=True)
class Planted:
    """A line whose tree is known, with the widest of the trees that its names come to."""

    line: ReadLine
    trees: tuple[TreeHere, ...]

    @property
    def spacing_ft(self) -> float | None:
        """How far it stands from its like; of several cultivars on one tree the widest counts."""
        spacings = [tree.facts["tree.spacing_ft"] for tree in self.trees if "tree.spacing_ft" in tree.facts]
        return max((float(one) for one in spacings), default=None)  # type: ignore[arg-type]

    @property
    def count(self) -> int:
        """How many such trees."""
        return self.line.trees

    @property
    def fits(self) -> bool:
        """Whether all that grows on it fits, and its root is one of its crop."""
        return all(tree.fits for tree in self.trees) and not self.on_foreign_root

    @property
    def on_foreign_root(self) -> bool:
        """Whether the line asks for a root that is surely read and is of another crop."""
        asked = self.line.rootstock
        sure = asked is not None and asked.rootstock is not None and asked.how != "guess"
        return sure and any(tree.basis != "listed" for tree in self.trees)

    @property
    def cultivars(self) -> tuple[str, ...]:
        """The cultivars on the tree."""
        return tuple(tree.candidate.cultivar.id for tree in self.trees)


def area_needed_sq_ft(planted: Sequence[Planted]) -> float:
    """The ground that the trees ask for, each a square of its spacing."""
    return sum(one.count * one.spacing_ft**2 for one in planted if one.spacing_ft is not None)


def sketch(
    planted: Sequence[Planted], site: Site, *, standing: Sequence[StandingTree], known: Prepared
) -> Sketch | None:
    """Where the trees could stand; None where the plot is not known or more trees are asked for than are sketched."""
    each = [one for one in planted if one.spacing_ft is not None for _ in range(one.count)]
    if not site.width_ft or not site.depth_ft or not 0 < len(each) <= known.number("planting_list.sketch.trees"):
        return None
    stood = tuple(_stood(standing))
    layout = lay_out(
        list(_to_place(each)),
        (site.width_ft, site.depth_ft),
        edge_share=known.number("spacing.edge_share"),
        fixed=[Circle(one.x_ft, one.y_ft, one.spread_ft) for one in stood],
    )
    trees = tuple(
        Sketched(
            line=each[spot.tree].line.line,
            cultivars=each[spot.tree].cultivars,
            x_ft=round(spot.x_ft, 2),
            y_ft=round(spot.y_ft, 2),
            spread_ft=spot.spread_ft,
            nearest_ft=layout.nearest_ft.get(spot.tree),
        )
        for spot in layout.placed
    )
    left_over = Counter(each[tree].line.line for tree in layout.left_over)
    return Sketch(site.width_ft, site.depth_ft, trees, left_over, stood)


def _stood(standing: Sequence[StandingTree]) -> Iterator[Stood]:
    for tree in standing:
        if tree.spot is not None:
            yield Stood(tree.crop, tree.cultivars, tree.spot.x_ft, tree.spot.y_ft, tree.spot.spread_ft)


def _to_place(each: Sequence[Planted]) -> Iterator[ToPlace]:
    """Trees grow about as wide as they stand apart (common practice, as with the distances themselves)."""
    for one in each:
        spacing = one.spacing_ft
        assert spacing is not None
        yield ToPlace(spread_ft=spacing, spacing_ft=spacing)
