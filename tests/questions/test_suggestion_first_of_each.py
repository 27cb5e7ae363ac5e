"""Which suggestions come first when several crops are wished, and how many there are of one crop."""

from __future__ import annotations

import pytest

from service.domain.site import Site, Wishes
from service.questions.suggestion import Judges, SuggestionAnswer, SuggestionQuestion, suggest
from service.questions.suggestion.known import own_figures
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

PLACE = Site(hardiness_zone=7.5, chill_hours=1000, summer="humid")


def answer(rulebook: Rulebook, limit: int, *crops: str) -> SuggestionAnswer:
    judge = PlainMatcher(rulebook)
    question = SuggestionQuestion(PLACE, Wishes(crops=crops), limit=limit)
    return suggest(question, rulebook=rulebook, judges=Judges(judge, judge))


def test_the_first_few_hold_the_best_of_each_wished_crop(rulebook: Rulebook) -> None:
    wished = ("almond", "apple", "fig", "japanese_plum", "peach")
    told = answer(rulebook, 5, *wished)
    assert sorted(one.crop.id for one in told.suggestions) == list(wished)
    best = {tally.crop.id: tally.best for tally in told.crops}
    assert all(one.cultivar.id == best[one.crop.id].cultivar.id for one in told.suggestions)  # type: ignore[union-attr]


@pytest.mark.parametrize("limit", [1, 5, 12, 50])
def test_suggestions_stand_in_order_of_fit_whatever_the_limit(rulebook: Rulebook, limit: int) -> None:
    fits = [one.fit for one in answer(rulebook, limit, "almond", "apple", "peach").suggestions]
    assert fits == sorted(fits, reverse=True)
    assert len(fits) == limit


def test_a_single_wished_crop_fills_the_list(rulebook: Rulebook) -> None:
    assert {one.crop.id for one in answer(rulebook, 10, "quince").suggestions} == {"quince"}
    assert len(answer(rulebook, 10, "quince").suggestions) == 10


def test_own_figures_count_what_is_known_of_the_cultivar_itself(rulebook: Rulebook) -> None:
    counts = {cultivar.id: own_figures(cultivar) for cultivar in rulebook.catalogue.cultivars.values()}
    assert set(counts.values()) == {0, 1, 2, 3}
    assert counts["apple.honeycrisp"] == 2  # hardiness and season; nobody publishes its chill need
    assert counts["peach.contender"] == 3
