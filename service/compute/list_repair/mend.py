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

import numpy as np
from numpy.typing import NDArray

from service.compute.integer_program import Program
from service.compute.list_repair.partners import Partners
from service.compute.list_repair.task import Changed, Choice, Costs, Line, NoRepair, Repair, Room, Task

_CHOSEN = 0.5
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
    """A line in one of its ways, or dropped, which is no choice; an addition has no line."""

    line: Line | None
    choice: Choice | None
    cost: float

    def told(self, line: Line) -> Changed:
        if self.choice is None:
            return Changed(line.line, None, "drop")
        return Changed(line.line, self.choice.key, self.choice.change)

    @property
    def trees(self) -> int:
        return 1 if self.line is None else self.line.trees

    @property
    def planted(self) -> int:
        return 0 if self.choice is None else self.trees

    @property
    def area_sq_ft(self) -> float:
        return 0.0 if self.choice is None else (self.choice.area_sq_ft or 0.0) * self.trees

    @property
    def suits(self) -> float:
        return 0.0 if self.choice is None else self.choice.fit * self.trees


class _Model:
    """The ways to have a list, and the program that chooses among them: its first variables are the ways."""

    def __init__(self, task: Task, costs: Costs) -> None:
        self._task, self._ways, self._step = task, tuple(_ways(task, costs)), costs.step

    def best(self) -> Repair | None:
        """The best suited of the cheapest repairs found; None where no line can be kept."""
        weight = self._most_suited() / self._step
        worth = (
            way.suits - weight * way.cost - _HAIR * place / len(self._ways) for place, way in enumerate(self._ways)
        )
        found = self._program(worth).best_found(nodes=_NODES)
        return None if found is None else _told(self._chosen(found.values), proven=found.proven)

    def _most_suited(self) -> float:
        """More than the fits of any repair add up to."""
        best = defaultdict[int | None, float](float)
        for way in self._ways:
            place = way.line.line if way.line else None
            best[place] = max(best[place], way.suits) if way.line else best[place] + way.suits
        return sum(best.values()) + 1

    def _chosen(self, solved: NDArray[np.float64]) -> list[_Way]:
        return [way for way, share in zip(self._ways, solved, strict=False) if share > _CHOSEN]

    def _program(self, worth: Iterable[float]) -> Program:
        program = Program()
        for one in worth:
            program.variable(one)
        of_line: dict[int, dict[int, float]] = defaultdict(dict)
        for place, way in enumerate(self._ways):
            if way.line:
                of_line[way.line.line][place] = 1.0
        for ways in of_line.values():
            program.row(ways, low=1.0, high=1.0)
        program.row({place: 1.0 for place, way in enumerate(self._ways) if way.line and way.choice}, low=1.0)
        self._keep_to_the_room(program)
        Partners(program, self._task, [(way.choice, at) for at, way in enumerate(self._ways) if way.choice]).require()
        return program

    def _keep_to_the_room(self, program: Program) -> None:
        room = self._task.room
        if room.area_sq_ft is not None:
            program.row(self._sums("area_sq_ft"), high=room.area_sq_ft + _ROUNDING)
        if room.max_trees is not None:
            program.row(self._sums("planted"), high=room.max_trees)

    def _sums(self, name: str) -> dict[int, float]:
        return {place: float(getattr(way, name)) for place, way in enumerate(self._ways) if getattr(way, name)}


def _ways(task: Task, costs: Costs) -> Iterator[_Way]:
    """Every way that suits the place, in the order of the lines and of their choices, then the additions."""
    for line in task.lines:
        for choice in line.choices:
            if choice.fits:
                yield _Way(line, choice, costs.of(choice.change) * line.trees)
        yield _Way(line, None, costs.drop * line.trees)
    for choice in task.additions:
        if choice.fits:
            yield _Way(None, choice, costs.add)


def _told(chosen: Sequence[_Way], *, proven: bool) -> Repair:
    lines = tuple(way.told(way.line) for way in chosen if way.line)
    added = tuple(way.choice.key for way in chosen if way.line is None and way.choice)
    return Repair(lines, added, round(sum(way.cost for way in chosen), 6), proven)
