"""Finds the cheapest repair: an integer program over the ways to have each line, so that no cheaper one is missed.

Of repairs that cost the same, the one whose trees suit the place best is taken: the smallest step of cost weighs more
than all fits together. A repair keeps at least one line; where none can be kept, the reason is looked for by leaving
out the room. A long list on scarce ground can keep the solver busy for ever, so it looks at a number of nodes and no
more; a repair that is not proven to be the cheapest says so.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from service.compute.integer_program import Found, Program
from service.compute.list_repair.partners import Partners
from service.compute.list_repair.task import Changed, Choice, Costs, Line, NoRepair, Repair, Room, Task

_ROUNDING = 1e-6
_HAIR = 1e-3
_NODES = 500


def repair(task: Task, costs: Costs) -> Repair | NoRepair:
    """The cheapest repair of a list, or why there is none.

    A plum that needs a partner, and another that may be added for three points where dropping would cost five:

    >>> plum = Choice("p", "keep", ("p",), True, None, 70, {"p": 1}, {"p": frozenset("q")})
    >>> other = Choice("q", "keep", ("q",), True, None, 60, {}, {})
    >>> task = Task((Line(1, 1, (plum,)),), additions=(other,), crops_alone=frozenset("q"))
    >>> found = repair(task, Costs(keep=0, rootstock=1, replace=2, add=3, drop=5))
    >>> found.added, found.cost
    (('q',), 3)
    """
    if not any(choice.fits for line in task.lines for choice in line.choices):
        return NoRepair("no_choice_fits")
    found = _Model(task, costs).best()
    if found is not None:
        return found
    anywhere = _Model(replace(task, room=Room()), costs).best()
    return NoRepair("no_pollen" if anywhere is None else "no_room")


@dataclass(frozen=True, slots=True)
class _Way:
    """What becomes of some of a lot: had by a choice, or dropped, which is none. An addition is of no lot."""

    lot: int | None
    trees: int
    most: int
    choice: Choice | None
    cost: float

    @property
    def planted(self) -> int:
        return 0 if self.choice is None else self.trees

    @property
    def area_sq_ft(self) -> float:
        return 0.0 if self.choice is None else (self.choice.area_sq_ft or 0.0) * self.trees

    @property
    def suits(self) -> float:
        return 0.0 if self.choice is None else self.choice.fit * self.trees

    def told(self, line: Line) -> Changed:
        if self.choice is None:
            return Changed(line.line, None, "drop")
        return Changed(line.line, self.choice.key, self.choice.change)


class _Model:
    """The ways to have a list, and the program that chooses among them: its first variables are the ways.

    Lines that are alike make a lot, since any of them may as well be the one that is changed: a variable counts how
    many of a lot are had in a way.
    """

    def __init__(self, task: Task, costs: Costs) -> None:
        self._task, self._lots = task, _lots(task.lines)
        self._ways, self._step = tuple(_ways(self._lots, task.additions, costs)), costs.step

    def best(self) -> Repair | None:
        """The best suited of the cheapest repairs found; None where no line can be kept."""
        weight = self._most_suited() / self._step
        worth = (
            way.suits - weight * way.cost - _HAIR * place / len(self._ways) for place, way in enumerate(self._ways)
        )
        found = self._program(worth).best_found(nodes=_NODES)
        return None if found is None else self._told(found)

    def _most_suited(self) -> float:
        """More than the fits of any repair add up to."""
        return sum(max(way.suits, 0.0) * way.most for way in self._ways) + 1

    def _program(self, worth: Iterable[float]) -> Program:
        program = Program()
        of_lot: dict[int, dict[int, float]] = defaultdict(dict)
        for place, (way, one) in enumerate(zip(self._ways, worth, strict=True)):
            program.variable(one, upper=way.most)
            if way.lot is not None:
                of_lot[way.lot][place] = 1.0
        for lot, ways in of_lot.items():
            program.row(ways, low=len(self._lots[lot]), high=len(self._lots[lot]))
        kept = {place: 1.0 for place, way in enumerate(self._ways) if way.lot is not None and way.choice}
        program.row(kept, low=1.0)
        self._keep_to_the_room(program)
        offered = [(way.choice, place, way.most) for place, way in enumerate(self._ways) if way.choice]
        Partners(program, self._task, offered).require()
        return program

    def _keep_to_the_room(self, program: Program) -> None:
        room = self._task.room
        if room.area_sq_ft is not None:
            program.row(self._sums("area_sq_ft"), high=room.area_sq_ft + _ROUNDING)
        if room.max_trees is not None:
            program.row(self._sums("planted"), high=room.max_trees)

    def _sums(self, name: str) -> dict[int, float]:
        return {place: float(getattr(way, name)) for place, way in enumerate(self._ways) if getattr(way, name)}

    def _told(self, found: Found) -> Repair:
        """The repair by line: of a lot the first lines are had in the first ways."""
        chosen = [way for way, count in zip(self._ways, found.values, strict=False) for _ in range(round(count))]
        of_lot: dict[int, list[_Way]] = defaultdict(list)
        for way in chosen:
            if way.lot is not None:
                of_lot[way.lot].append(way)
        pairs = (pair for lot, ways in of_lot.items() for pair in zip(self._lots[lot], ways, strict=True))
        changes = {line.line: way.told(line) for line, way in pairs}
        added = tuple(way.choice.key for way in chosen if way.lot is None and way.choice)
        lines = tuple(changes[line.line] for line in self._task.lines)
        return Repair(lines, added, round(sum(way.cost for way in chosen), 6), found.proven)


def _lots(lines: Sequence[Line]) -> list[list[Line]]:
    """The lines that are alike, together; ways are compared by their keys and by what they come to."""
    lots: list[list[Line]] = []
    for line in lines:
        alike = (lot for lot in lots if lot[0].trees == line.trees and lot[0].choices == line.choices)
        found = next(alike, None)
        if found is None:
            lots.append([line])
        else:
            found.append(line)
    return lots


def _ways(lots: Sequence[Sequence[Line]], additions: Sequence[Choice], costs: Costs) -> Iterator[_Way]:
    """Every way that suits the place, in the order of the lines and of their choices, then the additions."""
    for number, lot in enumerate(lots):
        trees, most = lot[0].trees, len(lot)
        for choice in lot[0].choices:
            if choice.fits:
                yield _Way(number, trees, most, choice, costs.of(choice.change) * trees)
        yield _Way(number, trees, most, None, costs.drop * trees)
    for choice in additions:
        if choice.fits:
            yield _Way(None, 1, 1, choice, costs.add)
