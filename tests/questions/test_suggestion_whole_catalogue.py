"""What must hold of every answer over the whole catalogue with the rules as they stand."""

from __future__ import annotations

import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.domain.month_day import MonthDay
from service.domain.site import Site, StandingTree, Wishes
from service.present.suggestion import suggestion_advice
from service.questions.suggestion import (
    Candidate,
    Judges,
    SuggestionAnswer,
    SuggestionQuestion,
    disagreements,
    prepare,
    suggest,
)
from service.questions.suggestion.gaps import unknown_of_candidate
from service.questions.suggestion.planting import partners_needed
from service.reasoning.engine import EngineMatcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

PIEDMONT = Site(
    hardiness_zone=7.5, chill_hours=1000, last_spring_frost=MonthDay(4, 10), first_autumn_frost=MonthDay(10, 28),
    width_ft=40, depth_ft=25, max_height_ft=14, sun_hours=8, drainage="moderate", summer="humid", warmest_month_f=78,
)  # fmt: skip
NOT_TOO_LITTLE = {"short", "enough", "ample", "far_more"}
quickly = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture(scope="module")
def judges(rulebook: Rulebook) -> Judges:
    return Judges(sweeping=PlainMatcher(rulebook), asking=EngineMatcher(rulebook))


@pytest.fixture(scope="module")
def sweep(rulebook: Rulebook) -> Judges:
    plain = PlainMatcher(rulebook)
    return Judges(sweeping=plain, asking=plain)


@pytest.fixture(scope="module")
def piedmont(rulebook: Rulebook, judges: Judges) -> SuggestionAnswer:
    standing = (StandingTree("apple", ("apple.liberty",), distance_ft=40),)
    wishes = Wishes(harvest_months=(6, 7, 8, 9, 10), uses=("fresh",), max_trees=4)
    return suggest(SuggestionQuestion(PIEDMONT, wishes, standing, limit=50), rulebook=rulebook, judges=judges)


def everyone(rulebook: Rulebook, judges: Judges, site: Site) -> dict[str, Candidate]:
    question = SuggestionQuestion(site, consider=tuple(rulebook.catalogue.cultivars), limit=1)
    told = suggest(question, rulebook=rulebook, judges=judges)
    return {candidate.cultivar.id: candidate for candidate in told.considered}


@quickly
@given(hours=st.integers(0, 2000), more=st.integers(1, 800))
def test_more_chill_never_turns_enough_into_too_little(
    rulebook: Rulebook, sweep: Judges, hours: int, more: int
) -> None:
    before = everyone(rulebook, sweep, Site(chill_hours=hours))
    after = everyone(rulebook, sweep, Site(chill_hours=hours + more))
    for cultivar, candidate in before.items():
        if candidate.judgement.concluded.get("chill_verdict") in NOT_TOO_LITTLE:
            assert after[cultivar].judgement.concluded.get("chill_verdict") != "too_little", cultivar


@quickly
@given(zone=st.sampled_from([half / 2 for half in range(6, 21)]))
def test_a_warmer_winter_never_makes_a_cultivar_too_tender(rulebook: Rulebook, sweep: Judges, zone: float) -> None:
    before = everyone(rulebook, sweep, Site(hardiness_zone=zone))
    after = everyone(rulebook, sweep, Site(hardiness_zone=zone + 0.5))
    for cultivar, candidate in before.items():
        if candidate.judgement.concluded.get("cold_verdict") in ("borderline", "hardy"):
            assert after[cultivar].judgement.concluded.get("cold_verdict") != "too_cold", cultivar


def test_a_place_of_which_nothing_is_known_sets_aside_only_what_no_place_could_mend(
    rulebook: Rulebook, sweep: Judges
) -> None:
    for candidate in everyone(rulebook, sweep, Site()).values():
        against = [one for one in candidate.judgement.conclusions if one.outcome in ("set_aside", "forbid")]
        assert all(not name.startswith("site.") for one in against for name, _ in one.facts)


def test_every_cultivar_that_is_set_aside_says_why(rulebook: Rulebook, judges: Judges) -> None:
    question = SuggestionQuestion(Site(hardiness_zone=4.0, chill_hours=1200, width_ft=10, depth_ft=10))
    told = suggestion_advice(
        suggest(question, rulebook=rulebook, judges=judges), rulebook=rulebook, set_aside_limit=1000
    )["answer"]
    assert len(told["set_aside"]) > 50
    assert all(one["reasons"] and all(reason["text"] for reason in one["reasons"]) for one in told["set_aside"])


def test_the_engine_says_of_every_cultivar_what_the_sweep_said(rulebook: Rulebook, judges: Judges) -> None:
    before = disagreements.total
    assert len(everyone(rulebook, judges, PIEDMONT)) == len(rulebook.catalogue.cultivars)
    assert disagreements.total == before


def test_suggestions_stand_in_order_of_fit_and_none_is_set_aside(piedmont: SuggestionAnswer) -> None:
    fits = [candidate.fit for candidate in piedmont.suggestions]
    assert fits == sorted(fits, reverse=True)
    assert all(candidate.fits and 0 <= candidate.fit <= 100 for candidate in piedmont.suggestions)


def test_every_planted_tree_has_the_partners_that_it_needs(rulebook: Rulebook, piedmont: SuggestionAnswer) -> None:
    assert piedmont.planting is not None
    plans = [plan for plan in (piedmont.planting.best, piedmont.planting.second) if plan is not None]
    alone = prepare(rulebook).crops_alone
    for plan in plans:
        assert 0 < len(plan.trees) <= 4
        for tree in plan.trees:
            partners = plan.partners[tree.cultivar.id]
            assert len(partners) >= partners_needed(tree) or any(alone(one) for one in partners)


def test_the_same_question_gives_the_same_bytes(rulebook: Rulebook, judges: Judges) -> None:
    def told() -> bytes:
        question = SuggestionQuestion(PIEDMONT, Wishes(max_trees=3), (), ("apple.honeycrisp",))
        answer = suggest(question, rulebook=rulebook, judges=judges)
        return json.dumps(suggestion_advice(answer, rulebook=rulebook)).encode()

    assert told() == told()


def test_what_is_not_known_of_a_cultivar_is_listed_and_never_filled_in(
    rulebook: Rulebook, piedmont: SuggestionAnswer
) -> None:
    for candidate in piedmont.suggestions:
        unknown = unknown_of_candidate(candidate, rulebook)
        assert not set(unknown) & set(candidate.facts)
        assert ("chill.basis" in unknown) == ("chill.basis" not in candidate.facts)


def test_what_is_not_known_of_the_place_is_asked_for_once(rulebook: Rulebook, judges: Judges) -> None:
    blank = suggest(SuggestionQuestion(Site()), rulebook=rulebook, judges=judges).not_judged
    assert "site.hardiness_zone" in blank
    assert "site.frost_free_days" not in blank
    hours = suggest(SuggestionQuestion(Site(chill_hours=800)), rulebook=rulebook, judges=judges).not_judged
    assert not {"site.chill_hours", "site.chill_portions"} & set(hours)


def test_a_contradictory_place_is_answered_with_a_caution(rulebook: Rulebook, judges: Judges) -> None:
    question = SuggestionQuestion(Site(hardiness_zone=4.0, chill_hours=150))
    said = suggest(question, rulebook=rulebook, judges=judges).site_judgement.conclusions
    assert [one.rule.id for one in said if one.outcome == "caution" and "site.chill_hours" in dict(one.facts)]


def test_no_sentence_of_an_answer_keeps_a_brace_or_an_unknown(rulebook: Rulebook, piedmont: SuggestionAnswer) -> None:
    for language in ("en", "es"):
        told = suggestion_advice(piedmont, rulebook=rulebook, language=language)  # type: ignore[arg-type]
        for one in told["conclusions"]:
            assert "{" not in one["text"] + one["why"]
            assert "unknown" not in one["text"]
