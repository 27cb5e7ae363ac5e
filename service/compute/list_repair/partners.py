"""Pollination as rows of the repair: no tree is had in a way in which one of its cultivars lacks partners.

A cultivar is present once, however many trees carry it, and a cultivar on the same tree is as good a partner as any. A
partner that crops alone is enough by itself.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from service.compute.integer_program import Program
from service.compute.list_repair.task import Choice, Task

Offered = Sequence[tuple[Choice, int, int]]
_Need = tuple[str, int, frozenset[str]]


class Partners:
    """Who is there to serve whom, among all that may be planted and all that stands already.

    What is offered is a choice with its variable and the most that this may reach.
    """

    def __init__(self, program: Program, task: Task, offered: Offered) -> None:
        self._program, self._task = program, task
        self._carriers: dict[str, dict[int, float]] = defaultdict(dict)
        self._needs: dict[_Need, dict[int, int]] = defaultdict(dict)
        for choice, variable, most in offered:
            for cultivar in choice.cultivars:
                self._carriers[cultivar][variable] = 1.0
                needed = choice.needed.get(cultivar, 0)
                if needed > 0:
                    serving = choice.serving.get(cultivar, frozenset()) - {cultivar}
                    self._needs[cultivar, needed, serving][variable] = most
        self._present: dict[str, int] = {}

    def require(self) -> None:
        """Add the rows for every cultivar that needs partners."""
        for need, ways in self._needs.items():
            self._require(need, ways)

    def _require(self, need: _Need, ways: dict[int, int]) -> None:
        """What is planted and what stands counts for as many partners as are needed, if the tree is had so."""
        _, needed, serving = need
        standing = serving & self._task.standing.keys()
        there = sum(needed if self._task.standing[one] else 1 for one in standing)
        if there >= needed:
            return
        planted = {
            self._presence(one): float(needed if one in self._task.crops_alone else 1)
            for one in sorted(serving & self._carriers.keys() - standing)
        }
        had = self._had(ways)
        planted[had] = planted.get(had, 0.0) - (needed - there)
        self._program.row(planted, low=0.0)

    def _presence(self, cultivar: str) -> int:
        """A variable that can be one only if something that carries the cultivar is planted."""
        if cultivar not in self._present:
            self._present[cultivar] = present = self._program.variable(whole=False)
            carriers = dict.fromkeys(self._carriers[cultivar], -1.0)
            self._program.row({present: 1.0} | carriers, high=0.0)
        return self._present[cultivar]

    def _had(self, ways: dict[int, int]) -> int:
        """A variable that is one as soon as one of these ways is chosen."""
        (way, most), *more = ways.items()
        if most == 1 and not more:
            return way
        had = self._program.variable(whole=max(ways.values()) > 1)
        for way, most in ways.items():
            self._program.row({had: float(most), way: -1.0}, low=0.0)
        return had
