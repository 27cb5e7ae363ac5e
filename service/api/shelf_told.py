"""What is told of the products of a shelf."""

from __future__ import annotations

from typing import Any, get_args

from service.api.fields import Told, choice, flag, list_of, nested, text, whole
from service.api.label_asked import LabelTold
from service.api.stated import anything
from service.compute.label_record import FindingKind

FINDING_KINDS: tuple[str, ...] = get_args(FindingKind)
LABEL: dict[str, Any] = {"id": "P-0042", "product_name": "Invented Captan Powder", "sites": []}


class RecordFindingTold(Told):
    """Something in a record that staff should see to; the record is kept all the same."""

    kind = choice("What is the matter.", values=FINDING_KINDS, required=True)
    field = text("Path of the field.", example="label_captured_by.checked_by", required=True)
    says = text("What to do or what was found.", example="a second person compares it with the container",
                longest=1000, required=True)  # fmt: skip
    regulation = text("Regulation that asks for the field.", example="40 CFR 156.64", nullable=True, required=True)


class NotKeptTold(Told):
    """Something that was sent and not kept."""

    pointer = text("JSON pointer to it.", example="/sites/0/rate_text", longest=1000, required=True)
    detail = text("Why it was not kept.", example="How much is used was left out.", longest=1000, required=True)


class ShelfProductTold(Told):
    """A product of the shelf in one version of its label record."""

    id = text("Id of the product.", example="P-0042", required=True)
    version = whole("Version of the record, from 1.", unit="count", example=3, required=True)
    versions = whole("How many versions there are.", unit="count", example=3, required=True)
    entered_at = text("When this version was entered (UTC).", example="2026-11-25T10:51:40Z", required=True)
    withdrawn_at = text("When the product was taken off the shelf (UTC); null while it is there.",
                        example="2026-11-25T10:51:40Z", nullable=True, required=True)  # fmt: skip
    label = nested(LabelTold, "The label record.", example=LABEL, required=True)
    findings = nested(RecordFindingTold, "What is missing or contradictory in it.", many=True, required=True)


class EnteredTold(ShelfProductTold):
    """A product as it was entered."""

    notes = nested(NotKeptTold, "What was sent and not kept.", many=True, required=True)


class ShelfProductsTold(Told):
    """A page of the shelf."""

    items = nested(ShelfProductTold, "The products, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6UC0wMDQy", longest=400,
                       nullable=True, required=True)  # fmt: skip


class RecordVersionTold(Told):
    """One version of a record, in short."""

    version = whole("Version.", unit="count", example=2, required=True)
    entered_at = text("When it was entered (UTC).", example="2026-11-25T10:51:40Z", required=True)
    label_version_date = text("Date of the label that it records.", example="2025-01-15", nullable=True, required=True)


class VersionsTold(Told):
    """All versions of a product's record."""

    id = text("Id of the product.", example="P-0042", required=True)
    withdrawn_at = text("When it was taken off the shelf (UTC); null while it is there.",
                        example="2026-11-25T10:51:40Z", nullable=True, required=True)  # fmt: skip
    items = nested(RecordVersionTold, "The versions, the newest first.", many=True, required=True)


class RecordChangeTold(Told):
    """One field that changes."""

    field = text("Path of the field.", example="sites.0.phi_days", required=True)
    before = anything("Value that stands; null for none.", example=14, nullable=True, required=True)
    after = anything("Value in the file; null for none.", example=21, nullable=True, required=True)


class ImportedTold(Told):
    """What a file does to one product."""

    id = text("Id of the product.", example="P-0042", required=True)
    product_name = text("Name as printed.", example="Invented Captan Powder", nullable=True, required=True)
    does = choice("What happens to it; returns: it was withdrawn and comes back.",
                  values=("new", "changed", "unchanged", "returns"), required=True)  # fmt: skip
    version = whole("Version that it has afterwards.", unit="count", example=3, required=True)
    changes = nested(RecordChangeTold, "The fields that change; none for a new product.", many=True, required=True)
    findings = nested(RecordFindingTold, "What is missing or contradictory in its record.", many=True, required=True)
    notes = nested(NotKeptTold, "What was in the file and is not kept.", many=True, required=True)


class ImportTold(Told):
    """What a file does to the shelf."""

    dry_run = flag("True: nothing was changed, and this is what would happen.", required=True)
    new = whole("Products that are new.", unit="count", example=3, required=True)
    changed = whole("Products that change, and those that come back.", unit="count", example=1, required=True)
    unchanged = whole("Products that stand so already.", unit="count", example=21, required=True)
    products = nested(ImportedTold, "Each product of the file.", many=True, required=True)
    kept_besides = list_of(text("Id of a product.", example="P-0007"), "Products of the shelf that the file does not"
                           " name; they stay as they are.", example=["P-0007"], required=True)  # fmt: skip
