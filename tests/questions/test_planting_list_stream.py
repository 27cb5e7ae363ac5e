"""Lists of any length, line by line: what is kept between lines changes nothing, and tallies add up."""

from __future__ import annotations

import pytest

from service.domain.errors import TooLarge
from service.domain.site import Site
from service.questions.planting_list import Tally, gather, judge_tally, list_reader
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import GARDEN, ListCounter

LIST = """2 Honeycrisp on M.9
Gala apple
Galla apple
2 Bing cherry $30 each
Bartlett pear on Quince A
Zzyxqv
3-in-1: Liberty/Freedom/Enterprise
2 Honeycrisp on M.9
"""


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


def test_a_line_that_was_judged_before_is_judged_the_same_again(counter: ListCounter) -> None:
    lines = counter.lines(LIST)
    warm = counter.checker()
    for line in lines:
        warm.check(line)
    cold = counter.checker()
    for line in lines[:-1]:
        repeated = cold.repeated(line)
        again, anew = warm.checked(line, repeated), counter.checker().checked(line, repeated)
        assert [name.judgement.as_bytes() for name in again.names] == [name.judgement.as_bytes() for name in anew.names]


def test_equal_lines_share_their_judgement(counter: ListCounter) -> None:
    checker = counter.checker()
    first, second, third = (checker.check(line) for line in counter.lines("Gala apple\nGala apple\nGala apple"))
    assert first.names[0] is not second.names[0]  # the second repeats the first
    assert second.names[0] is third.names[0]


def test_the_tallies_of_two_parts_add_up_to_the_tally_of_the_whole(counter: ListCounter) -> None:
    checked = [*map(counter.checker().check, counter.lines(LIST))]
    whole, head, tail = Tally(), Tally(), Tally()
    for place, line in enumerate(checked):
        whole.add(line)
        (head if place < 3 else tail).add(line)
    head.merge(tail)
    assert head == whole


def test_a_list_longer_than_the_limit_is_judged_line_by_line(counter: ListCounter) -> None:
    most = int(counter.rulebook.limits["planting_list.list_wide.lines"].value)
    text = "\n".join(["Honeycrisp on M.9"] * (most + 1))
    checked = counter.check(text)
    assert not checked.whole
    assert len(checked.lines) == most + 1
    assert (checked.sketch, checked.harvest, checked.addition, checked.mended) == (None, None, None, None)
    assert checked.judgement.facts["list.looked_at_whole"] is False
    assert counter.check("\n".join(["Honeycrisp on M.9"] * most)).whole


def test_rules_on_the_list_read_the_counts_of_a_stream(counter: ListCounter) -> None:
    checker, tally = counter.checker(state="WA"), Tally()
    for line in counter.lines(LIST):
        tally.add(checker.check(line))
    facts = judge_tally(counter.read("Gala apple"), tally, checker, matcher=counter.matcher).facts
    assert (facts["list.lines"], facts["list.trees"]) == (8, 11)
    assert facts["list.does_not_fit"] == 1
    assert facts["list.crops"] == ("apple", "european_pear", "sweet_cherry")


def test_a_line_done_before_a_crash_is_remembered_without_being_judged_again(counter: ListCounter) -> None:
    lines = counter.lines("Gala apple\nHoneycrisp\nGala apple")
    after = counter.checker()
    for line in lines[:2]:
        after.repeated(line)
    assert after.check(lines[2]).repeats == 1


def test_prices_are_summed_only_where_it_is_known_what_they_are_for(counter: ListCounter) -> None:
    checker, tally = counter.checker(), Tally()
    text = "qty,variety,price each\n2,Gala,$30\n1,Honeycrisp,$40.50\n"
    for line in counter.lines(text):
        tally.add(checker.check(line))
    totals = tally.totals()
    assert {name: float(amount) for name, amount in totals.prices.items()} == {"USD": 100.5}
    assert totals.priced_lines == 2


def test_more_lines_than_are_answered_at_once_are_refused_where_they_were_sent(counter: ListCounter) -> None:
    reader = list_reader(counter.rulebook)
    with pytest.raises(TooLarge) as refused:
        gather(reader.stream_text("Gala apple\n" * 4), most=3, pointer="/text")
    assert [pointer for pointer, _ in refused.value.faults] == ["/text"]
    assert len(gather(reader.stream_text("Gala apple\n" * 3), most=3, pointer="/text").lines) == 3


def test_the_place_is_read_once_and_holds_for_every_line(counter: ListCounter) -> None:
    warm, cold = counter.checker(Site(hardiness_zone=10.0, chill_hours=50)), counter.checker(GARDEN)
    (line,) = counter.lines("Honeycrisp apple")
    assert warm.check(line).names[0].tree != cold.check(line).names[0].tree
    assert warm.check(line).verdict == "does_not_fit"
