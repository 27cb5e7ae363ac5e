"""A counter that checks planting lists by the real rulebook, for tests: a text in, a checked list out."""

from __future__ import annotations

from typing import Any

from service.domain.planting_list import ReadLine, ReadList
from service.domain.site import Site
from service.questions.planting_list import (
    CheckedLine,
    CheckedList,
    LineChecker,
    ListPlace,
    PlantingListQuestion,
    check_list,
    gather,
    list_reader,
)
from service.questions.suggestion import Judges
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

GARDEN = Site(hardiness_zone=7.0, chill_hours=900, width_ft=60, depth_ft=40)


class ListCounter:
    """Checks lists that are written as text."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook, self.matcher = rulebook, PlainMatcher(rulebook)

    def read(self, text: str) -> ReadList:
        """The list as it is read."""
        return gather(list_reader(self.rulebook).stream_text(text), most=10_000, pointer="/text")

    def lines(self, text: str) -> tuple[ReadLine, ...]:
        """The lines as they are read."""
        return self.read(text).lines

    def check(self, text: str, site: Site = GARDEN, **more: Any) -> CheckedList:
        """The list judged at a place."""
        return self.judge(self.read(text), site, **more)

    def judge(self, read: ReadList, site: Site = GARDEN, **more: Any) -> CheckedList:
        """A list that was read, judged at a place."""
        question = PlantingListQuestion(read, ListPlace(site, **more))
        return check_list(question, rulebook=self.rulebook, judges=Judges(self.matcher, self.matcher))

    def line(self, text: str, site: Site = GARDEN, **more: Any) -> CheckedLine:
        """The first line of a list judged."""
        return self.check(text, site, **more).lines[0]

    def checker(self, site: Site = GARDEN, **more: Any) -> LineChecker:
        """Judges line by line."""
        return LineChecker(ListPlace(site, **more), rulebook=self.rulebook, matcher=self.matcher)


def facts(line: CheckedLine, name: int = 0) -> dict[str, Any]:
    """The facts that rules were given on a name of a line."""
    return dict(line.names[name].judgement.facts)
