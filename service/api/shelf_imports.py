"""A whole shelf from a file, and into one: what it would change is told first, and either all of it is done or nothing.

Every record of a file is held to the schema that a single one is held to; a fault is told with its row and column.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from flask import Response, request

from service.api.fields import Asked, AskedInQuery, flag, nested
from service.api.house import Resource, parts
from service.api.label_asked import LabelAsked
from service.api.shelf_reading import records_in_json, records_in_table
from service.api.shelf_told import ImportTold
from service.domain.plain_label import ReadRecord, plain_record
from service.domain.shelf import ShelfProduct
from service.intake.label_names import LabelNames
from service.intake.shelf_file import rows_of_csv, rows_of_workbook, shelf_csv
from service.intake.shelf_table import MOST_PRODUCTS
from service.present.shelf import changes, findings_told, left_out_told
from service.storage.shelf import put_all, shelf

blueprint = Resource("shelf-imports", "The whole shelf from a file, and into one.")
CSV, XLSX = "text/csv", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CSV_EXAMPLE = (
    "id,product_name,reg_type,epa_reg_no,active_ingredients.1.iso_name,sites.crop_as_printed,sites.crops,sites.phi_days\n"
    "P-0042,Invented Captan Powder,section3,9999101-1,captan,apple,apple,0\n"
    "P-0042,,,,,cherries (sweet and tart),sweet_cherry | tart_cherry,0\n"
)


class ImportAsked(Asked):
    """Products for the shelf; each carries its id."""

    products = nested(LabelAsked, "The label records.", many=True, least=1, most=MOST_PRODUCTS, required=True)


class ImportOptions(AskedInQuery):
    """How the file is taken."""

    dry_run = flag("True: change nothing and tell what would change.")


@dataclass(frozen=True, slots=True)
class Coming:
    """A product of a file: its record, what was left out of it, and what stands on the shelf under its id."""

    read: ReadRecord
    there: ShelfProduct | None

    @property
    def does(self) -> str:
        """What happens to the product."""
        if self.there is None:
            return "new"
        if self.there.withdrawn_at is not None:
            return "returns"
        return "unchanged" if self.there.record == self.read.record else "changed"


@blueprint.route("/shelf-imports", methods=["POST"])
@blueprint.asks(ImportAsked, also=(CSV, XLSX))
@blueprint.asks_in_query(ImportOptions)
@blueprint.answers(ImportTold)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(
    requestBody={
        "content": {
            CSV: {"schema": {"type": "string"}, "example": CSV_EXAMPLE},
            XLSX: {"schema": {"type": "string", "format": "binary"}},
        }
    }
)  # type: ignore[untyped-decorator]
def import_shelf(asked: dict[str, Any] | None, query: dict[str, Any]) -> dict[str, Any]:
    """Take products for the shelf from a file.

    The file is CSV or a workbook (its first sheet), or the same in JSON. Its first row names the columns by the paths
    of the fields of a label record, such as `product_name`, `temperature_limits.max_f` and
    `active_ingredients.1.iso_name`. A product takes one row for each printed crop name, with the columns `sites.…`;
    each row carries its `id`. Entries of a list are parted by `|`, an empty cell is not known, and `(none)` is an empty
    list. What the shelf is written into (GET /v1/shelf-exports) shows all columns.

    With `dry_run` it tells what would change and changes nothing. All products are taken or none: every fault is told
    with its row and column, and products that the file does not name stay as they are.
    """
    names = LabelNames(parts().names, parts().rulebook.catalogue)
    read = records_in_json(asked["products"], names) if asked is not None else records_in_table(_rows(), names)
    there = {one.id: one for gone in (False, True) for one in shelf(parts().database, withdrawn=gone)}
    coming = [Coming(one, there.get(one.record.id or "")) for one in read]
    dry_run = bool(query.get("dry_run"))
    done = () if dry_run else put_all(parts().database, [one.read.record for one in coming if one.does != "unchanged"])
    versions = {one.id: one.version for one in done}
    named = {one.read.record.id for one in coming}
    return {
        "dry_run": dry_run,
        "new": sum(one.does == "new" for one in coming),
        "changed": sum(one.does in ("changed", "returns") for one in coming),
        "unchanged": sum(one.does == "unchanged" for one in coming),
        "products": [_told(one, versions) for one in coming],
        "kept_besides": sorted(id for id, one in there.items() if id not in named and one.withdrawn_at is None),
    }


@blueprint.route("/shelf-exports")
@blueprint.response(200, {"type": "string"}, content_type=CSV, description="The shelf.", example=CSV_EXAMPLE)  # type: ignore[untyped-decorator]
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def export_shelf() -> Response:
    """Write the shelf into a CSV file.

    With all columns, a row for each printed crop name; importing it again changes nothing. A text that a spreadsheet
    would take for a formula stands behind an apostrophe, which is taken off again on reading.
    """
    response = Response(shelf_csv([plain_record(one.record) for one in shelf(parts().database)]), mimetype=CSV)
    day = datetime.now(UTC).date().isoformat()
    response.headers["Content-Disposition"] = f'attachment; filename="shelf-{day}.csv"'
    response.headers["Cache-Control"] = "no-store"
    return response


def _rows() -> Iterable[tuple[int, Sequence[str]]]:
    body = request.get_data(cache=True)
    return rows_of_csv(body) if request.mimetype == CSV else rows_of_workbook(body)


def _told(one: Coming, versions: Mapping[str, int]) -> dict[str, Any]:
    record = one.read.record
    return {
        "id": record.id,
        "product_name": record.product_name,
        "does": one.does,
        "version": versions.get(record.id or "", _next_version(one)),
        "changes": changes(one.there.record, record) if one.there else [],
        "findings": findings_told(record, parts().rulebook.catalogue.label.model),
        "notes": left_out_told(one.read.left_out),
    }


def _next_version(one: Coming) -> int:
    if one.there is None:
        return 1
    return one.there.version + (one.there.record != one.read.record)

