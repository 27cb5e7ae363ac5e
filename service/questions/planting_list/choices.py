"""The ways to have each line of a list: as it is written, on another root, as another cultivar of the crop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from service.compute.list_repair import Choice
from service.domain.checked_list import AddedTree, Change
from service.domain.planting_list import ReadLine, ReadName, ReadRootstock
from service.domain.rootstock import Rootstock
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.room import Planted
from service.questions.planting_list.tree import RootAsked, TreeHere
from service.questions.suggestion.planting import partners_needed

_OF_ROOTS = ("rootstock_not_recognised", "rootstock_of_another_crop")


@dataclass(frozen=True, slots=True)
class Way:
    """One way to have a line, with the trees that it comes to."""

    change: Change
    trees: tuple[TreeHere, ...]
    on_foreign_root: bool = False

    @property
    def key(self) -> str:
        """What tells it from the other ways of the line."""
        return f"{self.change}:{'+'.join(self.cultivars)}:{self.rootstock or ''}"

    @property
    def cultivars(self) -> tuple[str, ...]:
        """What grows on the tree."""
        return tuple(tree.candidate.cultivar.id for tree in self.trees)

    @property
    def root(self) -> Rootstock | None:
        """What it grows on."""
        return self.trees[0].candidate.root.rootstock

    @property
    def rootstock(self) -> str | None:
        """The id of what it grows on."""
        return None if self.root is None else self.root.id


class Ways:
    """Finds the ways to have a line at a place."""

    def __init__(self, checker: LineChecker) -> None:
        self._checker = checker

    def of(self, planted: Planted) -> dict[str, Way]:
        """The ways to have a line, by key, the line as it is written first."""
        as_listed = Way("keep", planted.trees, on_foreign_root=planted.on_foreign_root)
        ways = [as_listed, *self._on_other_roots(planted), *self._others(planted)]
        return {way.key: way for way in ways}

    def added(self, tree: AddedTree) -> Way:
        """A tree that is added."""
        return Way("keep", (self._best(tree.cultivar),))

    def _best(self, cultivar: str) -> TreeHere:
        return self._checker.trees.tree(cultivar, RootAsked())

    def _on_other_roots(self, planted: Planted) -> Iterator[Way]:
        """On the best root for the place, where the line names another and that one does not fit."""
        asked = planted.on_foreign_root or planted.trees[0].basis in ("listed", "size_word")
        if planted.fits or not asked:
            return
        best = tuple(self._best(cultivar) for cultivar in planted.cultivars)
        if planted.on_foreign_root or best[0].candidate.root is not planted.trees[0].candidate.root:
            yield Way("rootstock", best)

    def _others(self, planted: Planted) -> Iterator[Way]:
        """Other cultivars of the crop, on the root of the line where that fits; a grafted tree has no substitute."""
        if len(planted.trees) != 1:
            return
        asked = RootAsked.of(planted.line)
        for other in self._checker.substitutes.of(planted.cultivars[0]):
            tree = self._checker.trees.tree(other.cultivar.id, asked)
            yield Way("replace", (tree if tree.fits else self._best(other.cultivar.id),))

    def choice(self, way: Way) -> Choice:
        """The way as the solver weighs it."""
        limbs = [self._checker.known.limb(_id(tree), partners_needed(tree.candidate)) for tree in way.trees]
        spacings = [tree.facts["tree.spacing_ft"] for tree in way.trees if "tree.spacing_ft" in tree.facts]
        return Choice(
            key=way.key,
            change=way.change,  # type: ignore[arg-type]
            cultivars=way.cultivars,
            fits=all(tree.fits for tree in way.trees) and not way.on_foreign_root,
            area_sq_ft=max((float(one) ** 2 for one in spacings), default=None),  # type: ignore[arg-type]
            fit=min(tree.fit for tree in way.trees),
            needed={limb.cultivar: limb.partners_needed for limb in limbs},
            serving={limb.cultivar: limb.proven | limb.likely for limb in limbs},
        )


def rewritten(line: ReadLine, way: Way) -> ReadLine:
    """The line as it would be written after the change."""
    names = tuple(
        ReadName(tree.candidate.cultivar.denomination, "exact", _id(tree), tree.candidate.crop.id) for tree in way.trees
    )
    if way.change == "keep":
        return line
    root = None if way.root is None else ReadRootstock(way.root.name, "exact", way.root.id)
    marks = tuple(mark for mark in line.marks if mark not in _OF_ROOTS)
    return replace(line, names=names, rootstock=root, size=None, marks=marks)


def added_lines(ways: Sequence[Way], first: int, like: ReadLine) -> Iterator[ReadLine]:
    """Lines for the trees that are added, numbered from `first` on."""
    for number, way in enumerate(ways, first):
        text = " + ".join(tree.candidate.cultivar.denomination for tree in way.trees)
        blank = ReadLine(number, text, replace(like.row, cells=()), quantity=1)
        yield rewritten(blank, replace(way, change="replace"))


def _id(tree: TreeHere) -> str:
    return tree.candidate.cultivar.id
