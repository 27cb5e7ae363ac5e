"""What a diagnosis knows of fruiting: chill of last winter, frost on bloom, the partner near, the age of the tree."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from service.api.climate_asked import question_in_json
from service.domain.climate import ClimateSummary
from service.domain.month_day import MonthDay
from service.domain.sick_tree import BloomTold, Seen, SickTree
from service.domain.site import Site, StandingTree
from service.knowledge.climate import read_climate
from service.questions.climate import summarise_climate
from service.questions.diagnosis import DiagnosisQuestion
from service.questions.diagnosis.facts import case_facts
from service.questions.suggestion.place import with_climate
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT
from tests.questions.counter import Counter, suspects

BLOOM = date(2026, 4, 10)
TODAY = date(2026, 6, 1)
MODELS = read_climate(CHECKOUT / "rules", load_rulebook(CHECKOUT / "rules").sources)


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    """A counter with the real rulebook."""
    return Counter(rulebook)


def facts(rulebook: Rulebook, tree: SickTree, **more: Any) -> dict[str, Any]:
    question = DiagnosisQuestion(tree, **more)
    return case_facts(question, with_climate(question.site, question.climate), rulebook)


def days_of(*, winter_f: float, frost_on: date | None = None, latitude: float = 40) -> ClimateSummary:
    """A made-up place: every day of November to February as cold as said, all others mild, and one night of frost."""
    first = date(2023, 10, 1)
    rows = []
    for number in range(1000):
        day = first + timedelta(days=number)
        low = winter_f if day.month in (11, 12, 1, 2) else 50.0
        low = 24.0 if day == frost_on else low
        rows.append({"date": day.isoformat(), "min_f": low, "max_f": low + 10})
    return summarise_climate(question_in_json({"latitude": latitude, "daily": rows}, MODELS), MODELS)


def test_the_winter_before_this_season_is_weighed_against_the_need(rulebook: Rulebook) -> None:
    climate = days_of(winter_f=36)
    told = facts(rulebook, SickTree("apple"), date=TODAY, climate=climate)
    winter = next(one for one in climate.winters if one.label == "2025-26")
    count = winter.chill_hours if told["chill.measure"] == "hours" else winter.chill_portions
    need = told[f"chill.need_low_{told['chill.measure']}"]
    assert told["chill.last_winter_over_low_need"] == pytest.approx(count / need)
    assert told["chill.last_winter_over_low_need"] > 1


@pytest.mark.parametrize("day", [None, date(2029, 6, 1)])
def test_a_winter_that_nobody_recorded_says_nothing(rulebook: Rulebook, day: date | None) -> None:
    told = facts(rulebook, SickTree("apple"), date=day, climate=days_of(winter_f=36))
    assert "chill.last_winter_over_low_need" not in told


def test_bloom_before_the_usual_last_frost_counts_the_days(rulebook: Rulebook) -> None:
    site = Site(last_spring_frost=MonthDay(4, 20))
    told = facts(rulebook, SickTree("peach", bloom=BloomTold(full_bloom=BLOOM)), site=site)
    assert told["bloom.days_before_last_frost"] == 10
    assert "bloom.low_f" not in told


def test_the_coldest_night_on_open_bloom_is_read_from_the_temperatures(rulebook: Rulebook) -> None:
    tree = SickTree("peach", bloom=BloomTold(full_bloom=BLOOM))
    frosty = facts(rulebook, tree, date=TODAY, climate=days_of(winter_f=36, frost_on=BLOOM + timedelta(days=2)))
    early = facts(rulebook, tree, date=TODAY, climate=days_of(winter_f=36, frost_on=BLOOM - timedelta(days=30)))
    assert (frosty["bloom.low_f"], early["bloom.low_f"]) == (24, 50)


def test_what_somebody_told_of_the_frost_stands(rulebook: Rulebook) -> None:
    tree = SickTree("peach", bloom=BloomTold(full_bloom=BLOOM, low_f=30))
    told = facts(rulebook, tree, date=TODAY, climate=days_of(winter_f=36, frost_on=BLOOM))
    assert told["bloom.low_f"] == 30


@pytest.mark.parametrize(
    ("trees", "near"),
    [
        (None, None),
        ((), False),
        ((StandingTree("apple", ("apple.mcintosh",), 40),), True),
        ((StandingTree("apple", ("apple.mcintosh",)),), True),
        ((StandingTree("apple", ("apple.mcintosh",), 5000),), False),
        ((StandingTree("apple", ()),), None),
        ((StandingTree("european_pear", ("european_pear.bartlett",), 10),), False),
    ],
)
def test_whose_pollen_stands_near(
    rulebook: Rulebook, trees: tuple[StandingTree, ...] | None, near: bool | None
) -> None:
    told = facts(rulebook, SickTree("apple", cultivar="apple.golden_delicious"), existing_trees=trees)
    assert told.get("pollination.partner_near") == near


def test_of_a_cultivar_that_nobody_knows_only_a_tree_alone_is_certain(rulebook: Rulebook) -> None:
    alone = facts(rulebook, SickTree("sweet_cherry"), existing_trees=())
    among = facts(rulebook, SickTree("sweet_cherry"), existing_trees=(StandingTree("sweet_cherry"),))
    assert (alone["pollination.partner_near"], alone["pollination.partners_standing"]) == (False, 0)
    assert "pollination.partner_near" not in among


@pytest.mark.parametrize(
    ("age", "size", "word"),
    [
        (2, None, "too_young"),
        (3, None, "may_be_too_young"),
        (11, None, "old_enough"),
        (4, "dwarf", "old_enough"),
        (4, "standard", "too_young"),
        (None, None, None),
    ],
)
def test_age_stands_to_the_years_to_first_fruit(
    rulebook: Rulebook, age: float | None, size: Any, word: str | None
) -> None:
    """Apples bear 2 to 3 years after planting on dwarf roots, 5 to 10 on standard ones (rules/crops/apple.yaml)."""
    assert facts(rulebook, SickTree("apple", age_years=age, size=size)).get("tree.bearing_age") == word


def test_a_tree_without_fruit_is_weighed_by_what_is_known_of_place_and_neighbours(counter: Counter) -> None:
    tree = SickTree("sweet_cherry", stage="fruit_set", age_years=9, seen=Seen(("fr_none",)))
    alone = counter.ask(tree, existing_trees=())
    frosty = SickTree("sweet_cherry", stage="fruit_set", age_years=9, seen=Seen(("fr_none",)),
                      bloom=BloomTold(frost=True, low_f=23, amount="full"))  # fmt: skip
    assert suspects(alone)[0] == "poor_pollination"
    assert suspects(counter.ask(frosty))[0] == "spring_frost"
