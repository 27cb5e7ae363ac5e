"""The pruning rules taken as a whole: nothing left over, nothing missing, nothing that contradicts itself."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date, timedelta

import pytest

from service.domain.errors import NotUnderstood
from service.domain.month_day import MonthDay
from service.domain.pruned_tree import FORMS, SIGNS, STAGES, VIGOURS, GraftedVariety, PrunedTree, SharedHole
from service.domain.site import Site
from service.questions.pruning import PruningAnswer, PruningQuestion, WeatherAhead
from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from tests.rules.pruned import Clerk

QUESTIONS = 900
RULESETS = ("pruning.tree", "pruning.season", "pruning.cut", "pruning.variety", "pruning.renovation")


@pytest.fixture(scope="module")
def clerk(rulebook: Rulebook) -> Clerk:
    return Clerk(rulebook, PlainMatcher(rulebook))


@pytest.fixture(scope="module")
def answers(clerk: Clerk) -> list[PruningAnswer]:
    return [clerk.ask(question) for question in questions(clerk.rulebook, random.Random(20261125))]


def questions(rulebook: Rulebook, chance: random.Random) -> Iterator[PruningQuestion]:
    """Trees, places, days and weather at random; what contradicts itself is never asked."""
    asked = 0
    while asked < QUESTIONS:
        try:
            tree = some_tree(rulebook, chance)
        except NotUnderstood:
            continue
        asked += 1
        day = chance.choice((None, date(2026, 1, 1) + timedelta(chance.randrange(365))))
        yield PruningQuestion(tree, day, some_site(chance), weather=some_weather(chance))


def some_tree(rulebook: Rulebook, chance: random.Random) -> PrunedTree:
    crop = chance.choice(sorted(rulebook.catalogue.crops))
    cultivars = [one.id for one in rulebook.catalogue.cultivars_of(crop)]
    grown = (GraftedVariety("strong", shoot_length_in=25), GraftedVariety("weak", shoot_length_in=10))
    holes = (None, SharedHole(2), SharedHole(3, 12, (9.0, 6.0, 6.0)))
    return PrunedTree(
        crop,
        cultivar=chance.choice((None, *cultivars)),
        age_years=chance.choice((None, 1, 2, 3, 6, 20)),
        height_ft=chance.choice((None, 4.0, 8.0, 14.0, 22.0)),
        max_height_ft=chance.choice((None, 6.0, 8.0, 9.0, 12.0)),
        training=chance.choice((None, *FORMS)),
        just_planted=chance.choice((None, True, False)),
        branched=chance.choice((None, True, False)),
        bears=chance.choice((None, True, False)),
        vigour=chance.choice((None, *VIGOURS)),
        shoot_length_in=chance.choice((None, 5, 8, 20)),
        years_unpruned=chance.choice((None, 0, 5, 9)),
        harvested=chance.choice((None, True, False)),
        stage=chance.choice((None, *STAGES)),
        signs=chance.choice((None, (), tuple(chance.sample(SIGNS, 6)))),
        fruit_wanted=chance.choice((None, 300)),
        varieties=chance.choice(((), grown)),
        shared_hole=chance.choice(holes),
    )


def some_site(chance: random.Random) -> Site:
    return Site(
        hardiness_zone=chance.choice((None, 4.0, 5.5, 7.0, 8.0, 9.5)),
        rain=chance.choice((None, "winter", "summer", "all_year")),
        rains_begin=chance.choice((None, MonthDay(8, 1), MonthDay(10, 1), MonthDay(10, 20))),
        first_autumn_frost=chance.choice((None, MonthDay(10, 1), MonthDay(11, 15))),
        last_spring_frost=chance.choice((None, MonthDay(4, 10))),
    )


def some_weather(chance: random.Random) -> WeatherAhead:
    return WeatherAhead(
        wet=chance.choice((None, True, False)),
        dry_days_ahead=chance.choice((None, 0, 2, 5, 7, 10, 14, 30)),
        high_f=chance.choice((None, 60.0, 100.0, 108.0)),
        low_f=chance.choice((None, 10.0, 20.0, 40.0)),
    )


def judgements(answer: PruningAnswer) -> Iterator[Judgement]:
    yield from (answer.tree, answer.season)
    for part in (answer.cuts, answer.varieties, answer.renovation):
        yield from (one.judgement for one in part)


def test_no_two_rules_contradict_one_another(answers: list[PruningAnswer]) -> None:
    assert {conflict for answer in answers for one in judgements(answer) for conflict in one.conflicts} == set()


def test_every_tree_gets_a_stage_of_life_a_form_a_season_and_days(answers: list[PruningAnswer]) -> None:
    for answer in answers:
        assert {"life_stage", "main_season", "main_from_day", "main_to_day", "early_summer_to_day"} <= set(
            answer.tree.concluded
        )
        assert answer.training not in (None, "untrained")


def test_every_dated_question_says_whether_to_prune_today(answers: list[PruningAnswer]) -> None:
    dated = [answer for answer in answers if answer.question.date is not None]
    assert {answer.season.concluded.get("when_verdict") for answer in dated} == {"now", "small_cuts_only", "not_now"}


def test_every_cut_of_a_dated_plan_is_made_waits_or_is_refused(answers: list[PruningAnswer]) -> None:
    verdicts = {one.verdict for answer in answers if answer.question.date for one in answer.cuts}
    assert verdicts == {"now", "wait", "never"}


def test_nothing_that_takes_living_wood_is_cut_in_the_wet(answers: list[PruningAnswer]) -> None:
    wet = [answer for answer in answers if answer.season.concluded.get("weather_verdict") == "too_wet"]
    made = {one.cut.id for answer in wet if answer.question.date for one in answer.cuts if one.verdict == "now"}
    assert wet
    assert made == set()


def test_apricots_and_cherries_are_never_cut_for_shape_in_winter(answers: list[PruningAnswer]) -> None:
    for answer in answers:
        day = answer.question.date
        tender = answer.question.tree.crop in ("apricot", "sweet_cherry", "tart_cherry", "plum_apricot_hybrid")
        if tender and day is not None and day.month in (10, 11, 12, 1, 2, 3):
            assert [one.cut.id for one in answer.cuts if one.season == "main" and one.verdict == "now"] == []


def test_no_limit_of_the_pruning_rules_is_left_over(rulebook: Rulebook) -> None:
    used = {name for rule in rulebook.rules.values() for name in rule.limits}
    assert [name for name in rulebook.limits if name.startswith("pruning.") and name not in used] == []


def test_every_kind_of_cut_is_asked_for_by_some_rule(rulebook: Rulebook) -> None:
    asked = {test.value for rule in rulebook.rulesets["pruning.cut"] for test in rule.when if test.fact == "cut"}
    assert asked == set(rulebook.catalogue.cuts)


def test_there_are_more_than_ninety_pruning_rules_and_most_name_a_publication(rulebook: Rulebook) -> None:
    rules = [rule for name in RULESETS for rule in rulebook.rulesets[name]]
    assert len(rules) >= 90
    assert sum(bool(rule.sources) for rule in rules) > len(rules) / 2
