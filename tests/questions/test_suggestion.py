"""The variety question in the made-up nursery, step by step."""

from __future__ import annotations

import logging

import pytest

from service.domain.errors import NotUnderstood
from service.domain.site import Site, StandingTree, Wishes
from service.questions.suggestion import Candidate, Judges, SuggestionAnswer, SuggestionQuestion, disagreements, suggest
from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_nursery import answer, nursery


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return nursery(tmp_path_factory.mktemp("nursery"))


def named(candidates: tuple[Candidate, ...]) -> list[str]:
    return [candidate.cultivar.id for candidate in candidates]


def found(told: SuggestionAnswer, cultivar: str) -> Candidate:
    everything = (*told.suggestions, *told.set_aside, *told.considered)
    return next(candidate for candidate in everything if candidate.cultivar.id == cultivar)


def test_a_cultivar_that_gets_too_little_chill_is_set_aside_and_says_why(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(chill_hours=300)))
    assert "peach.wintry" in named(told.set_aside)
    assert "too-little-chill" in [one.rule.id for one in found(told, "peach.wintry").judgement.conclusions]
    assert "peach.mild" in named(told.suggestions)


def test_unknown_chill_sets_nothing_aside(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site()))
    assert told.set_aside == ()
    assert "site.chill_hours" not in told.site_facts


def test_a_figure_for_the_crop_stands_in_and_says_so(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(chill_hours=650)))
    assert found(told, "apple.october").facts["chill.basis"] == "crop"
    assert found(told, "apple.august").facts["chill.basis"] == "cultivar"


def test_portions_are_compared_where_both_sides_are_known_in_portions(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(chill_hours=100, chill_portions=18)))
    assert found(told, "peach.mild").facts["chill.measure"] == "portions"
    assert found(told, "peach.mild").fits
    assert found(told, "peach.wintry").facts["chill.measure"] == "hours"


def test_a_need_told_in_utah_units_is_not_compared_with_hours(rulebook: Rulebook) -> None:
    counted = found(answer(rulebook, SuggestionQuestion(Site(chill_hours=100))), "peach.counted")
    assert counted.fits
    assert counted.facts["chill.basis"] == "cultivar"
    assert "chill.measure" not in counted.facts
    assert "chill.supply_over_low_need" not in counted.facts


def test_the_fit_starts_at_the_limit_and_takes_the_points_of_the_rules(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(chill_hours=1000), Wishes(harvest_months=(8,))))
    assert found(told, "apple.august").fit == 60 + 20 + 5
    assert found(told, "apple.october").fit == 60 + 20


def test_the_root_that_keeps_the_tree_low_is_chosen(rulebook: Rulebook) -> None:
    low = answer(rulebook, SuggestionQuestion(Site(max_height_ft=12)))
    assert found(low, "apple.august").facts["tree.height_high_ft"] == 12
    assert found(low, "apple.august").root.rootstock.id == "small"  # type: ignore[union-attr]


def test_a_root_on_which_a_cultivar_is_named_as_failing_is_passed_over(rulebook: Rulebook) -> None:
    fussy = found(answer(rulebook, SuggestionQuestion(Site(max_height_ft=12))), "apple.fussy")
    assert fussy.root.rootstock.id == "tall"  # type: ignore[union-attr]
    assert fussy.facts["rootstock.named_incompatible"] is False


def test_a_crop_without_roots_in_the_catalogue_is_judged_by_the_crop(rulebook: Rulebook) -> None:
    mild = found(answer(rulebook, SuggestionQuestion(Site(width_ft=30, depth_ft=15))), "peach.mild")
    assert mild.root.rootstock is None
    assert (mild.facts["tree.height_basis"], mild.facts["tree.fits_count"]) == ("crop", 2)


def test_zone_margins_count_from_both_ends_and_recalled_zones_say_so(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(hardiness_zone=6.5)))
    fussy, august = found(told, "apple.fussy").facts, found(told, "apple.august").facts
    assert (fussy["zone.margin"], fussy["zone.heat_margin"], fussy["zone.recalled"]) == (-0.5, 2.5, True)
    assert (august["zone.margin"], august["zone.basis"], august["zone.recalled"]) == (2.5, "crop", False)


def test_only_the_wished_crops_are_swept_and_others_answer_when_asked_about(rulebook: Rulebook) -> None:
    question = SuggestionQuestion(Site(), Wishes(crops=("peach",)), consider=("apple.august",))
    told = answer(rulebook, question)
    assert [tally.crop.id for tally in told.crops] == ["apple", "peach"]
    assert [tally.judged for tally in told.crops] == [1, 3]
    assert found(told, "apple.august").facts["wish.crop_named"] is False
    assert found(told, "peach.mild").facts["wish.crop_named"] is True


def test_a_cultivar_that_is_asked_about_is_answered_for_even_where_it_does_not_fit(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(chill_hours=300), consider=("peach.wintry",)))
    assert named(told.considered) == ["peach.wintry"]
    assert not told.considered[0].fits
    assert told.considered[0].facts["cultivar.asked_about"] is True


def test_wished_uses_count_only_where_uses_are_known(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(), Wishes(uses=("fresh", "drying"))))
    assert found(told, "apple.august").facts["wish.uses_met_share"] == 0.5
    assert "wish.uses_met" not in found(told, "apple.october").facts


def test_among_equals_the_crops_take_turns(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site()))
    assert len({candidate.fit for candidate in told.suggestions}) == 1
    assert [candidate.crop.id for candidate in told.suggestions[:4]] == ["apple", "peach", "apple", "peach"]


def test_the_limit_bounds_the_suggestions_and_not_what_was_considered(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(), limit=1, consider=("peach.mild", "peach.wintry")))
    assert len(told.suggestions) == 1
    assert named(told.considered) == ["peach.mild", "peach.wintry"]


def test_no_planted_tree_is_left_without_its_partner(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(), Wishes(crops=("apple",))))
    assert told.planting is not None
    assert set(named(told.planting.best.trees)) == {"apple.august", "apple.october"}
    assert told.planting.best.partners["apple.august"] == ("apple.october",)


def test_one_tree_alone_must_fruit_alone(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(), Wishes(max_trees=1)))
    assert told.planting is not None
    assert told.planting.best.trees[0].crop.id == "peach"


def test_a_standing_partner_lets_one_self_sterile_tree_be_planted(rulebook: Rulebook) -> None:
    standing = (StandingTree("apple", ("apple.october",), distance_ft=30),)
    told = answer(rulebook, SuggestionQuestion(Site(), Wishes(crops=("apple",), max_trees=1), standing))
    assert told.planting is not None
    assert named(told.planting.best.trees) == ["apple.august"]
    facts = found(told, "apple.august").facts
    assert (facts["pollination.best_standing"], facts["pollination.partners_standing"]) == ("compatible", 1)
    assert facts["pollination.nearest_partner_ft"] == 30
    assert told.partners["apple.august"].standing == ("apple.october",)


def test_the_second_set_differs_and_says_what_it_gives_up(rulebook: Rulebook) -> None:
    told = answer(rulebook, SuggestionQuestion(Site(), Wishes(max_trees=1)))
    assert told.planting is not None
    assert told.planting.second is not None
    assert told.planting.given_up is not None
    assert named(told.planting.second.trees) != named(told.planting.best.trees)
    assert told.planting.given_up.points >= 0


def test_a_figure_outside_what_is_possible_is_refused_at_its_field(rulebook: Rulebook) -> None:
    with pytest.raises(NotUnderstood) as refused:
        answer(rulebook, SuggestionQuestion(Site(soil_ph=20.0, chill_hours=9000)))
    assert {pointer for pointer, _ in refused.value.faults} == {"/site/soil_ph", "/site/chill_hours"}


class _Contrary:
    """A matcher that takes one rule's points away from what another matcher says."""

    def __init__(self, other: PlainMatcher) -> None:
        self._other = other

    def judge(self, ruleset: str, facts: dict[str, object], **given: object) -> Judgement:
        facts = {name: value for name, value in facts.items() if name != "chill.supply_over_low_need"}
        return self._other.judge(ruleset, facts)  # type: ignore[arg-type]


def test_a_difference_between_the_matchers_is_counted_logged_and_decided_by_the_second(
    rulebook: Rulebook, caplog: pytest.LogCaptureFixture
) -> None:
    plain, before = PlainMatcher(rulebook), disagreements.total
    judges = Judges(sweeping=plain, asking=_Contrary(plain))  # type: ignore[arg-type]
    question = SuggestionQuestion(Site(chill_hours=1000), Wishes(crops=("peach",), max_trees=1), limit=1)
    with caplog.at_level(logging.ERROR):
        told = suggest(question, rulebook=rulebook, judges=judges)
    assert disagreements.total > before
    assert "the two matchers disagree on peach." in caplog.text
    assert told.suggestions[0].fit == 60
