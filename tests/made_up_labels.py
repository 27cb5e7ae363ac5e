"""A label record that is whole, made up for the tests: nothing in it is true of any product."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

WHOLE: dict[str, Any] = {
    "demo": True,
    "product_name": "Invented Captan Powder",
    "reg_type": "section3",
    "epa_reg_no": "9999101-1",
    "epa_est_no": "99999-ZZ-001",
    "registrant": "Invented Registrant",
    "label_version_date": "2026-01-15",
    "label_captured_by": {"entered_by": "ab", "entered_on": "2026-02-01", "checked_by": "cd",
                          "checked_on": "2026-02-02"},
    "registration_status": "active",
    "states_registered": ["MI", "OR"],
    "restricted_use": False,
    "user_site_class": "home_garden",
    "toxicity_category": "I",
    "signal_word": "DANGER",
    "poison_skull": False,
    "child_warning": True,
    "precautionary_text": "Invented.",
    "first_aid_text": "Invented.",
    "ppe": ["goggles", "long sleeves"],
    "active_ingredients": [{"iso_name": "captan", "percent": 48.9, "moa_scheme": "FRAC", "moa_code": "M04"}],
    "formulation": "WP",
    "systemic": False,
    "pests_mode": "listed_or_2ee",
    "sites": [
        {"crop_as_printed": "apple", "crops": ["apple"], "pests": ["apple_scab"], "method": ["foliar"], "phi_days": 0},
        {"crop_as_printed": "sweet and tart cherries", "crops": ["sweet_cherry", "tart_cherry"],
         "pests": ["brown_rot", "cherry_leaf_spot"], "method": ["foliar"], "phi_days": 7, "max_apps_per_year": 5,
         "stages_prohibited": ["bloom"], "stages_allowed": ["petal_fall", "fruit_growth"]},
    ],
    "reentry_text": "Invented: once it is dry.",
    "pollinator": {"bloom_rule": "silent"},
    "compatibility": {"prohibited_mixes": ["mineral oil"],
                      "intervals": [{"with": "mineral oil", "days_before": 14, "days_after": 14, "basis": "label"}]},
    "environmental": {"do_not_apply_to_water": True, "buffer_ft": 25},
    "storage_disposal_text": "Invented.",
    "organic_listed": False,
    "misuse_statement": True,
    "net_contents": "16 oz",
    "emergency_contacts": {"registrant_line": "invented"},
}  # fmt: skip


def label(**changed: Any) -> dict[str, Any]:
    """The whole record with some fields changed; a field that is changed to None is left out."""
    record = deepcopy({**WHOLE, **changed})
    return {name: value for name, value in record.items() if value is not None}
