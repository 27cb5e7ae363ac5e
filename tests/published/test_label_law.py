"""Label arithmetic, pesticide law and efficacy tables against what is published, by the ids of rules/sources.yaml.

The regulation or the publication stands beside each check. Records are made up; the limits on them are not.
"""

from __future__ import annotations

from typing import Any

import pytest

from service.reasoning.rulebook import Rulebook
from tests.questions.label_counter import LabelCounter
from tests.questions.label_uses import Plain, record_in_order

FINE = {"high_f": 70, "temp_f": 60, "low_48h_f": 45, "wind_mph": 3}
PESTS = ("apple_scab", "codling_moth", "san_jose_scale", "spider_mites", "fire_blight", "cedar_apple_rust", "pear_slug",
         "japanese_beetle", "peach_leaf_curl", "black_knot", "plum_curculio")  # fmt: skip
CROPS = ("apple", "european_pear", "peach", "apricot", "european_plum")


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> LabelCounter:
    """A counter with the real rulebook."""
    return LabelCounter(rulebook)


def product(active: str, number: int = 1, *, phi_days: int = 0, **front: Any) -> Plain:
    """A record in order that leaves the stage free; `front` replaces fields of the record."""
    record = record_in_order(number, active, crops=CROPS, pests=PESTS)
    record["sites"][0].update(stages_prohibited=[], phi_days=phi_days, max_apps_per_year=None, min_retreat_days=None)
    record["pollinator"]["bloom_rule"] = "silent"
    return {**record, **front}


def use(cause: str, **told: Any) -> Plain:
    """A use on an apple in June, in Oregon and in fine weather, with the harvest in September."""
    usual = {"crop": "apple", "disorder": cause, "date": "2025-06-01", "state": "OR", "stage": "fruit_growth"}
    return {**usual, "harvest_from": "2025-09-10", "weather": FINE, **told}


def verdict(counter: LabelCounter, told: Plain, record: Plain, *others: Plain) -> str:
    """The verdict on a record, with others on the shelf."""
    return counter.verdicts(told, [record, *others])[record["id"]]


@pytest.mark.parametrize(
    ("harvest", "expected"), [("2025-06-10", "forbidden"), ("2025-06-14", "forbidden"), ("2025-06-15", "allowed")]
)
def test_fourteen_days_from_the_first_of_june(counter: LabelCounter, harvest: str, expected: str) -> None:
    """gh_phi; 40 CFR 156.10(i)(2): 1 June and 14 days make 15 June, the first day of picking."""
    told = use("codling_moth", harvest_from=harvest)
    assert verdict(counter, told, product("zeta-cypermethrin", phi_days=14)) == expected


@pytest.mark.parametrize(("uses", "expected"), [(1, "allowed"), (2, "forbidden")])
def test_a_mix_that_may_be_used_twice_a_year(counter: LabelCounter, uses: int, expected: str) -> None:
    """kstate_apple: two sprays of malathion a year on apple. Told in months far apart, so that nothing else counts."""
    record = product("malathion")
    record["sites"][0]["max_apps_per_year"] = 2
    history = [{"date": day, "product": record["id"]} for day in ("2025-03-01", "2025-05-01")[:uses]]
    other = {"date": "2025-05-15", "product": "made-up-2"}  # another group between two sprays of one
    told = use("codling_moth", history=[*history, other])
    assert verdict(counter, told, record, product("spinosad", 2)) == expected


@pytest.mark.parametrize(("days_ago", "expected"), [("2025-05-27", "forbidden"), ("2025-05-19", "forbidden"),
                                                    ("2025-05-18", "allowed")])  # fmt: skip
@pytest.mark.parametrize("oil_first", [True, False])
def test_oil_and_captan_stay_fourteen_days_apart(
    counter: LabelCounter, days_ago: str, expected: str, oil_first: bool
) -> None:
    """mo_g6010_2: no oil within 14 days before or after captan."""
    oil, captan = product("mineral oil", 1), product("captan", 2)
    now, before, cause = (captan, oil, "apple_scab") if oil_first else (oil, captan, "san_jose_scale")
    told = use(cause, history=[{"date": days_ago, "product": before["id"]}])
    assert verdict(counter, told, now, before) == expected


@pytest.mark.parametrize(("days_ago", "expected"), [("2025-05-19", "forbidden"), ("2025-05-18", "caution"),
                                                    ("2025-05-02", "caution"), ("2025-05-01", "allowed")])  # fmt: skip
def test_oil_and_sulfur_stay_two_weeks_and_better_a_month_apart(
    counter: LabelCounter, days_ago: str, expected: str
) -> None:
    """uc_pn7494: two weeks; penn_oil_news and mi_oil_list: up to a month on some labels."""
    oil, sulfur = product("mineral oil", 1), product("sulfur", 2)
    told = use("san_jose_scale", history=[{"date": days_ago, "product": sulfur["id"]}])
    assert verdict(counter, told, oil, sulfur) == expected


@pytest.mark.parametrize(("active", "high_f", "expected"), [
    ("mineral oil", 85, "allowed"), ("mineral oil", 86, "caution"), ("mineral oil", 90, "caution"),
    ("mineral oil", 91, "forbidden"), ("sulfur", 84, "allowed"), ("sulfur", 85, "caution"), ("sulfur", 90, "forbidden"),
])  # fmt: skip
def test_heat_and_what_burns(counter: LabelCounter, active: str, high_f: int, expected: str) -> None:
    """uc_pn7494: neither above 90 °F, sulfur not near it; wsu_home_oil: oil at risk above 85 °F."""
    told = use("spider_mites", weather={**FINE, "high_f": high_f})
    assert verdict(counter, told, product(active)) == expected


@pytest.mark.parametrize(("weather", "expected"), [
    ({"temp_f": 39}, "forbidden"), ({"temp_f": 40}, "caution"), ({"temp_f": 50}, "allowed"),
    ({"low_48h_f": 32}, "forbidden"), ({"low_48h_f": 33}, "allowed"),
])  # fmt: skip
def test_cold_and_oil(counter: LabelCounter, weather: Plain, expected: str) -> None:
    """mo_g6010_2 and csu_oil: above 40 °F; wsu_home_oil: better above 50 °F; omafra_oil: no freeze within 48 hours."""
    told = use("san_jose_scale", stage="green_tip", weather={**FINE, **weather})
    assert verdict(counter, told, product("mineral oil")) == expected


@pytest.mark.parametrize(("day", "expected"), [("2024-12-31", "allowed"), ("2025-01-01", "forbidden")])
def test_the_day_on_which_california_took_neonicotinoids_from_retail(
    counter: LabelCounter, day: str, expected: str
) -> None:
    """ca_ab363: from 1 January 2025."""
    told = use("codling_moth", state="CA", date=day, harvest_from="2025-09-10")
    record = product("acetamiprid", label_version_date="2024-06-01")
    record["label_captured_by"] = {**record["label_captured_by"], "checked_on": "2024-06-02"}
    assert verdict(counter, told, record) == expected


@pytest.mark.parametrize(("state", "mode", "expected"), [
    ("OR", "listed_or_2ee", "caution"), ("OR", "listed_only", "forbidden"), ("NY", "listed_or_2ee", "forbidden"),
])  # fmt: skip
def test_a_pest_that_is_not_printed(counter: LabelCounter, state: str, mode: str, expected: str) -> None:
    """fifra_2ee_uf: 7 U.S.C. 136(ee)(2) lets it be treated unless the label says otherwise; ny_site_pest: not there."""
    told = use("leafrollers", state=state)
    assert verdict(counter, told, product("spinosad", pests_mode=mode)) == expected


@pytest.mark.parametrize(("state", "expected"), [("WA", "forbidden"), ("OR", "caution")])
def test_a_product_for_farms_and_homes(counter: LabelCounter, state: str, expected: str) -> None:
    """wa_licensing: who advises on other than home and garden packages needs a licence."""
    assert verdict(counter, use("codling_moth", state=state), product("spinosad", user_site_class="dual")) == expected


@pytest.mark.parametrize(("word", "skull", "expected"), [
    ("CAUTION", False, "allowed"), ("WARNING", False, "allowed"), ("DANGER", False, "caution"),
    ("DANGER", True, "forbidden"),
])  # fmt: skip
def test_signal_words(counter: LabelCounter, word: str, skull: bool, expected: str) -> None:
    """cfr156_64: 40 CFR 156.64, toxicity category I bears DANGER, and the skull where it poisons."""
    record = product("spinosad", signal_word=word, poison_skull=skull)
    assert verdict(counter, use("codling_moth"), record) == expected


@pytest.mark.parametrize(("number", "kind", "expected"), [
    ("9999101-1", "section3", "allowed"), ("", "section3", "forbidden"), ("12345-RE", "section3", "forbidden"),
    ("0123-4", "section3", "forbidden"), ("9999101-1-9999201", "distributor", "allowed"),
])  # fmt: skip
def test_registration_numbers(counter: LabelCounter, number: str, kind: str, expected: str) -> None:
    """cfr156_10_e: 40 CFR 156.10(e); letters for the product part are a file symbol (epa_lrm14)."""
    record = product("spinosad", epa_reg_no=number, reg_type=kind, distributor_of="9999101-1")
    assert verdict(counter, use("codling_moth"), record) == expected


@pytest.mark.parametrize(("bloom", "stage", "expected"), [
    ("2025-05-02", "fruit_growth", "caution"), ("2025-05-01", "fruit_growth", "allowed"),
    ("2025-03-01", "petal_fall", "caution"),
])  # fmt: skip
def test_carbaryl_and_young_apples(counter: LabelCounter, bloom: str, stage: str, expected: str) -> None:
    """umn_carbaryl: fruit drop within 30 days of full bloom; purdue_t7: none at petal fall."""
    told = use("codling_moth", full_bloom_date=bloom, stage=stage)
    assert verdict(counter, told, product("carbaryl")) == expected


@pytest.mark.parametrize(("active", "expected"), [
    ("lambda-cyhalothrin", "forbidden"), ("spinosad", "forbidden"), ("captan", "caution"),
    ("Bacillus thuringiensis subsp. kurstaki", "allowed"),
])  # fmt: skip
def test_open_blossom(counter: LabelCounter, active: str, expected: str) -> None:
    """uc_bee: class I not on flowering plants, III no care beyond the label; kstate_apple: no insecticide; bc_scab."""
    cause = "apple_scab" if active == "captan" else "codling_moth"
    assert verdict(counter, use(cause, stage="bloom"), product(active)) == expected


@pytest.mark.parametrize(("active", "cause", "expected"), [
    ("captan", "cedar_apple_rust", "caution"), ("myclobutanil", "cedar_apple_rust", "allowed"),  # PSU_FRUITGUIDE 4.5
    ("potassium salts of fatty acids", "pear_slug", "caution"),  # uky_soap: sawfly larvae are not affected
    ("kaolin", "japanese_beetle", "caution"), ("carbaryl", "japanese_beetle", "allowed"),  # uky_jb
    ("captan", "codling_moth", "forbidden"), ("spinosad", "apple_scab", "forbidden"),  # psu_types
])  # fmt: skip
def test_what_published_trials_say(counter: LabelCounter, active: str, cause: str, expected: str) -> None:
    """Ratings of actives, and the wrong kind of product for a cause."""
    assert verdict(counter, use(cause), product(active)) == expected


@pytest.mark.parametrize(("crop", "stage", "expected"), [
    ("apple", "green_tip", "allowed"), ("apple", "half_inch_green", "caution"), ("apple", "pink", "forbidden"),
    ("peach", "dormant", "allowed"), ("peach", "green_tip", "forbidden"), ("peach", "petal_fall", "forbidden"),
])  # fmt: skip
def test_copper_by_crop_and_stage(counter: LabelCounter, crop: str, stage: str, expected: str) -> None:
    """mo_g6010_2, wfp_copper: pome fruit to half-inch green; rutgers_copper: stone fruit only out of leaf."""
    told = use("fire_blight" if crop == "apple" else "peach_leaf_curl", crop=crop, stage=stage)
    assert verdict(counter, told, product("copper octanoate")) == expected
