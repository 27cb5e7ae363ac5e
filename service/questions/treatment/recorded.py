"""How far a label record can be trusted: whether it is whole, checked, fresh, and what its number says."""

from __future__ import annotations

import re
from datetime import date

from service.compute.label_days import whole_months
from service.domain.label import LabelRecord
from service.knowledge.catalogue import Catalogue
from service.questions.treatment.question import Facts


def record_facts(record: LabelRecord, catalogue: Catalogue, day: date) -> Facts:
    """What the record says of itself on a day."""
    captured, model = record.label_captured_by, catalogue.label.model
    number, kind = record.epa_reg_no or "", record.reg_type
    forms = [model.numbers.registration.get(kind or "", "")] + ([model.numbers.invented] if record.demo else [])
    risk = record.exempt_25b
    facts: Facts = {
        "product.record_complete": bool(record.product_name and record.sites),
        "product.double_checked": bool(captured.checked_by),
        "product.label_expired": False,
        "product.reg_number_ok": kind == "exempt_25b" or any(re.fullmatch(form, number) for form in forms if form),
        "product.minimum_risk_ok": kind != "exempt_25b" or (risk is not None and bool(risk.actives_all_on_list)),
    }
    if kind is not None:
        facts["product.reg_type"] = kind
    if record.label_version_date is not None:
        facts["product.label_age_months"] = whole_months(record.label_version_date, day)
    if captured.checked_on is not None:
        facts["product.checked_age_months"] = whole_months(captured.checked_on, day)
    return facts
