"""The cheapest repair of a list: which lines to keep, to change, to drop, and what to add, so that it passes.

The solver reckons room as ground; whether trees really go on the plot the sketch tells. Where it leaves some over, the
ground is taken as less and the question is put again; what is found then is no longer proven to be the cheapest.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from service.compute.list_repair import Costs, Line, NoRepair, Room, Task, repair
from service.compute.list_repair import Repair as Found
from service.domain.checked_list import AddedTree, Addition, LineChange, Repair, Sketch
from service.domain.planting_list import ReadList
from service.questions.planting_list.choices import Way, Ways, added_lines, rewritten
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.pollen import ListPollen
from service.questions.planting_list.question import CheckedList, Mended
from service.questions.planting_list.room import Planted

_TRIES = 6
_COSTS = ("keep", "rootstock", "replace", "add", "drop")
Recheck = Callable[[ReadList], CheckedList]


@dataclass(frozen=True, slots=True)
class Unit:
    """What the solver decides on at once: one tree of a line, or the whole line."""

    number: int
    planted: Planted
    trees: int


@dataclass(frozen=True, slots=True)
class Piece:
    """The trees of a line that have one fate; a key of None: they are dropped."""

    line: int
    key: str | None
    trees: int


@dataclass(frozen=True)
class Mending:
    """What a repair is made from; `recheck` judges a list anew, without a repair of its own."""

    read: ReadList
    planted: tuple[Planted, ...]
    pollen: ListPollen
    addition: Addition | None
    checker: LineChecker
    recheck: Recheck

    def mended(self) -> Mended:
        """The cheapest repair with the list as it is judged after it, or why there is none."""
        ways = Ways(self.checker)
        by_line = {one.line.line: ways.of(one) for one in self.planted}
        units = self._units()
        task, costs = self._task(ways, by_line, units), self._costs()
        for tried in range(_TRIES):
            found = repair(task, costs)
            if isinstance(found, NoRepair):
                return Mended(reason=found.reason)
            pieces = _pieces(found, units)
            after = self.recheck(self._rewritten(pieces, found, by_line))
            if after.sketch is None or not after.sketch.left_over:
                repaired = self._told(pieces, found, by_line)
                return Mended(replace(repaired, proven=found.proven and tried == 0), after)
            task = replace(task, room=replace(task.room, area_sq_ft=_placed_sq_ft(after.sketch)))
        return Mended(reason="no_room")

    def _units(self) -> tuple[Unit, ...]:
        """The trees by themselves where they are few, so that a line may be changed in part; else whole lines."""
        wanted = [one for one in self.planted if one.count > 0]
        if sum(one.count for one in wanted) > self.checker.known.number("planting_list.sketch.trees"):
            return tuple(Unit(number, one, one.count) for number, one in enumerate(wanted))
        each = [one for one in wanted for _ in range(one.count)]
        return tuple(Unit(number, one, 1) for number, one in enumerate(each))

    def _task(self, ways: Ways, by_line: Mapping[int, Mapping[str, Way]], units: Sequence[Unit]) -> Task:
        known, site = self.checker.known, self.checker.here.place.site
        choices = {line: tuple(ways.choice(way) for way in found.values()) for line, found in by_line.items()}
        lines = tuple(Line(unit.number, unit.trees, choices[unit.planted.line.line]) for unit in units)
        additions = tuple(replace(ways.choice(ways.added(tree)), key=tree.cultivar) for tree in self._offers())
        offered = {cultivar for line in lines for choice in line.choices for cultivar in choice.cultivars}
        offered |= {choice.key for choice in additions}
        standing = {one: alone for each in self.planted for one, alone in self._standing(each).items()}
        area = site.width_ft * site.depth_ft if site.width_ft and site.depth_ft else None
        return Task(
            lines=lines,
            additions=additions,
            standing=standing,
            crops_alone=frozenset(one for one in offered if known.crops_alone(one)),
            room=Room(area, self.checker.place.wishes.max_trees),
        )

    def _standing(self, planted: Planted) -> Mapping[str, bool]:
        return self.pollen.standing(planted.trees[0].candidate.crop)

    def _offers(self) -> tuple[AddedTree, ...]:
        return () if self.addition is None else self.addition.trees

    def _costs(self) -> Costs:
        number = self.checker.known.number
        return Costs(**{name: number(f"planting_list.cost.{name}") for name in _COSTS})

    def _rewritten(
        self, pieces: Sequence[Piece], found: Found, by_line: Mapping[int, Mapping[str, Way]]
    ) -> ReadList:
        """The list after the repair; lines that nobody could read stay as they are."""
        changed = {piece.line for piece in pieces}
        lines = [line for line in self.read.lines if line.line not in changed]
        for piece in pieces:
            if piece.key is not None:
                line = next(one.line for one in self.planted if one.line.line == piece.line)
                part = line if piece.trees == line.trees else replace(line, quantity=piece.trees)
                lines.append(rewritten(part, by_line[piece.line][piece.key]))
        lines.sort(key=lambda line: line.line)
        ways = Ways(self.checker)
        added = [ways.added(tree) for tree in self._offers() if tree.cultivar in found.added]
        lines.extend(added_lines(added, max(line.line for line in self.read.lines) + 1, self.read.lines[-1]))
        return replace(self.read, lines=tuple(lines), skipped=(), limits_hit=())

    def _told(self, pieces: Sequence[Piece], found: Found, by_line: Mapping[int, Mapping[str, Way]]) -> Repair:
        changes = []
        for piece in pieces:
            way = None if piece.key is None else by_line[piece.line][piece.key]
            changes.append(LineChange(
                line=piece.line,
                change="drop" if way is None else way.change,
                trees=piece.trees,
                cultivars=() if way is None else way.cultivars,
                rootstock=None if way is None else way.rootstock,
            ))  # fmt: skip
        added = tuple(tree for tree in self._offers() if tree.cultivar in found.added)
        return Repair(tuple(changes), added, found.cost, found.proven)


def _pieces(found: Found, units: Sequence[Unit]) -> tuple[Piece, ...]:
    """What becomes of each line, its trees of one fate together; the larger part first."""
    trees: Counter[tuple[int, str | None]] = Counter()
    of_number = {unit.number: unit for unit in units}
    for change in found.lines:
        unit = of_number[change.line]
        trees[unit.planted.line.line, change.key] += unit.trees
    pieces = (Piece(line, key, count) for (line, key), count in trees.items())
    return tuple(sorted(pieces, key=lambda piece: (piece.line, -piece.trees, piece.key or "~")))


def _placed_sq_ft(sketch: Sketch) -> float:
    """The ground of the trees that went in, each a square of its spread."""
    return sum(tree.spread_ft**2 for tree in sketch.trees)
