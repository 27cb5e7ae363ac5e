"""Two real climates, from the weather to the varieties, against what extension says of such places.

Seattle (daily, 2012-2015):
- C. Smith for WSU Extension, Kitsap Sun 2009, with R. Norton of WSU: apples and pears offer the best chance, the scab
  resistant Liberty, Williams' Pride, Dayton and Enterprise among them; Italian Prune and Imperial Epineuse are the
  plums to choose, Beauty and Methley the Japanese ones; tart cherries are self-fertile.
- University of Washington, Plant Answer Line: a pomegranate is unlikely to ripen its fruit.
- Western Washington Fruit Research Foundation: most persimmons do not ripen; the site with the most heat.

Greensboro, North Carolina (hourly, a typical year):
- M. L. Parker and D. J. Werner, Chilling Requirements of Selected Peach Varieties, North Carolina Extension: the state
  usually gets more than 1,000 hours; too little chill is rare there; peaches that need less than 750 hours wake too
  soon and lose their bloom to frost.
"""

from __future__ import annotations

import pytest

from service.domain.site import Site
from service.domain.weather import Reading, Series
from service.questions.climate import ClimateQuestion, summarise_climate
from service.questions.suggestion import Candidate, Judges, SuggestionAnswer, SuggestionQuestion, suggest
from service.reasoning.engine import EngineMatcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from tests.published import weather_at_hand

WSU_CHOICES = (
    "apple.liberty", "apple.williams_pride", "apple.dayton", "apple.enterprise", "european_plum.italian",
    "european_plum.imperial_epineuse", "japanese_plum.beauty", "japanese_plum.methley", "tart_cherry.montmorency",
)  # fmt: skip


def everything_at(rulebook: Rulebook, series: Series, latitude: float, site: Site) -> SuggestionAnswer:
    question = ClimateQuestion(latitude, Reading(series, "c", 0))
    summary = summarise_climate(question, weather_at_hand.models())
    judges = Judges(sweeping=PlainMatcher(rulebook), asking=EngineMatcher(rulebook))
    everyone = tuple(rulebook.catalogue.cultivars)
    asked = SuggestionQuestion(site, consider=everyone, climate=summary)
    return suggest(asked, rulebook=rulebook, judges=judges)


@pytest.fixture(scope="module")
def seattle(rulebook: Rulebook) -> dict[str, Candidate]:
    told = everything_at(rulebook, weather_at_hand.seattle(), weather_at_hand.SEATTLE_LATITUDE, Site())
    return {candidate.cultivar.id: candidate for candidate in told.considered}


@pytest.fixture(scope="module")
def greensboro(rulebook: Rulebook) -> dict[str, Candidate]:
    series, latitude = weather_at_hand.greensboro_winter(), weather_at_hand.GREENSBORO_LATITUDE
    told = everything_at(rulebook, series, latitude, Site(summer="humid"))
    return {candidate.cultivar.id: candidate for candidate in told.considered}


def own_need_hours(candidate: Candidate) -> float | None:
    """The lower end of a need that is published for the cultivar itself, in hours."""
    stated = candidate.cultivar.chill_hours
    if stated is None or stated.basis == "crop" or stated.value.model not in ("hours_below_45f", "hours_32_45f"):
        return None
    return stated.value.amount.low


def test_seattle_has_the_cold_and_the_chill_for_what_wsu_recommends(seattle: dict[str, Candidate]) -> None:
    for cultivar in WSU_CHOICES:
        assert seattle[cultivar].fits, cultivar
        verdicts = seattle[cultivar].judgement.concluded
        assert verdicts.get("chill_verdict") not in ("too_little", "short"), cultivar
        assert verdicts.get("cold_verdict") not in ("too_cold", "borderline"), cultivar


def test_no_apple_pear_or_cherry_is_short_of_chill_in_seattle(seattle: dict[str, Candidate]) -> None:
    crops = ("apple", "european_pear", "sweet_cherry", "tart_cherry", "european_plum")
    verdicts = {one.judgement.concluded.get("chill_verdict") for one in seattle.values() if one.crop.id in crops}
    assert "too_little" not in verdicts


def test_pomegranates_and_persimmons_stand_behind_the_apples_in_cool_seattle(seattle: dict[str, Candidate]) -> None:
    def best(crop: str) -> int:
        return max(candidate.fit for candidate in seattle.values() if candidate.crop.id == crop)

    assert best("pomegranate") < best("apple")
    assert best("persimmon") < best("apple")
    told = {one.rule.id for one in seattle["pomegranate.emek"].judgement.conclusions}
    assert "mark-down-a-pomegranate-where-summers-are-cool" in told


def test_the_recorded_winters_of_seattle_stand_behind_the_chill(seattle: dict[str, Candidate]) -> None:
    facts = seattle["peach.contender"].facts
    assert facts["site.chill_basis"] == "series"
    assert facts["site.winters"] == 3
    assert facts["chill.winters_met_share"] == 1


def test_greensboro_gets_more_than_a_thousand_hours_and_no_peach_goes_without(
    greensboro: dict[str, Candidate],
) -> None:
    peaches = [candidate for candidate in greensboro.values() if candidate.crop.id == "peach"]
    assert peaches[0].facts["site.chill_hours"] > 1000  # type: ignore[operator]
    assert all(candidate.judgement.concluded.get("chill_verdict") != "too_little" for candidate in peaches)


def test_peaches_below_750_hours_are_said_to_wake_too_soon_in_greensboro(greensboro: dict[str, Candidate]) -> None:
    low = [
        candidate
        for candidate in greensboro.values()
        if candidate.crop.id == "peach" and (own_need_hours(candidate) or 750) < 750
    ]
    assert len(low) > 10
    assert {candidate.judgement.concluded.get("chill_verdict") for candidate in low} == {"far_more"}


def test_the_best_peach_with_a_published_need_is_one_of_750_hours_or_more(greensboro: dict[str, Candidate]) -> None:
    known = [
        (candidate.fit, own_need_hours(candidate))
        for candidate in greensboro.values()
        if candidate.crop.id == "peach" and own_need_hours(candidate) is not None
    ]
    best = max(fit for fit, _ in known)
    assert all((need or 0) >= 750 for fit, need in known if fit == best)


def test_loquats_are_too_tender_for_fruit_in_greensboro(greensboro: dict[str, Candidate]) -> None:
    """UF/IFAS HS5 (recalled): loquat bloom and fruit are killed below about 27 °F, as zone 7 sees every winter."""
    assert max(candidate.fit for candidate in greensboro.values() if candidate.crop.id == "loquat") < 50
