"""Invented label records for tests: whole, checked and allowed on an apple tree unless a test says otherwise."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from service.domain.label import (
    Captured,
    EmergencyContacts,
    Environmental,
    LabelActive,
    LabelRecord,
    LabelSite,
    Pollinator,
)
from service.domain.label_use import Applied, Cause, Offered, Use

DAY = date(2025, 6, 10)
APPLE = LabelSite(
    crop_as_printed="apple",
    crops=("apple",),
    pests=("codling_moth",),
    method=("foliar",),
    phi_days=7,
    phi_text="do not apply within 7 days of harvest",
    max_apps_per_year=6,
    min_retreat_days=10,
    nonbearing_only=False,
)
SPINOSAD = LabelRecord(
    id="T01",
    demo=True,
    product_name="Invented Garden Spinosad",
    reg_type="section3",
    epa_reg_no="9999301-1",
    epa_est_no="99999-ZZ-001",
    registrant="Invented Registrant",
    label_version_date=date(2025, 1, 15),
    label_captured_by=Captured("a", date(2025, 2, 1), "b", date(2025, 2, 2)),
    registration_status="active",
    states_registered=("OR", "PA"),
    restricted_use=False,
    user_site_class="home_garden",
    toxicity_category="III",
    signal_word="CAUTION",
    poison_skull=False,
    child_warning=True,
    precautionary_text="Invented.",
    first_aid_text="Invented.",
    ppe=("long sleeves",),
    active_ingredients=(LabelActive("spinosad", "spinosad", None, 0.5, "IRAC", "5"),),
    formulation="SC",
    systemic=False,
    pests_mode="listed_or_2ee",
    sites=(APPLE,),
    reentry_text="Keep out until sprays have dried.",
    pollinator=Pollinator("", "silent", "II", False),
    environmental=Environmental(do_not_apply_to_water=True, aquatic_toxic=False, text="Invented."),
    storage_disposal_text="Do not reuse.",
    organic_listed=True,
    misuse_statement=True,
    net_contents="invented",
    emergency_contacts=EmergencyContacts(registrant_line="invented"),
)


def record(*actives: str, id: str = "T02", **changed: Any) -> LabelRecord:
    """A record like the one above with these actives and changes; its number follows its id."""
    lines = tuple(LabelActive(name) for name in actives) or SPINOSAD.active_ingredients
    told = {"id": id, "epa_reg_no": f"9999301-{int(id[1:])}", "active_ingredients": lines, **changed}
    return replace(SPINOSAD, **told)


def site(**changed: Any) -> LabelSite:
    """The printed entry for apple with changes."""
    return replace(APPLE, **changed)


def used(one: LabelRecord, on: date) -> Applied:
    """A past use of a product of the shelf."""
    return Applied(on, one.actives, one.id, one)


def offered(one: LabelRecord) -> Offered:
    """The product as the shelf offers it."""
    return Offered(one.id or "T00", one, 1)


def use(**changed: Any) -> Use:
    """A use on an apple tree against codling moth of which all that labels hang on is known."""
    told: dict[str, Any] = {
        "crop": "apple",
        "cause": Cause("codling_moth"),
        "on": DAY,
        "stage": "fruit_set",
        "state": "PA",
        "harvest_from": date(2025, 9, 20),
    }
    return Use(**{**told, **changed})
