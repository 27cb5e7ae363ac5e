"""The season question over made-up rules: what its dates rest on, and what follows from them."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from service.domain.errors import NotUnderstood
from service.domain.month_day import MonthDay
from service.domain.season_tree import NeighbourBloom, SeasonTree, SeenStage, Sighting
from service.domain.site import Site
from service.questions.season import DatedTask, Ground, TreeYear
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_season import START, VALLEY, asked, year, year_round


@pytest.fixture(scope="module")
def book(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return year_round(tmp_path_factory.mktemp("season"), rulebook)


def seen(day: date, crop: str = "apple", **told: object) -> SeasonTree:
    return SeasonTree(crop, seen=Sighting(full_bloom=day), **told)  # type: ignore[arg-type]


def task(found: TreeYear, name: str) -> DatedTask:
    [one] = [task for task in found.tasks if task.task.id == name]
    return one


def days(found: TreeYear, name: str) -> tuple[date, date]:
    mark = task(found, name).mark
    assert mark is not None
    return mark.first, mark.last


def test_bloom_that_was_seen_dates_the_stages_of_its_season(book: Rulebook) -> None:
    found = year(book, seen(date(2026, 4, 1)), start=date(2026, 4, 5))
    assert found.bloom_basis == "observed"
    [fruit_set] = [stage for stage in found.stages if stage.stage == "fruit_set"]
    assert (fruit_set.mark.first, fruit_set.mark.last) == (date(2026, 4, 12), date(2026, 4, 22))
    assert (fruit_set.mark.basis, fruit_set.mark.spread_days) == ("observed", 0)


def test_bloom_of_last_spring_is_a_guide_with_the_spread_of_years(book: Rulebook) -> None:
    found = year(book, seen(date(2026, 4, 1)))
    assert found.bloom_basis == "last_year"
    assert found.bloom is not None
    assert (found.bloom.day, found.bloom.spread_days) == (date(2027, 4, 1), 14)


def test_a_region_gives_the_middle_of_its_bloom_and_half_its_width(book: Rulebook) -> None:
    found = year(book, SeasonTree("apple"), ground=VALLEY)
    assert found.bloom is not None
    assert (found.bloom_basis, found.bloom.day, found.bloom.spread_days) == ("region", date(2027, 4, 2), 13)


def test_a_late_district_blooms_later(book: Rulebook) -> None:
    middle = year(book, SeasonTree("apple"), ground=VALLEY).bloom
    late = year(book, SeasonTree("apple"), ground=Ground(region=VALLEY.region, district="late")).bloom
    assert middle is not None
    assert late is not None
    assert late.day - middle.day == timedelta(days=10)


def test_a_neighbouring_place_is_carried_over(book: Rulebook) -> None:
    away = NeighbourBloom(date(2026, 4, 1), north_deg=1, higher_ft=400)
    found = year(book, SeasonTree("apple", seen=Sighting(neighbour=away)))
    assert found.bloom is not None
    assert (found.bloom_basis, found.bloom.day) == ("neighbour", date(2027, 4, 9))


def test_another_stage_that_was_seen_leads_back_to_bloom(book: Rulebook) -> None:
    tree = SeasonTree("apricot", seen=Sighting(stage=SeenStage("pit_hardening", date(2026, 5, 1))))
    found = year(book, tree, start=date(2026, 5, 2))
    assert found.bloom is not None
    assert (found.bloom_basis, found.bloom.day, found.bloom.spread_days) == ("stage", date(2026, 3, 14), 7.5)


def test_bloom_of_this_tree_outweighs_all_else(book: Rulebook) -> None:
    sighting = Sighting(date(2026, 3, 20), SeenStage("june_drop", date(2026, 6, 1)), NeighbourBloom(date(2026, 1, 1)))
    found = year(book, SeasonTree("apple", seen=sighting), start=date(2026, 6, 2), ground=VALLEY)
    assert (found.bloom_basis, found.bloom and found.bloom.day) == ("observed", date(2026, 3, 20))


def test_without_bloom_nothing_is_guessed_and_its_tasks_wait(book: Rulebook) -> None:
    found = year(book, SeasonTree("apple"))
    assert (found.bloom_basis, found.bloom) == ("none", None)
    assert {one.task.id for one in found.undated} == {"scab", "record_bloom", "no_spray_bloom", "pick"}
    assert {one.task.id for one in found.tasks} == {"plant_bareroot", "leafcurl_fall"}


def test_an_observed_stage_moves_what_follows(book: Rulebook) -> None:
    early, late = (year(book, seen(day), start=date(2026, 4, 20)) for day in (date(2026, 4, 1), date(2026, 4, 9)))
    assert days(late, "pick")[0] - days(early, "pick")[0] == timedelta(days=8)


def test_a_task_opens_at_the_beginning_of_one_mark_and_closes_at_the_end_of_another(book: Rulebook) -> None:
    found = year(book, seen(date(2026, 4, 1)))
    assert days(found, "scab") == (date(2027, 3, 2), date(2027, 4, 22))


def test_a_task_of_one_mark_keeps_its_shifts(book: Rulebook) -> None:
    assert days(year(book, SeasonTree("apple")), "leafcurl_fall") == (date(2026, 11, 5), date(2026, 12, 25))


def test_calendar_days_may_run_over_new_year(book: Rulebook) -> None:
    assert days(year(book, SeasonTree("apple")), "plant_bareroot") == (date(2026, 12, 16), date(2027, 3, 1))


def test_no_task_is_over_before_the_plan_begins_or_begins_after_it(book: Rulebook) -> None:
    for month in range(1, 13):
        start = date(2027, month, 14)
        for one in year(book, seen(date(2026, 8, 1)), start=start).tasks:
            assert one.mark is not None
            assert one.mark.last >= start
            assert one.mark.first < start + timedelta(days=365)


def test_south_of_the_equator_the_year_is_turned(book: Rulebook) -> None:
    found = year(book, SeasonTree("apple"), site=Site(latitude=-38.0))
    assert days(found, "plant_bareroot") == (date(2027, 6, 15), date(2027, 8, 29))
    assert days(found, "leafcurl_fall")[0].month == 5


def test_the_harvest_of_a_known_cultivar_stands_by_itself(book: Rulebook) -> None:
    found = year(book, seen(date(2026, 3, 12), "peach", cultivar="peach.redhaven"))
    assert task(found, "pick").mark == task(year(book, SeasonTree("peach", "peach.redhaven")), "pick").mark


def test_frost_is_judged_where_temperatures_are_published(book: Rulebook) -> None:
    found = year(book, seen(date(2026, 4, 1)), site=Site(last_spring_frost=MonthDay(4, 10)))
    bloom = next(stage for stage in found.stages if stage.stage == "bloom")
    assert bloom.judgement is not None
    assert (bloom.kill_10_f, bloom.kill_90_f) == (28, 25)
    assert bloom.judgement.concluded == {"frost_risk": "likely"}
    assert next(stage for stage in found.stages if stage.stage == "harvest").judgement is None


def test_nitrogen_is_the_least_of_age_trunk_and_cap_in_doses(book: Rulebook) -> None:
    fed = year(book, SeasonTree("peach", age_years=4, trunk_girth_in=6.3), fertiliser_percent=20).fed
    assert fed.nitrogen is not None
    assert fed.nitrogen.bound_by == "trunk"
    assert fed.nitrogen.year_oz == pytest.approx(4.01, abs=0.01)
    assert (fed.doses, fed.product_oz) == (2, 10.0)


def test_a_new_tree_gets_the_nitrogen_of_the_first_year(book: Rulebook) -> None:
    fed = year(book, SeasonTree("peach", to_plant=True)).fed
    assert fed.nitrogen is not None
    assert (fed.nitrogen.year_oz, fed.nitrogen.bound_by) == (0.8, "first_year")


def test_nobody_feeds_a_tree_of_unknown_age_and_girth_by_guess(book: Rulebook) -> None:
    assert year(book, SeasonTree("peach")).fed.nitrogen is None


def test_water_needs_leaves_and_a_crown(book: Rulebook) -> None:
    ground = Ground(region=VALLEY.region, et0_in={1: 0.05, 7: 0.3})
    found = year(book, SeasonTree("apple", canopy_ft=10), ground=ground)
    assert [(one.month, one.basis) for one in found.water] == [(7, "given")]
    [july] = found.water
    assert july.gallons_a_day == pytest.approx(0.6234 * 78.54 * 0.3 * 0.95 / 0.85, abs=0.02)
    assert july.gallons_each_time == pytest.approx(july.gallons_a_day * 10)
    assert july.judgement.concluded == {"water_level": "most"}
    assert year(book, SeasonTree("apple"), ground=ground).water == ()


def test_a_young_tree_without_a_crown_gets_water_by_the_week(book: Rulebook) -> None:
    found = year(book, SeasonTree("apple", age_years=2), ground=VALLEY)
    assert {one.basis for one in found.water} == {"young_tree"}
    assert found.water[0].gallons_a_day == pytest.approx(4 / 7)
    assert {name for one in found.water for name in one.judgement.concluded} == set()


def test_what_was_seen_cannot_lie_ahead(book: Rulebook) -> None:
    with pytest.raises(NotUnderstood) as refused:
        asked(book, SeasonTree("apple"), seen(START + timedelta(days=1)))
    assert [at for at, _ in refused.value.faults] == ["/trees/1/seen/full_bloom"]


def test_a_stage_without_days_cannot_date_a_season(book: Rulebook) -> None:
    with pytest.raises(NotUnderstood) as refused:
        asked(book, SeasonTree("apple", seen=Sighting(stage=SeenStage("postharvest", date(2026, 9, 1)))))
    assert [at for at, _ in refused.value.faults] == ["/trees/0/seen/stage"]


def test_several_trees_are_planned_each_for_itself(book: Rulebook) -> None:
    found = asked(book, SeasonTree("apple"), SeasonTree("peach"), ground=VALLEY)
    assert [one.tree.crop for one in found.trees] == ["apple", "peach"]
    assert found.trees[0].bloom != found.trees[1].bloom
