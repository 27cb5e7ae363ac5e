"""How the rules of the variety question hang together: no gap, no contradiction, nothing concluded from the unknown."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.reasoning.vocabulary import Value

RULES = Path(__file__).parents[2] / "rules"
WAKE_EARLY = ("peach", "nectarine", "apricot", "japanese_plum", "plum_apricot_hybrid", "sweet_cherry", "almond")
WAKE_LATER = ("apple", "asian_pear", "european_plum", "tart_cherry", "fig", "persimmon")
VERDICTS = ("too_little", "short", "enough", "ample", "far_more")


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook(RULES)


@pytest.fixture(scope="module")
def matcher(rulebook: Rulebook) -> PlainMatcher:
    return PlainMatcher(rulebook)


def bare(rulebook: Rulebook, crop: str) -> dict[str, Value]:
    """A cultivar of a crop of which nothing is known."""
    cultivar = rulebook.catalogue.cultivars_of(crop)[0]
    return {
        "crop": crop, "crop.kind": rulebook.catalogue.crops[crop].kind, "cultivar": cultivar.denomination,
        "cultivar.id": cultivar.id, "cultivar.recalled_share": 0.0, "cultivar.asked_about": False,
        "cultivar.already_there": False, "pollination.triploid": False, "rootstock.named_incompatible": False,
    }  # fmt: skip


def chill(basis: str, *, need: tuple[float, float], supply: float) -> dict[str, Value]:
    """The chill facts of a need in hours at a place."""
    low, high = need
    return {
        "chill.basis": basis, "chill.measure": "hours", "chill.need_low_hours": low, "chill.need_high_hours": high,
        "site.chill_hours": supply, "site.chill_basis": "given",
        "chill.supply_over_low_need": supply / low, "chill.supply_over_high_need": supply / high,
    }  # fmt: skip


def fit(matcher: PlainMatcher, *facts: Mapping[str, Value]) -> Judgement:
    case = {name: value for part in facts for name, value in part.items()}
    judgement = matcher.judge("suggestion.cultivar", case)
    assert not judgement.conflicts
    return judgement


@pytest.mark.parametrize("crop", [*WAKE_EARLY, *WAKE_LATER])
@pytest.mark.parametrize("need", [(800, 800), (500, 700)])
def test_every_amount_of_chill_gives_one_verdict_against_a_cultivars_own_need(
    rulebook: Rulebook, matcher: PlainMatcher, crop: str, need: tuple[float, float]
) -> None:
    judgements = (
        fit(matcher, bare(rulebook, crop), chill("cultivar", need=need, supply=hours)) for hours in range(50, 3000, 25)
    )
    ranks = [VERDICTS.index(str(one.concluded["chill_verdict"])) for one in judgements]
    assert ranks == sorted(ranks)
    assert VERDICTS[ranks[0]] == "too_little"
    assert VERDICTS[ranks[-1]] == ("far_more" if crop in WAKE_EARLY else "ample")


@pytest.mark.parametrize("basis", ["cultivar", "crop"])
def test_more_chill_never_costs_an_apple_points(rulebook: Rulebook, matcher: PlainMatcher, basis: str) -> None:
    judgements = [
        fit(matcher, bare(rulebook, "apple"), chill(basis, need=(600, 900), supply=hours))
        for hours in range(0, 2000, 25)
    ]
    standing = [one.points for one in judgements if not one.set_aside]
    assert standing == sorted(standing)
    aside = [one.set_aside for one in judgements]
    assert aside == sorted(aside, reverse=True)


def test_a_figure_for_the_crop_sets_aside_only_under_half_the_need_and_weighs_less(
    rulebook: Rulebook, matcher: PlainMatcher
) -> None:
    for hours in range(0, 2000, 25):
        own = fit(matcher, bare(rulebook, "apple"), chill("cultivar", need=(700, 1000), supply=hours))
        wide = fit(matcher, bare(rulebook, "apple"), chill("crop", need=(700, 1000), supply=hours))
        assert not wide.set_aside or (hours < 350 and own.set_aside)
        assert own.set_aside or abs(wide.points) <= abs(own.points)


@pytest.mark.parametrize("basis", ["cultivar", "crop"])
def test_a_warmer_winter_costs_no_points_until_winters_are_mild_and_is_never_blamed(
    rulebook: Rulebook, matcher: PlainMatcher, basis: str
) -> None:
    judgements = [
        fit(
            matcher, bare(rulebook, "apple"),
            {"zone.basis": basis, "zone.coldest": 4, "site.hardiness_zone": half / 2, "zone.margin": half / 2 - 4},
        )
        for half in range(0, 21)
    ]  # fmt: skip
    mild = int(2 * rulebook.limits["suggestion.zone.cold_decides_below"].value)  # from here hardiness is no merit
    points = [one.points for one in judgements[:mild] if not one.set_aside]
    assert points == sorted(points)
    assert {one.points for one in judgements[mild:]} == {0}
    assert [one.concluded["cold_verdict"] for one in judgements][-1] == "hardy"
    assert judgements[0].set_aside
    assert judgements[0].concluded["cold_verdict"] == "too_cold"


@pytest.mark.parametrize("crop", ["apple", "pomegranate", "fig", "peach"])
def test_a_later_harvest_never_gains_on_the_first_autumn_frost(
    rulebook: Rulebook, matcher: PlainMatcher, crop: str
) -> None:
    judgements = [
        fit(
            matcher, bare(rulebook, crop),
            {"harvest.basis": "cultivar_dates", "harvest.last_day": 290 - days, "harvest.days_before_frost": days},
        )
        for days in range(60, -70, -1)
    ]  # fmt: skip
    points = [one.points for one in judgements if not one.set_aside]
    assert points == sorted(points, reverse=True)
    assert judgements[0].concluded["harvest_verdict"] == "before_frost"
    assert judgements[-1].set_aside
    assert judgements[-1].concluded["harvest_verdict"] == "after_frost"


def test_a_cultivar_of_which_nothing_is_known_is_neither_praised_nor_blamed_for_climate(
    rulebook: Rulebook, matcher: PlainMatcher
) -> None:
    climate = {"chill_verdict", "cold_verdict", "frost_verdict", "harvest_verdict"}
    for crop in rulebook.catalogue.crops:
        judgement = fit(matcher, bare(rulebook, crop))
        assert not judgement.set_aside, crop
        blamed = [one.rule.id for one in judgement.conclusions if one.points]
        assert blamed == (["mark-down-almonds-where-nobody-knows-the-summer"] if crop == "almond" else []), crop
        assert not climate & set(judgement.concluded), crop


def test_a_low_chill_peach_loses_to_a_matching_one_where_frosts_come_late(
    rulebook: Rulebook, matcher: PlainMatcher
) -> None:
    frost: dict[str, Value] = {"site.last_spring_frost_day": 115}
    low = fit(matcher, bare(rulebook, "peach"), chill("cultivar", need=(250, 300), supply=1000), frost)
    matching = fit(matcher, bare(rulebook, "peach"), chill("cultivar", need=(800, 850), supply=1000), frost)
    assert low.points < matching.points
    assert low.concluded["frost_verdict"] == "bloom_at_risk"


def test_every_disease_that_cultivars_are_rated_for_has_a_rule(rulebook: Rulebook) -> None:
    tested = {
        test.value
        for rule in rulebook.rulesets["suggestion.cultivar"]
        for test in rule.when
        if test.fact in ("cultivar.resists", "cultivar.susceptible_to")
    }
    assert rulebook.catalogue.diseases <= tested
