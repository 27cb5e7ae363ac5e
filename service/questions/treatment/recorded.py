"""How far a label record can be trusted: whether it is whole, checked, fresh, and what its number says."""

from __future__ import annotations

from datetime import date

from service.compute.label_days import whole_months
from service.compute.label_record import double_checked, missing_fields, number_is_valid, unmet_conditions
from service.domain.label import LabelRecord
from service.domain.label_model import LabelModel
from service.questions.treatment.question import Facts


def record_facts(record: LabelRecord, model: LabelModel, day: date) -> Facts:
    """What the record says of itself on a day."""
    facts: Facts = {
        "product.record_complete": not missing_fields(record, model),
        "product.double_checked": double_checked(record),
        "product.label_expired": record.label_expiry_date is not None and record.label_expiry_date < day,
        "product.reg_number_ok": number_is_valid(record, model),
        "product.minimum_risk_ok": not unmet_conditions(record, model),
    }
    if record.reg_type is not None:
        facts["product.reg_type"] = record.reg_type
    ages = {"label_age": record.label_version_date, "checked_age": record.label_captured_by.checked_on}
    facts.update({f"product.{name}_months": whole_months(then, day) for name, then in ages.items() if then is not None})
    return facts
