"""A long list told in parts: the same from wherever it goes on, and the same sums as the list in one piece."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import orjson
import pytest

from service.domain.list_batch import Part
from service.domain.site import Site
from service.intake.planting_list import Upload
from service.present.planting_list import planting_list_advice
from service.present.planting_list_parts import PART_LINES, Desk, ListInParts, json_pieces, unpacked
from service.questions.planting_list import ListPlace, PlantingListQuestion, check_list, list_reader
from service.questions.suggestion import Judges
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

NAMES = ("Honeycrisp apple", "Elberta peach", "Nobody knows", "Gala", "Montmorency tart cherry", "Bing sweet cherry")
LIST = "".join(f"{1 + number % 4} {NAMES[number % 6]}, ${number % 50}.50\n" for number in range(1_700)).encode()
PLACE = ListPlace(Site(hardiness_zone=7.5, chill_hours=900))


@pytest.fixture(scope="module")
def desk(rulebook: Rulebook) -> Desk:
    """A desk where the plain matcher judges."""
    matcher = PlainMatcher(rulebook)
    return Desk(rulebook, Judges(sweeping=matcher, asking=matcher))


def checking(desk: Desk, content: bytes = LIST) -> ListInParts:
    return ListInParts(list_reader(desk.rulebook).stream(Upload(content)), PLACE, desk)


def lines_of(parts: list[Part]) -> list[Mapping[str, Any]]:
    return [line for part in parts for line in unpacked(part.told)]


def test_every_line_stands_in_one_part(desk: Desk) -> None:
    parts = list(checking(desk).parts())
    assert [part.lines for part in parts] == [PART_LINES] * 3 + [200]
    assert [part.number for part in parts] == [0, 1, 2, 3]
    assert [line["line"] for line in lines_of(parts)] == list(range(1, 1_701))
    assert all(len(part.verdicts) == part.lines for part in parts)


@pytest.mark.parametrize("done", [1, 2, 3, 4])
def test_a_check_that_goes_on_comes_to_the_same(desk: Desk, done: int) -> None:
    whole = list(checking(desk).parts())
    kept = whole[:done]
    going_on = checking(desk)
    parts = [*kept, *going_on.parts(done=done, lines_done=sum(part.lines for part in kept))]
    assert parts == whole
    once = checking(desk)
    assert list(once.parts()) == whole
    tallies = [part.tally for part in whole]
    assert going_on.whole(tallies) == once.whole(tallies)


def test_parts_come_to_the_sums_of_the_list_in_one_piece(desk: Desk) -> None:
    in_parts = checking(desk)
    told, verdict = in_parts.whole([part.tally for part in in_parts.parts()])
    question = PlantingListQuestion(list_reader(desk.rulebook).read(Upload(LIST)), PLACE)
    checked = check_list(question, rulebook=desk.rulebook, judges=desk.judges)
    at_once = planting_list_advice(checked, rulebook=desk.rulebook)
    for name in ("totals", "list_findings", "verdict", "looked_at_whole", "read"):
        assert told["answer"][name] == at_once["answer"][name]
    assert verdict == at_once["answer"]["verdict"]
    assert {one["id"] for one in told["cautions"]} == {one["id"] for one in at_once["cautions"]}
    assert told["not_judged"] == at_once["not_judged"]


def test_a_short_list_is_looked_at_as_a_whole_and_its_pieces_make_the_answer(desk: Desk) -> None:
    content = b"2 Honeycrisp on M.9\nLiberty\nBing\n"
    in_parts = checking(desk, content)
    parts = list(in_parts.parts())
    told, _ = in_parts.whole([part.tally for part in parts])
    question = PlantingListQuestion(list_reader(desk.rulebook).read(Upload(content)), PLACE)
    at_once = planting_list_advice(
        check_list(question, rulebook=desk.rulebook, judges=desk.judges), rulebook=desk.rulebook
    )
    assert orjson.loads(b"".join(json_pieces(told, (part.told for part in parts)))) == at_once


def test_an_empty_list_is_a_list_without_lines(desk: Desk) -> None:
    in_parts = checking(desk, b"Dear all,\nthank you very much for your kind help.\n")
    parts = list(in_parts.parts())
    told, _ = in_parts.whole([part.tally for part in parts])
    assert sum(part.lines for part in parts) == told["answer"]["totals"]["lines"] == 0
    assert orjson.loads(b"".join(json_pieces(told, (part.told for part in parts))))["answer"]["lines"] == []
