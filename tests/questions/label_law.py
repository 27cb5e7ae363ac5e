"""What a label and the law forbid, said a second time: plain records in, broken limits out.

It shares no code with `service`: it reads a record as the label prints it and a use as a person at the counter tells
it, both plain mappings, and names every limit that the use would break. The service may be stricter, never laxer: a
product with a breach here must not be `allowed`, and one with a breach in `FORBIDDEN` must be `forbidden`.

40 CFR 156.10(i)(2): directions for use bind the user. 7 U.S.C. 136j(a)(2)(G): use inconsistent with the labeling.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping
from typing import Any

from tests.questions.label_substances import SUBSTANCES

Record = Mapping[str, Any]
Use = Mapping[str, Any]

# Regulation or publication behind each limit; those of FORBIDDEN forbid, the others only take `allowed` away.
FORBIDDEN: Mapping[str, str] = {
    "crop not printed": "7 U.S.C. 136j(a)(2)(G); 7 U.S.C. 136(ee)",
    "only printed pests": "7 U.S.C. 136(ee)(2)",
    "state wants the pest printed": "New York: site and pest must be printed",
    "stage forbidden": "40 CFR 156.10(i)(2)",
    "stage outside the window": "40 CFR 156.10(i)(2)",
    "harvest too soon": "40 CFR 156.10(i)(2)",
    "no interval printed": "Ohio State University Extension bulletin 780",
    "applications used up": "40 CFR 156.10(i)(2)",
    "too soon to repeat": "40 CFR 156.10(i)(2)",
    "method not printed": "7 U.S.C. 136(ee)(3)",
    "for trees that bear no fruit": "40 CFR 156.10(i)(2)",
    "record not checked": "store practice",
    "restricted use": "7 U.S.C. 136j(a)(2)(F); 40 CFR 152.170",
    "not registered in the state": "7 U.S.C. 136v(a)",
    "restricted by the state": "California AB 363 and the laws of eight other states",
    "cancelled": "7 U.S.C. 136j(a)(1)(A)",
    "not for homes": "40 CFR 156.10(i)(2)",
    "licence needed": "Washington: consultant licence",
    "grower or hire": "California FAC 11408; 40 CFR part 171",
    "number malformed": "40 CFR 156.10(e)",
    "minimum risk claim fails": "40 CFR 152.25(f)",
    "lime sulfur": "home registrations withdrawn",
    "antibiotic": "open blossom on pome fruit only",
    "refused substance": "cancelled, withdrawn or never for homes",
    "insecticide in bloom": "K-State: no insecticide in bloom",
    "label forbids bloom": "40 CFR 156.10(i)(2)",
    "neonicotinoid before petal fall": "EPA letters of 2013",
    "oil and sulfur": "UC IPM Pest Notes 7494",
    "oil and captan": "University of Missouri G6010",
    "sulfur on apricot": "UC IPM Pest Notes 7494",
    "sulfur in heat": "UC IPM Pest Notes 7494",
    "oil in heat": "UC IPM Pest Notes 7494",
    "oil in cold": "University of Missouri G6010; Colorado State University",
    "oil in drought": "UC IPM Pest Notes 7494",
    "copper on pome fruit": "University of Missouri G6010",
    "copper on stone fruit": "Rutgers",
    "copper before frost": "Rutgers",
    "chlorothalonil after shuck split": "Michigan State University",
    "printed temperature": "40 CFR 156.10(i)(2)",
    "poison and skull": "40 CFR 156.64",
    "somebody exposed": "call for help first",
    "food plants beneath": "7 U.S.C. 136j(a)(2)(G)",
    "water too near": "40 CFR 156.80",
    "windy": "wind over the label's, or 10 mph",
    "mix barred": "40 CFR 156.10(i)(2)",
    "not organic": "7 CFR 205.601",
    "reported pest": "report first",
    "no product works": "first actions only",
    "cause not sure": "no product for a cause that nobody has confirmed",
}
POME = {"apple", "european_pear", "pear", "asian_pear", "quince"}
STONE = {"peach", "nectarine", "apricot", "japanese_plum", "european_plum", "plum_apricot_hybrid", "sweet_cherry",
         "tart_cherry"}  # fmt: skip
BEFORE_PETAL_FALL = {"dormant", "bud_swell", "green_tip", "half_inch_green", "pink", "bloom"}
NO_GREEN = {"dormant", "bud_swell", "leaf_fall"}
COPPER_POME = {"leaf_fall", "post_harvest", "dormant", "bud_swell", "green_tip", "half_inch_green"}
COPPER_STONE = {"leaf_fall", "dormant", "bud_swell"}
AFTER_SHUCK_SPLIT = {"shuck_split", "fruit_set", "fruit_growth", "ripening", "harvest"}
NEONICOTINOIDS = {"acetamiprid", "clothianidin", "dinotefuran", "imidacloprid", "thiamethoxam"}
_FIVE, _NO_ACETAMIPRID = NEONICOTINOIDS, NEONICOTINOIDS - {"acetamiprid"}
STATE_RESTRICTED = {
    "CA": ("2025-01-01", _FIVE), "MD": ("2018-01-01", _FIVE), "ME": ("2022-09-01", _NO_ACETAMIPRID),
    "CT": ("2018-01-01", _FIVE), "NJ": ("2023-10-31", _FIVE), "VT": ("2019-07-01", _FIVE),
    "NY": ("2023-01-01", {"acetamiprid", "imidacloprid", "thiamethoxam"}), "RI": ("2024-01-01", _FIVE),
    "WA": ("2026-01-01", _NO_ACETAMIPRID),
}  # fmt: skip
REPORTED = {"asian_citrus_psyllid", "plum_pox", "spotted_lanternfly", "exotic_fruit_flies", "x_disease"}
NO_PRODUCT = {"cytospora_canker", "silver_leaf", "crown_gall", "armillaria_rot", "plum_pox", "x_disease", "voles"}
CLAIMS = ("actives_all_on_list", "inerts_all_on_list", "all_ingredients_printed", "no_public_health_claim",
          "producer_contact_printed", "no_false_claims")  # fmt: skip
NUMBER = {
    "section3": r"[1-9][0-9]{0,5}-[1-9][0-9]{0,4}",
    "distributor": r"[1-9][0-9]{0,5}-[1-9][0-9]{0,4}-[1-9][0-9]{0,5}",
    "sln_24c": r"[A-Z]{2}-[0-9]{6}",
}
DEMO_NUMBER = r"9999[0-9]{3}-[0-9]{1,3}(-9999[0-9]{3})?"


def day(text: Any) -> datetime.date:
    """A date as a record or a use writes it."""
    return datetime.date.fromisoformat(str(text))


def substances(record: Record) -> list[str]:
    """The ISO common names of a product's active ingredients."""
    return [each["iso_name"] for each in record.get("active_ingredients") or []]


def kinds(record: Record) -> set[str]:
    """What a product is: insecticide, miticide, fungicide, oil, copper, and so on."""
    return set[str]().union(*(SUBSTANCES[name].kinds for name in substances(record)))


def of_the_store(record: Record, use: Use) -> Iterator[str]:
    """What binds who sells and who advises: 7 U.S.C. 136j(a)(1), 136v(a), and state law."""
    yield from _of_the_register(record, use)
    state, names, customer = use.get("state"), set(substances(record)), use.get("customer") or {}
    from_day, restricted = STATE_RESTRICTED.get(str(state), ("9999-01-01", set[str]()))
    if (names & restricted and day(use["date"]) >= day(from_day)) or state in (record.get("state_restricted_in") or []):
        yield "restricted by the state"
    if record["user_site_class"] == "commercial_only" or record.get("residential_prohibited_text"):
        yield "not for homes"
        if "calcium polysulfide" in names:
            yield "lime sulfur"
    if record["user_site_class"] == "dual":
        yield "licence needed" if state == "WA" else "licence elsewhere"
    if customer.get("kind") == "commercial" or customer.get("for_hire"):
        yield "grower or hire"
    if customer.get("organic") and not record.get("organic_listed"):
        yield "not organic"
    if any(SUBSTANCES[name].refused for name in names):
        yield "refused substance"
    if record.get("poison_skull"):
        yield "poison and skull"
    if record.get("signal_word") == "DANGER":
        yield "danger"


def _of_the_register(record: Record, use: Use) -> Iterator[str]:
    today, state, kind = day(use["date"]), use.get("state"), record["reg_type"]
    if not record["label_captured_by"].get("checked_by"):
        yield "record not checked"
    if record["restricted_use"]:
        yield "restricted use"
    if state is None:
        yield "state not known"
    elif state not in record["states_registered"]:
        yield "not registered in the state" if kind != "exempt_25b" else "state status not known"
    ended = record.get("existing_stocks_sale_end")
    if record["registration_status"] in ("cancelled", "suspended") or (ended and day(ended) < today):
        yield "cancelled"
    if record.get("shelf_expiry") and day(record["shelf_expiry"]) < today:
        yield "stock expired"
    if (today - day(record["label_version_date"])).days > 24 * 31:
        yield "label old"
    if kind == "exempt_25b":
        yield from () if all(record["exempt_25b"][name] for name in CLAIMS) else ["minimum risk claim fails"]
    elif not re.fullmatch(DEMO_NUMBER if record.get("demo") else NUMBER[kind], str(record.get("epa_reg_no") or "")):
        yield "number malformed"
