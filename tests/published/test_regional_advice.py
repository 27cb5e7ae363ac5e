"""Eight places as a nursery meets them, against what extension tells home growers there. The figures of the places are
invented and round; the advice is that of the sources:

- Minnesota: University of Minnesota Extension, Stone fruits for Minnesota gardens (plums, tart cherry and hybrid
  apricot are listed, peach is not), and the Crow Wing County master gardeners (tart cherries are the best choice of
  cherry; Evans, Meteor and North Star; Honeycrisp stands zone 4).
- North Dakota: T. Kalb, Tree fruit culture and cultivars in North Dakota, NDSU Extension H327: apple, pear, plum and
  cherry can be grown.
- North Carolina: Producing tree fruit for home use, NC State Extension, table 1: apples, Asian pears, nectarines,
  peaches and pears throughout the state, figs in its warmer part; pears that resist fire blight only.
- North Florida: P. C. Andersen and others, EDIS MG367, and the research center at Quincy: most of the usual deciduous
  fruit is not adapted to so little chill and so much damp heat; kinds bred there for little chill are.
- California: P. Vossen and D. Silver, Growing temperate tree fruit and nut crops in the home garden, University of
  California: almonds do well in the Central Valley and poorly on the north coast. T. Del Hotal, Favorite fruit trees
  for San Diego: kinds of 0 to 300 hours of chill, figs, persimmons; jujube not near a cool coast.
- Puget Sound: C. Smith with R. Norton of WSU, Kitsap Sun 2009: apples and pears offer the best chance, those that scab
  leaves alone at that. WSU Extension, Stone fruit: peaches and nectarines are no trees for a garden without sprays.
- Utah: USU Extension, Cold winters: apricot trees live and lose their bloom; peach, cherry, apple and pear are grown.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from service.domain.month_day import MonthDay
from service.domain.site import Site
from service.questions.suggestion import Candidate, Judges, SuggestionAnswer, SuggestionQuestion, suggest
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

PLACES = {
    "Minneapolis": Site(hardiness_zone=4.5, chill_hours=1300, last_spring_frost=MonthDay(5, 5),
                        first_autumn_frost=MonthDay(10, 2), warmest_month_f=74, summer="humid"),
    "Fargo": Site(hardiness_zone=4, chill_hours=1300, last_spring_frost=MonthDay(5, 15),
                  first_autumn_frost=MonthDay(9, 25), warmest_month_f=71, summer="humid"),
    "Greensboro": Site(hardiness_zone=7.5, chill_hours=1000, last_spring_frost=MonthDay(4, 10),
                       first_autumn_frost=MonthDay(10, 28), warmest_month_f=78, summer="humid"),
    "Gainesville": Site(hardiness_zone=9, chill_hours=300, last_spring_frost=MonthDay(3, 10),
                        first_autumn_frost=MonthDay(11, 25), warmest_month_f=81, summer="humid"),
    "Fresno": Site(hardiness_zone=9.5, chill_hours=1000, last_spring_frost=MonthDay(2, 20),
                   first_autumn_frost=MonthDay(12, 1), warmest_month_f=83, summer="dry"),
    "San Diego": Site(hardiness_zone=10, chill_hours=150, warmest_month_f=72, summer="dry"),
    "Seattle": Site(hardiness_zone=8.5, chill_hours=1800, last_spring_frost=MonthDay(3, 20),
                    first_autumn_frost=MonthDay(11, 10), warmest_month_f=66, summer="dry"),
    "Salt Lake City": Site(hardiness_zone=6.5, chill_hours=1200, last_spring_frost=MonthDay(4, 25),
                           first_autumn_frost=MonthDay(10, 20), warmest_month_f=79, summer="dry"),
}  # fmt: skip
SOLD_EVERYWHERE = "apple.honeycrisp"
At = Callable[[str], SuggestionAnswer]


@pytest.fixture(scope="module")
def at(rulebook: Rulebook) -> At:
    judges = Judges(sweeping=PlainMatcher(rulebook), asking=PlainMatcher(rulebook))

    @cache
    def told(place: str) -> SuggestionAnswer:
        question = SuggestionQuestion(PLACES[place], consider=(SOLD_EVERYWHERE,), existing_trees=())
        return suggest(question, rulebook=rulebook, judges=judges)

    return told


def best_fit(answer: SuggestionAnswer, crop: str) -> int:
    """The fit of the fittest cultivar of a crop; below nought where none fits."""
    best = next(tally.best for tally in answer.crops if tally.crop.id == crop)
    return -1 if best is None else best.fit


def suggested(answer: SuggestionAnswer, crop: str) -> list[Candidate]:
    return [one for one in answer.suggestions if one.crop.id == crop]


def own_hours(candidate: Candidate) -> float:
    """The lower end of the need of the cultivar itself in hours; nought where nobody states it."""
    stated = candidate.cultivar.chill_hours
    if stated is None or stated.basis == "crop" or stated.value.model == "units_not_said":
        return 0
    return stated.value.amount.low or 0


@pytest.mark.parametrize("place", sorted(PLACES))
def test_every_place_is_offered_several_crops_and_not_too_many_kinds_of_one(at: At, place: str) -> None:
    crops = [one.crop.id for one in at(place).suggestions]
    assert len(set(crops)) >= 4
    assert max(crops.count(crop) for crop in crops) <= 3


@pytest.mark.parametrize("place", ["Minneapolis", "Fargo"])
def test_the_far_north_is_advised_apples_pears_plums_tart_cherries_and_hardy_apricots(at: At, place: str) -> None:
    answer = at(place)
    assert {one.crop.id for one in answer.suggestions} <= {
        "apple", "apricot", "european_pear", "european_plum", "japanese_plum", "tart_cherry",
    }  # fmt: skip
    hardy = min(best_fit(answer, crop) for crop in ("apple", "european_pear", "european_plum", "tart_cherry"))
    assert hardy > max(best_fit(answer, crop) for crop in ("peach", "nectarine", "sweet_cherry", "almond", "fig"))


def test_minnesota_is_offered_the_tart_cherries_and_the_apple_that_it_is_known_for(at: At) -> None:
    answer = at("Minneapolis")
    named = {"tart_cherry.evans", "tart_cherry.meteor", "tart_cherry.north_star"}
    assert named == {one.cultivar.id for one in suggested(answer, "tart_cherry")}
    assert answer.considered[0].fits
    assert answer.considered[0].judgement.concluded["cold_verdict"] == "hardy"


def test_north_carolina_is_offered_the_crops_of_its_table(at: At) -> None:
    answer = at("Greensboro")
    grown = ("apple", "asian_pear", "nectarine", "peach", "european_pear", "fig")
    assert min(best_fit(answer, crop) for crop in grown) > best_fit(answer, "sweet_cherry")
    assert min(best_fit(answer, crop) for crop in grown) > best_fit(answer, "almond")
    best_pear = next(tally.best for tally in answer.crops if tally.crop.id == "european_pear")
    assert best_pear is not None
    assert best_pear.facts.get("cultivar.susceptible_to", ()) == ()
    assert "fire_blight" in best_pear.facts["cultivar.resists"]  # type: ignore[operator]


def test_north_florida_is_offered_kinds_of_little_chill(at: At) -> None:
    answer = at("Gainesville")
    early_bred = [one for one in answer.suggestions if one.crop.id in ("peach", "nectarine", "japanese_plum", "apple")]
    assert len(early_bred) >= 3
    assert all(0 < own_hours(one) <= 300 for one in early_bred)
    assert not any(suggested(answer, crop) for crop in ("sweet_cherry", "tart_cherry", "almond", "european_plum"))


def test_almonds_suit_the_central_valley_and_not_the_coasts_nor_the_humid_east(at: At) -> None:
    valley = best_fit(at("Fresno"), "almond")
    assert all(best_fit(at(place), "almond") <= valley - 20 for place in ("Seattle", "Greensboro", "Gainesville"))


def test_the_frost_free_coast_is_offered_kinds_of_little_chill(at: At) -> None:
    answer = at("San Diego")
    assert all(own_hours(one) <= 300 for one in answer.suggestions)
    assert {"fig", "persimmon"} <= {one.crop.id for one in answer.suggestions}
    assert not any(suggested(answer, crop) for crop in ("almond", "pawpaw", "sweet_cherry", "european_pear"))


@pytest.mark.parametrize("place", ["San Diego", "Gainesville"])
def test_an_apple_of_cold_winters_is_not_passed_as_fitting_where_there_are_none(at: At, place: str) -> None:
    told = at(place).considered[0]
    assert not told.fits or told.judgement.concluded["chill_verdict"] == "too_little"
    assert told.cultivar.id not in {one.cultivar.id for one in at(place).suggestions}


def test_pears_and_apples_that_scab_leaves_alone_lead_on_puget_sound(at: At) -> None:
    answer = at("Seattle")
    assert answer.suggestions[0].crop.id in ("apple", "european_pear", "asian_pear")
    assert suggested(answer, "apple")
    assert all("apple_scab" in one.facts["cultivar.resists"] for one in suggested(answer, "apple"))  # type: ignore[operator]
    easy = ("apple", "asian_pear", "european_pear", "european_plum", "tart_cherry")
    hard = ("peach", "nectarine", "apricot", "almond", "pomegranate", "persimmon")
    assert min(best_fit(answer, crop) for crop in easy) > max(best_fit(answer, crop) for crop in hard)


def test_apricots_stand_behind_the_later_blooming_crops_in_utah(at: At) -> None:
    answer = at("Salt Lake City")
    surer = ("apple", "peach", "tart_cherry", "european_plum", "european_pear")
    assert min(best_fit(answer, crop) for crop in surer) > best_fit(answer, "apricot")
