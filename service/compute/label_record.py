"""How far a label record can be trusted: what is missing in it, what contradicts itself, and whose eyes saw it.

Nothing here refuses a record; what is found is told beside it, and rules decide what follows for a use.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from service.domain.label import LabelRecord, LabelSite
from service.domain.label_model import FieldNeed, LabelModel

FindingKind = Literal["missing", "malformed", "not_met", "disagrees", "not_checked", "unresolved"]
FULL_PERCENT, ROUNDING_PERCENT = 100.0, 0.5


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing about a record; `field` is its path, with the place in a list where it stands in one."""

    kind: FindingKind
    field: str
    says: str


def findings(record: LabelRecord, model: LabelModel) -> tuple[Finding, ...]:
    """Everything that is missing, malformed, not met or contradictory, in the order of the model's fields."""
    return (*_missing(record, model), *_unchecked(record), *_numbers(record, model), *_unmet(record, model),
            *_contradictions(record, model), *_readings(record, model))  # fmt: skip


def missing_fields(record: LabelRecord, model: LabelModel) -> tuple[str, ...]:
    """The fields that a record of its kind must hold and this one does not; an interval before harvest is apart.

    >>> missing_fields(LabelRecord(product_name="x"), LabelModel())
    ()
    """
    return tuple(one.field for one in _missing(record, model))


def double_checked(record: LabelRecord) -> bool:
    """Whether a second person compared the record with the container.

    >>> from service.domain.label import Captured
    >>> double_checked(LabelRecord(label_captured_by=Captured(entered_by="a", checked_by="a")))
    False
    """
    seen = record.label_captured_by
    return bool(seen.checked_by) and seen.checked_by != seen.entered_by


def number_is_valid(record: LabelRecord, model: LabelModel) -> bool:
    """Whether the registration number has the form of its type of registration (40 CFR 156.10(e)).

    True for minimum-risk products, which have none. An invented number is valid on a record marked invented only.
    """
    return not any(one.field == "epa_reg_no" for one in _numbers(record, model))


def unmet_conditions(record: LabelRecord, model: LabelModel) -> tuple[str, ...]:
    """The conditions of a minimum-risk product that are not met, or that nobody looked at; none for other products."""
    return tuple(one.field for one in _unmet(record, model))


def basic_number(number: str) -> str:
    """The number of the product that a distributor product rests on: its first two parts (40 CFR 152.132).

    >>> basic_number("9999124-24-9999301"), basic_number("9999124-24")
    ('9999124-24', '9999124-24')
    """
    return "-".join(number.split("-")[:2])


def _missing(record: LabelRecord, model: LabelModel) -> Iterator[Finding]:
    needed = _needs_of(record)
    for field in model.fields.values():
        if field.needed not in needed or (field.id == "active_ingredients" and record.reg_type == "exempt_25b"):
            continue
        for path in _empty(record, field.id):
            yield Finding("missing", path, f"{field.meaning} ({field.where})")


def _needs_of(record: LabelRecord) -> frozenset[FieldNeed]:
    by_type: dict[str | None, FieldNeed] = {"exempt_25b": "exempt", "distributor": "distributor"}
    needs: set[FieldNeed] = {"always"}
    if record.reg_type != "exempt_25b":
        needs.add("registered")
    if record.reg_type in by_type:
        needs.add(by_type[record.reg_type])
    if record.user_site_class != "commercial_only":
        needs.add("home_label")
    return frozenset(needs)


def _empty(record: LabelRecord, field: str) -> Iterator[str]:
    """The paths under which a field holds nothing."""
    if field == "sites.crops":
        return  # a name that nobody could read is told as unresolved
    if field.startswith("sites."):
        name = field.removeprefix("sites.")
        yield from (f"sites.{place}.{name}" for place, site in enumerate(record.sites) if _nothing(getattr(site, name)))
        return
    told = {
        "label_captured_by": record.label_captured_by.entered_by,
        "pollinator": record.pollinator.bloom_rule,
        "environmental": record.environmental.do_not_apply_to_water,
        "emergency_contacts": record.emergency_contacts.registrant_line,
    }
    if _nothing(told[field] if field in told else getattr(record, field)):
        yield field


def _nothing(value: object) -> bool:
    return value is None or value in ((), "")


def _unchecked(record: LabelRecord) -> Iterator[Finding]:
    if not double_checked(record):
        yield Finding("not_checked", "label_captured_by.checked_by", "a second person compares it with the container")


def _numbers(record: LabelRecord, model: LabelModel) -> Iterator[Finding]:
    if record.reg_type == "exempt_25b":
        if record.epa_reg_no:
            yield Finding("malformed", "epa_reg_no", "a minimum-risk product shows no EPA number")
        return
    number, forms = record.epa_reg_no or "", model.numbers
    if number and re.fullmatch(forms.not_registered, number):
        yield Finding("malformed", "epa_reg_no", "this is the number of a product that is not registered yet")
    elif number and not _formed(record, model):
        yield Finding("malformed", "epa_reg_no", "a number has not this form; look after “EPA Reg. No.” on the label")
    elif not number:
        yield Finding("malformed", "epa_reg_no", "a registered product has a number")
    if record.epa_est_no and not re.fullmatch(forms.establishment, record.epa_est_no):
        yield Finding("malformed", "epa_est_no", "a number has not this form; look after “EPA Est. No.” on the label")


def _formed(record: LabelRecord, model: LabelModel) -> bool:
    number = record.epa_reg_no or ""
    if re.fullmatch(model.numbers.invented, number):
        return record.demo and (number.count("-") == 2) == (record.reg_type == "distributor")
    form = model.numbers.registration.get(record.reg_type or "")
    return not record.demo and form is not None and re.fullmatch(form, number) is not None


def _unmet(record: LabelRecord, model: LabelModel) -> Iterator[Finding]:
    if record.reg_type != "exempt_25b":
        return
    for condition in model.minimum_risk.values():
        met = getattr(record.exempt_25b, condition.checks, None) if condition.checks else True
        if met is not True:
            yield Finding("not_met", f"exempt_25b.{condition.checks}", condition.says)


def _contradictions(record: LabelRecord, model: LabelModel) -> Iterator[Finding]:
    words = model.signal_words.get(record.toxicity_category) if record.toxicity_category else None
    if words and record.signal_word and record.signal_word not in words:
        yield Finding("disagrees", "signal_word", f"category {record.toxicity_category} goes with {' or '.join(words)}")
    percents = [active.percent for active in record.active_ingredients if active.percent is not None]
    if sum(percents) > FULL_PERCENT + ROUNDING_PERCENT:
        yield Finding("disagrees", "active_ingredients", "the shares add up to more than the whole")
    if record.distributor_of and record.epa_reg_no and basic_number(record.epa_reg_no) != record.distributor_of:
        yield Finding("disagrees", "distributor_of", "this is not the first two parts of the registration number")


def _readings(record: LabelRecord, model: LabelModel) -> Iterator[Finding]:
    """Printed names that nobody read, or that were read as a crop that such a name never takes in."""
    for place, site in enumerate(record.sites):
        path = f"sites.{place}.crops"
        term = model.printed_crops.get(site.crop_as_printed.strip().lower())
        if not site.crops:
            yield Finding("unresolved", path, term.ask if term and term.ask else "which crops does this name take in?")
        for crop in _never(site, model):
            yield Finding("disagrees", path, f"“{site.crop_as_printed}” does not take in {crop}")


def _never(site: LabelSite, model: LabelModel) -> tuple[str, ...]:
    term = model.printed_crops.get(site.crop_as_printed.strip().lower())
    return tuple(crop for crop in site.crops if term and crop in term.never)
