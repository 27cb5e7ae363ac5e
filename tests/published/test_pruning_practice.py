"""Pruning against published practice, on the rules as they ship; sources by the ids of rules/sources.yaml.

What was taken from a source that nobody opened is marked recalled.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from service.domain.month_day import MonthDay
from service.domain.pruned_tree import GraftedVariety, SharedHole
from service.domain.site import Site
from service.questions.pruning import WeatherAhead
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from tests.rules.pruned import COLD, MILD, Clerk, amount, made, sources

JANUARY, FEBRUARY, MAY, AUGUST = date(2026, 1, 15), date(2026, 2, 20), date(2026, 5, 15), date(2026, 8, 10)
DRY = WeatherAhead(wet=False, dry_days_ahead=20)
EUTYPA_CROPS = ("apricot", "sweet_cherry", "tart_cherry", "plum_apricot_hybrid")
WINTER_RAIN = Site(hardiness_zone=9.0, rains_begin=MonthDay(10, 1))


@pytest.fixture(scope="module")
def clerk(rulebook: Rulebook) -> Clerk:
    return Clerk(rulebook, PlainMatcher(rulebook))


@pytest.mark.parametrize("crop", EUTYPA_CROPS)
def test_in_winter_an_apricot_cherry_or_hybrid_waits_for_dry_summer(clerk: Clerk, crop: str) -> None:
    """UC_STAN_NOWINTER: not in winter; UC_BUTTE_EUTYPA: July and August; UC_CCC_EUTYPA: hybrids too."""
    answer = clerk.plan(crop, JANUARY, weather=DRY)
    assert answer.season.concluded["when_verdict"] == "not_now"
    said = clerk.when(answer)
    assert "Eutypa dieback" in said
    assert "July 1 and August 31" in said
    assert {"UC_STAN_NOWINTER", "UC_BUTTE_EUTYPA"} <= sources(answer.season)
    assert {"UC_CCC_EUTYPA", "UC_SONOMA_EUTYPA"} <= sources(answer.tree)


@pytest.mark.parametrize("crop", ["japanese_plum", "european_plum", "peach", "apple"])
def test_other_crops_are_pruned_in_winter(clerk: Clerk, crop: str) -> None:
    """UC_YOLO_PRUNE: January and February where winters are mild; VT_422_020: peaches up to bloom."""
    assert clerk.plan(crop, FEBRUARY, weather=DRY).season.concluded["when_verdict"] == "now"


def test_the_dry_days_end_six_weeks_before_the_rains(clerk: Clerk) -> None:
    """UC_SONOMA_EUTYPA: at least four to six weeks before rain."""
    window = clerk.plan("apricot", AUGUST, site=WINTER_RAIN).windows["main"]
    assert window.closes == date(2026, 8, 20)
    assert window.narrowed_by == ("rain",)


@pytest.mark.parametrize(("dry_days", "verdict"), [(1, "not_now"), (5, "not_now"), (7, "now"), (20, "now")])
def test_rain_in_the_forecast_stops_a_cherry_even_in_august(clerk: Clerk, dry_days: int, verdict: str) -> None:
    """UC_STAN_NOWINTER and UC_VENTURA_EUTYPA: no cuts when rain is forecast; the seven days are common practice."""
    answer = clerk.plan("sweet_cherry", AUGUST, site=WINTER_RAIN, weather=WeatherAhead(dry_days_ahead=dry_days))
    assert answer.season.concluded["when_verdict"] == verdict


def test_without_the_rainy_season_two_dry_weeks_are_asked_for(clerk: Clerk) -> None:
    """UC_BUTTE_EUTYPA: infection where rain comes two to six weeks after the cut."""
    verdicts = [
        clerk.plan("apricot", AUGUST, weather=WeatherAhead(dry_days_ahead=days)).season.concluded["when_verdict"]
        for days in (10, 13, 14)
    ]
    assert verdicts == ["not_now", "not_now", "now"]


def test_an_apple_asks_for_two_dry_days_only(clerk: Clerk) -> None:
    """UC_NAPA_PRUNE: two days without rain."""
    verdicts = [
        clerk.plan("apple", FEBRUARY, weather=WeatherAhead(dry_days_ahead=days)).season.concluded["when_verdict"]
        for days in (1, 2)
    ]
    assert verdicts == ["not_now", "now"]


def test_nothing_is_cut_at_a_hundred_degrees(clerk: Clerk) -> None:
    """UC_SONOMA_EUTYPA: not in a spell of 100 °F."""
    answer = clerk.plan("apricot", AUGUST, weather=WeatherAhead(dry_days_ahead=20, high_f=100))
    assert answer.season.concluded["weather_verdict"] == "too_hot"


@pytest.mark.parametrize(
    ("crop", "site", "days"),
    [
        ("apple", MILD, ("01-01", "02-28")),  # UC_YOLO_PRUNE: January and February
        ("apple", COLD, ("02-01", "03-31")),  # VT_422_020: late winter to bud swell; the days are common practice
        ("apple", Site(hardiness_zone=4.0), ("03-01", "04-15")),
        ("peach", COLD, ("02-15", "04-15")),  # VT_422_020: not before February
        ("fig", COLD, ("03-01", "04-30")),  # UC_YOLO_PRUNE: after hard freezes
        ("apricot", MILD, ("07-01", "08-31")),  # UC_BUTTE_EUTYPA: July and August
        ("apple", Site(), ("02-01", "03-31")),  # zone unknown: the cool days
    ],
)
def test_the_days_of_the_main_pruning(clerk: Clerk, crop: str, site: Site, days: tuple[str, str]) -> None:
    when = clerk.told(clerk.plan(crop, site=site))["when"]
    assert isinstance(when, dict)
    assert (when["days"]["from"], when["days"]["to"]) == days


def test_stone_fruit_of_cold_places_is_left_alone_from_august(clerk: Clerk) -> None:
    """USU_GUMMOSIS: no heavy cuts between August and February."""
    assert clerk.plan("peach", site=COLD).tree.concluded["after_harvest_to_day"] == 212  # July 31
    assert "late_summer" not in clerk.plan("peach", site=COLD).windows
    assert "late_summer" in clerk.plan("peach", site=MILD).windows


@pytest.mark.parametrize(
    ("crop", "low", "share", "high", "source"),
    [
        ("apple", 15, 18, 20, "UC_CALENDAR"),
        ("european_pear", 10, 15, 20, "UC_CALENDAR"),
        ("asian_pear", 10, 20, 30, "UC_CALENDAR_REST"),  # from here on recalled
        ("peach", 40, 50, 60, "UC_CALENDAR_REST"),
        ("nectarine", 40, 50, 60, "UC_CALENDAR_REST"),
        ("apricot", 15, 20, 25, "UC_CALENDAR_REST"),
        ("plum_apricot_hybrid", 15, 25, 40, "UC_CALENDAR_REST"),
        ("japanese_plum", 20, 30, 40, "UC_CALENDAR_REST"),
        ("european_plum", 10, 15, 20, "UC_CALENDAR_REST"),
        ("sweet_cherry", 5, 10, 20, "UC_CALENDAR_REST"),
        ("tart_cherry", 10, 20, 30, "NCSU_HANDBOOK"),
        ("fig", 10, 30, 50, "UCANR_3485"),
        ("persimmon", 10, 15, 25, "UC_CALENDAR_REST"),
        ("pomegranate", 10, 15, 25, "UF_BAKER_POMEGRANATE"),
        ("quince", 10, 15, 20, "POSTMAN_QUINCE"),
    ],
)
def test_the_share_of_last_years_growth(clerk: Clerk, crop: str, low: int, share: int, high: int, source: str) -> None:
    told = clerk.told(clerk.plan(crop, age_years=8))
    cuts = told["cuts"]
    assert isinstance(cuts, list)
    shoots = next(cut for cut in cuts if cut["cut"] == "fruiting_shoots")
    [taken] = [one for one in shoots["amounts"] if one["amount"] == "share_percent"]
    assert (taken["taught_from"], taken["value"], taken["taught_to"]) == (low, share, high)
    assert taken["of"] == "last_years_growth"
    assert source in sources(made(clerk.plan(crop, age_years=8), "fruiting_shoots").judgement)


def test_a_peach_keeps_a_shoot_for_every_six_fruit(clerk: Clerk) -> None:
    """MARINI_2003: fruit wanted divided by six."""
    assert amount(clerk.plan("peach", age_years=8, fruit_wanted=300), "fruiting_shoots", "keep_count") == 50


@pytest.mark.parametrize("height_ft", [13.0, 16.0, 20.0, 26.0, 32.0])
@pytest.mark.parametrize("crop", ["apple", "apricot", "peach", "fig"])
def test_a_renovation_never_takes_more_than_the_cap(clerk: Clerk, crop: str, height_ft: float) -> None:
    """UCANR_8058 and NCSU_HANDBOOK (recalled): a quarter of the living canopy in a season, over about three years."""
    answer = clerk.plan(crop, age_years=25, height_ft=height_ft, max_height_ft=9.0)
    cap = answer.tree.concluded["canopy_cap"]
    assert isinstance(cap, int | float)
    assert cap == 25
    judged = [one.judgement.concluded for one in answer.cuts] + [one.judgement.concluded for one in answer.renovation]
    living = [one["share_percent"] for one in judged if one.get("share_of") == "living_canopy"]
    assert len(living) == 4  # crowded wood, and three years
    assert all(isinstance(share, int | float) and share <= cap for share in living)
    assert [one.step.height_ft for one in answer.renovation][-1] == 9
    assert all("living canopy" in year["text"] for year in clerk.told(answer)["renovation"])  # type: ignore[attr-defined]


def test_this_year_a_tall_tree_comes_down_one_step_only(clerk: Clerk) -> None:
    answer = clerk.plan("apple", age_years=25, height_ft=20.0, max_height_ft=11.0)
    assert amount(answer, "height", "bring_down_to_ft") == 17


@pytest.mark.parametrize(("stage", "strikes"), [("in_leaf", 12), ("bloom", 12), ("dormant", None)])
@pytest.mark.parametrize("crop", ["apple", "european_pear", "asian_pear", "quince"])
def test_fire_blight_is_cut_well_below_what_shows(clerk: Clerk, crop: str, stage: str, strikes: int | None) -> None:
    """UCNFA_FIREBLIGHT, PSU_FRUITGUIDE: 8 to 12 in while it grows; ILL_FIREBLIGHT: 6 to 12 in while it rests."""
    answer = clerk.plan(crop, MAY if strikes else FEBRUARY, stage=stage, signs=("fire_blight",), weather=DRY)
    assert amount(answer, "fire_blight_cankers", "below_sign_in") == 8
    found = [one.verdict for one in answer.cuts if one.cut.id == "fire_blight_strikes"]
    if strikes is None:
        assert found == []
        assert made(answer, "fire_blight_cankers").verdict == "now"
    else:
        assert found == ["now"]
        assert amount(answer, "fire_blight_strikes", "below_sign_in") == strikes
        assert made(answer, "fire_blight_cankers").verdict == "wait"


def test_tools_are_dipped_in_one_part_of_bleach_to_nine_of_water(clerk: Clerk) -> None:
    """ISU_SANITIZE, UMN_BLEACH, PSU_FRUITGUIDE: one to nine."""
    answer = clerk.plan("apple", MAY, stage="in_leaf", signs=("fire_blight",), weather=DRY)
    [step] = [one for one in clerk.told(answer)["steps"] if one["cut"] == "prepare_tools"]  # type: ignore[attr-defined]
    assert "one part of household bleach to 9 of water" in step["text"]
    assert "bleach" in {name for rule in made(answer, "prepare_tools").judgement.rules for name in rule.cautions}


def test_a_dying_apricot_limb_is_cut_a_foot_below_the_stain(clerk: Clerk) -> None:
    """UC_BUTTE_EUTYPA: at least 12 in below the last stain."""
    assert amount(clerk.plan("apricot", AUGUST, signs=("dieback",)), "diseased_wood", "below_sign_in") == 12


@pytest.mark.parametrize(
    ("crop", "tree", "cut_at_in"),
    [
        ("peach", {}, 28),  # PSU_OPENCENTER: 24 to 30 in
        ("apple", {}, 30),  # USU_BAREROOT: 24 to 36 in
        ("apple", {"training": "central_leader"}, 32),  # USU_BAREROOT, PNW_400: 28 to 36 in
        ("apple", {"max_height_ft": 8.0}, 20),  # UC_SAC_FRUITBUSH: knee height (recalled)
        ("japanese_plum", {}, 28),
        ("pomegranate", {"training": "open_centre"}, 27),  # UF_BAKER_POMEGRANATE: 24 to 30 in
        ("european_pear", {"training": "horizontal_tiers"}, 18),  # UMD_UCC_ESPALIER: the lowest wire (recalled)
    ],
)
def test_the_height_of_the_planting_cut(clerk: Clerk, crop: str, tree: dict[str, Any], cut_at_in: int) -> None:
    assert amount(clerk.plan(crop, just_planted=True, **tree), "planting_cut", "cut_at_in") == cut_at_in


def test_a_new_apricot_gets_its_planting_cut_in_winter_and_nothing_else(clerk: Clerk) -> None:
    """USU_BAREROOT: heading at planting."""
    answer = clerk.plan("apricot", JANUARY, just_planted=True, weather=DRY)
    assert "planting cut" in clerk.when(answer)
    assert [one.cut.id for one in answer.cuts if one.verdict == "now" and one.cut.kind == "cut"] == ["planting_cut"]
    in_leaf = clerk.plan("apricot", AUGUST, just_planted=True, stage="in_leaf", weather=DRY)
    assert made(in_leaf, "planting_cut").verdict == "wait"


def test_branches_of_a_new_peach_lose_half_their_length(clerk: Clerk) -> None:
    """PSU_OPENCENTER: side branches cut back by half."""
    assert amount(clerk.plan("peach", just_planted=True, branched=True), "planting_cut") == 50


def test_the_wires_of_level_tiers_and_of_a_fan(clerk: Clerk) -> None:
    """UMD_UCC_ESPALIER (recalled): the first wire at 14 to 24 in, 12 to 24 in apart; a fan 6 to 12 in apart."""
    assert clerk.plan("european_pear", training="horizontal_tiers", max_height_ft=6.0).wires_in == (18, 36, 54)
    assert clerk.plan("peach", training="fan", max_height_ft=4.0).wires_in == (18, 26, 34, 42)


def test_a_small_tree_is_halved_in_may_and_again_after_harvest(clerk: Clerk) -> None:
    """UC_SAC_FRUITBUSH: in May and after harvest; UC_CCC_SUMMERPRUNE: by a third to a half."""
    answer = clerk.plan("peach", MAY, max_height_ft=7.0, weather=DRY)
    assert answer.training == "small_tree_kept_low"
    assert [amount(answer, cut) for cut in ("summer_first", "summer_after_harvest")] == [50, 50]
    assert made(answer, "summer_first").verdict == "now"


def test_fruit_that_hangs_into_october_leaves_no_days_after_harvest(clerk: Clerk) -> None:
    answer = clerk.plan("apple", MAY, cultivar="apple.wildung", max_height_ft=7.0)
    assert answer.windows["after_harvest"].days is None
    assert made(answer, "summer_after_harvest").verdict == "wait"


def test_a_tree_picked_last_year_is_not_cut_after_harvest_in_january(clerk: Clerk) -> None:
    answer = clerk.plan("peach", JANUARY, harvested=True, max_height_ft=7.0)
    assert made(answer, "summer_after_harvest").verdict == "wait"


def hardness(clerk: Clerk, **shoots_in: float) -> dict[str, object]:
    """How hard each of several varieties is cut."""
    grown = tuple(GraftedVariety(name, shoot_length_in=length) for name, length in shoots_in.items())
    varieties = clerk.plan("japanese_plum", varieties=grown).varieties
    return {one.variety.name: one.judgement.concluded["variety_cut"] for one in varieties}


def test_a_variety_twice_as_strong_is_cut_hard_and_the_weakest_hardly(clerk: Clerk) -> None:
    """UCANR_3485 (recalled): strong kinds hardest and in summer, the weak kind little or not at all."""
    assert hardness(clerk, tall=30, middling=20, short=14) == {"tall": "hard", "middling": "usual", "short": "light"}
    assert hardness(clerk, tall=30, starving=5) == {"tall": "hard", "starving": "none"}
    assert hardness(clerk, one=20, other=20) == {"one": "usual", "other": "usual"}


def test_trees_in_one_hole_stand_eighteen_inches_apart(clerk: Clerk) -> None:
    """UCANR_3485 (recalled): 18 to 36 in, and more on heavy soil."""
    close = clerk.plan("peach", shared_hole=SharedHole(3, 12, (9.0, 6.0, 6.0)))
    wide = clerk.plan("peach", shared_hole=SharedHole(3, 18))
    rules = [{rule.id for rule in answer.tree.rules} for answer in (close, wide)]
    assert ["trees-in-one-hole-need-room" in found for found in rules] == [True, False]
    assert made(close, "group_balance").season == "early_summer"


@pytest.mark.parametrize(
    ("crop", "tree", "refused"),
    [
        ("persimmon", {}, "heading_all_shoots"),  # UC_PLACER_PRUNE
        ("quince", {}, "heading_all_shoots"),  # UC_PLACER_PRUNE
        ("apple", {"signs": ("fruit_at_shoot_ends",)}, "heading_all_shoots"),  # WESTWOOD_1993 (recalled)
        ("apple", {"height_ft": 14.0, "max_height_ft": 12.0}, "topping"),  # UC_STAN_NOWINTER, UCANR_8502
        ("apricot", {"age_years": 9}, "wound_paint"),  # UC_BUTTE_EUTYPA, UC_PLACER_PRUNE
    ],
)
def test_what_is_never_done(clerk: Clerk, crop: str, tree: dict[str, Any], refused: str) -> None:
    for day in (JANUARY, MAY, AUGUST, None):
        assert made(clerk.plan(crop, day, **tree), refused).verdict == "never"
