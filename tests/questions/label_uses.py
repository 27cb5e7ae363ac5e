"""Label records and uses for the leak search: drawn by whoever chooses, and swept through all discrete facts.

`choose` takes one of a sequence: hypothesis and `random` both can. Everything here is invented.
"""

from __future__ import annotations

import datetime
import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from tests.questions.label_law import CLAIMS, day
from tests.questions.label_substances import SUBSTANCES

Choose = Callable[[Sequence[Any]], Any]
Plain = dict[str, Any]

STAGES = ("dormant", "bud_swell", "green_tip", "half_inch_green", "pink", "bloom", "petal_fall", "shuck_split",
          "fruit_set", "fruit_growth", "ripening", "harvest", "post_harvest", "leaf_fall")  # fmt: skip
CROPS = ("apple", "european_pear", "peach", "apricot", "european_plum", "sweet_cherry", "fig", "citrus")
CAUSES = {"apple_scab": "fungicide", "fire_blight": "bactericide", "brown_rot": "fungicide",
          "peach_leaf_curl": "fungicide", "codling_moth": "insecticide", "plum_curculio": "insecticide",
          "spider_mites": "miticide", "pear_slug": "insecticide", "plum_pox": "insecticide",
          "crown_gall": "bactericide", "asian_citrus_psyllid": "insecticide"}  # fmt: skip
STATES = ("OR", "CA", "NY", "WA", "MD", "ME", "KS", None)
MIXES = (*((name,) for name in SUBSTANCES), ("captan", "malathion"), ("sulfur", "lambda-cyhalothrin"),
         ("captan", "carbaryl"), *4 * (("mineral oil",),), *3 * (("sulfur",),),
         *2 * (("chlorothalonil",), ("captan",), ("copper octanoate",)))  # fmt: skip


def made_up_record(choose: Choose, number: int = 1) -> Plain:
    """A record of an invented product: in order but for what its directions limit and a fault or two now and then."""
    mix = choose(MIXES)
    record = {
        **_front(number, mix),
        "sites": [_site(choose, mix) for _ in range(choose([1, 2, 2]))],
        "temperature_limits": {"min_f": choose([None, 40, 50]), "max_f": choose([None, None, 85, 90, 95]),
                               "freeze_free_hours": None, "basis": "label"},
        "pollinator": {"statement": "", "bloom_rule": choose(["silent", "prohibited", "not_while_bees_forage"]),
                       "uc_class": None, "box": False},
        "compatibility": {"prohibited_mixes": choose([[], [], ["sulfur"], ["captan"], ["spinosad", "malathion"]]),
                          "allowed_mixes_text": None, "intervals": _intervals(choose)},
        "environmental": {"do_not_apply_to_water": True, "buffer_ft": choose([None, 25, 100]),
                          "aquatic_toxic": choose([True, False]), "wind_max_mph": choose([None, None, 5, 15]),
                          "rainfast_hours": None, "text": "made up"},
    }  # fmt: skip
    for _ in range(choose([0, 0, 0, 1, 1, 2])):
        record.update(choose(FAULTS))
    return record


def record_in_order(number: int, active: str, *, crops: Sequence[str], pests: Sequence[str]) -> Plain:
    """A record without fault that prints every crop and pest given, bars bloom and asks for a week before harvest."""
    return {
        **_front(number, (active,)),
        "sites": [{"crop_as_printed": "made up", "crops": list(crops), "pests": list(pests), "method": ["foliar"],
                   "stages_allowed": None, "stages_prohibited": ["bloom"], "phi_days": 7, "phi_text": "7 days",
                   "max_apps_per_year": 2, "min_retreat_days": 7, "nonbearing_only": False}],
        "temperature_limits": {"min_f": None, "max_f": None, "freeze_free_hours": None, "basis": "label"},
        "pollinator": {"statement": "", "bloom_rule": "prohibited", "uc_class": None, "box": False},
        "compatibility": {"prohibited_mixes": [], "allowed_mixes_text": None, "intervals": []},
        "environmental": {"do_not_apply_to_water": True, "buffer_ft": None, "aquatic_toxic": False,
                          "wind_max_mph": None, "rainfast_hours": None, "text": "made up"},
    }  # fmt: skip


FAULTS: tuple[Plain, ...] = (
    {"epa_reg_no": "12-A"},
    {"label_version_date": "2021-01-15"},
    {"label_captured_by": {"entered_by": "aa", "entered_on": "2025-02-01", "checked_by": None, "checked_on": None}},
    {"registration_status": "cancelled"},
    {"registration_status": "suspended"},
    {"existing_stocks_sale_end": "2025-03-01"},
    {"shelf_expiry": "2025-04-30"},
    {"states_registered": ["CA", "NY"]},
    {"restricted_use": True},
    {"state_restricted_in": ["KS", "OR"]},
    {"user_site_class": "dual"},
    {"user_site_class": "commercial_only"},
    {"residential_prohibited_text": "not for homes"},
    {"signal_word": "DANGER"},
    {"poison_skull": True},
    {"pests_mode": "listed_only"},
    {"organic_listed": True},
    {"reg_type": "exempt_25b", "epa_reg_no": None, "exempt_25b": dict.fromkeys(CLAIMS, True)},
    {"reg_type": "exempt_25b", "epa_reg_no": None, "exempt_25b": {**dict.fromkeys(CLAIMS, True), CLAIMS[1]: False}},
)


def _front(number: int, mix: Sequence[str]) -> Plain:
    """A record in order, but for its directions."""
    return {
        "id": f"made-up-{number}",
        "demo": True,
        "product_name": f"Invented {number}",
        "reg_type": "section3",
        "epa_reg_no": f"9999{100 + number}-{number}",
        "label_version_date": "2025-01-15",
        "label_captured_by": {"entered_by": "aa", "entered_on": "2025-02-01", "checked_by": "bb",
                              "checked_on": "2025-02-02"},
        "registration_status": "active",
        "existing_stocks_sale_end": None,
        "shelf_expiry": None,
        "states_registered": [state for state in STATES if state],
        "restricted_use": False,
        "state_restricted_in": [],
        "user_site_class": "home_garden",
        "residential_prohibited_text": None,
        "signal_word": "CAUTION",
        "poison_skull": False,
        "pests_mode": "listed_or_2ee",
        "organic_listed": False,
        "epa_est_no": "99999-ZZ-001",
        "registrant": "Invented",
        "distributor_of": None,
        "toxicity_category": None,
        "child_warning": True,
        "precautionary_text": "made up",
        "first_aid_text": "made up",
        "ppe": ["gloves"],
        "active_ingredients": [_ingredient(name) for name in mix],
        "formulation": "SC",
        "systemic": any("systemic" in SUBSTANCES[name].kinds for name in mix),
        "rei_hours": None,
        "reentry_text": "until dry",
        "max_seasonal_ai_text": None,
        "phytotoxicity": [],
        "storage_disposal_text": "made up",
        "exempt_25b": None,
        "misuse_statement": True,
        "net_contents": "made up",
        "emergency_contacts": {"registrant_line": "made up", "poison": "1-800-222-1222", "npic": "1-800-858-7378"},
    }  # fmt: skip


def _ingredient(name: str) -> Plain:
    known = SUBSTANCES[name]
    scheme = {"moa_scheme": known.scheme, "moa_code": known.group or "not classified"}
    return {"printed_name": name, "iso_name": name, "cas": None, "percent": 1.0, **scheme}


def _site(choose: Choose, mix: Sequence[str]) -> Plain:
    crops, wait = sorted({choose(CROPS) for _ in range(4)}), choose([0, 0, 1, 7, 14, 50, None])
    fitting = [cause for cause, kind in CAUSES.items() if any(kind in SUBSTANCES[name].kinds for name in mix)]
    return {
        "crop_as_printed": ", ".join(crops),
        "crops": crops,
        "pests": sorted({choose(fitting), choose(fitting), choose(list(CAUSES))}),
        "method": ["foliar"],
        "stages_allowed": choose([None, None, None, ["leaf_fall", "dormant", "bud_swell"], ["bloom"],
                                  ["pink", "petal_fall", "fruit_growth"]]),
        "stages_prohibited": choose([[], [], ["bloom"], ["shuck_split", "fruit_set", "ripening"]]),
        "phi_days": wait,
        "phi_text": choose([None, "not after shuck split"]) if wait is None else f"{wait} days",
        "max_apps_per_year": choose([None, 1, 2, 4]),
        "max_apps_per_season": choose([None, None, 3]),
        "min_retreat_days": choose([None, 7, 14]),
        "nonbearing_only": choose([False] * 9 + [True]),
    }  # fmt: skip


def _intervals(choose: Choose) -> list[Plain]:
    days = choose([14, 21, 30])
    other = choose([None, None, "mineral oil", "sulfur", "captan"])
    return [] if other is None else [{"with": other, "days_before": days, "days_after": days, "basis": "label"}]


def made_up_use(choose: Choose, shelf: Sequence[Plain]) -> Plain:
    """A use as it is told at the counter: in order, but for up to three departures. What nobody tells is None."""
    on = day("2025-01-10") + datetime.timedelta(days=choose(range(0, 350)))
    site = choose([entry for record in shelf for entry in record["sites"]])
    told: Plain = {
        "crop": choose(site["crops"]),
        "disorder": choose(site["pests"]),
        "date": on.isoformat(),
        "state": "OR",
        "stage": choose(site["stages_allowed"] or STAGES),
        "harvest_from": (on + datetime.timedelta(days=200)).isoformat(),
        "weather": {"high_f": 70, "temp_f": 60, "low_48h_f": 45, "wind_mph": 3},
    }
    for _ in range(choose([0, 0, 1, 1, 2, 3])):
        _depart(choose, told, on=on, shelf=shelf)
    return told


def _depart(choose: Choose, told: Plain, *, on: datetime.date, shelf: Sequence[Plain]) -> None:
    name = choose(["harvest_from", "history", "history", "history", "weather", "weather", "tank_mix", *DEPARTURES])
    if name == "harvest_from":
        told[name] = choose([None, *((on + datetime.timedelta(days=days)).isoformat() for days in DAYS_TO_HARVEST)])
    elif name == "history":
        used = (on - datetime.timedelta(days=choose(DAYS_BACK))).isoformat()
        told[name] = [*told.get(name, []), {"date": used, "product": choose(shelf)["id"]}]
    elif name == "tank_mix":
        told[name] = [choose(shelf)["id"]]
    elif name == "weather":
        field = choose(list(WEATHER))
        told[name] = {**told[name], field: choose(WEATHER[field])}
    else:
        told[name] = choose(DEPARTURES[name])


DEPARTURES: Mapping[str, Sequence[Any]] = {
    "crop": CROPS,
    "disorder": list(CAUSES),
    "state": STATES,
    "stage": (*STAGES, None),
    "customer": ({"kind": "commercial"}, {"kind": "home", "organic": True}, {"for_hire": True}),
    "method": ("foliar", "trunk", "soil_drench"),
    "confidence": (0.3, 0.69, 0.7, 0.9),
    "site": ({"understory_crops": []}, {"understory_crops": ["apple"]}, {"understory_crops": ["lettuce"]},
             {"understory_crops": ["lettuce"], "understory_coverable": True}, *({"water_ft": feet} for feet in
             (0, 24, 25, 99, 100, 500))),
    "tree": ({"drought_stressed": True}, {"nonbearing": True}),
    "exposure_reported": (True,),
}  # fmt: skip
WEATHER: Mapping[str, Sequence[Any]] = {
    "high_f": (None, 84, 85, 88, 89, 90, 91, 95, 96),
    "temp_f": (None, 35, 39, 40, 41, 49, 50),
    "low_48h_f": (None, 20, 31, 32, 33),
    "wind_mph": (None, 5, 6, 10, 11, 15, 16),
}
DAYS_TO_HARVEST = (-20, -1, 0, 1, 6, 7, 8, 13, 14, 15, 49, 50, 120)
DAYS_BACK = (0, 1, 6, 7, 13, 14, 15, 20, 21, 29, 30, 31, 90, 300)


def swept_uses() -> Iterator[Plain]:
    """Every crop, cause, stage and state with every wait to the harvest, on a day that leaves all else in order."""
    on = datetime.date(2025, 6, 1)
    harvests = [None, *((on + datetime.timedelta(days=days)).isoformat() for days in (6, 7, 120))]
    weather = {"high_f": 70, "temp_f": 60, "low_48h_f": 45, "wind_mph": 3}
    states, stages = ("OR", "NY", None), (*STAGES, None)
    for crop, cause, stage, state, harvest in itertools.product(CROPS, CAUSES, stages, states, harvests):
        yield {"crop": crop, "disorder": cause, "date": on.isoformat(), "state": state, "stage": stage,
               "harvest_from": harvest, "weather": weather}  # fmt: skip
