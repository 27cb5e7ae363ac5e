"""The whole stock from a file, and into one: what it would change is told first, and all of it is done or nothing."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Any

from flask import Response, request

from service.api.fields import Asked, AskedInQuery, flag, nested
from service.api.house import Resource, parts
from service.api.stock_reading import stock_in_json, stock_in_table
from service.api.stock_told import ENTRY, StockEntryAsked, StockImportTold
from service.domain.store import StockItem
from service.intake.shelf_file import rows_of_csv, rows_of_workbook
from service.intake.shelf_table import Row
from service.intake.stock_names import StockNames
from service.intake.stock_table import MOST_ENTRIES, stock_csv
from service.present.stock import stock_changes
from service.storage.stock import kept_stock, put_stock

blueprint = Resource("stock-imports", "The whole stock from a file, and into one.")
CSV, XLSX = "text/csv", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
CSV_EXAMPLE = (
    "id,cultivar,rootstock,quantity,form,size,price,currency\n"
    "GALA-M7-BR,apple.gala,M.7,14,bare root,3/4 in caliper,39.90,USD\n"
    "FIG-5G,fig.mission,,8,container,5 gal,,\n"
)


class StockImportAsked(Asked):
    """Trees for the stock; each entry carries its id."""

    entries = nested(StockEntryAsked, "The entries.", many=True, least=1, most=MOST_ENTRIES, required=True,
                     example=[ENTRY])  # fmt: skip


class StockImportOptions(AskedInQuery):
    """How the file is taken."""

    dry_run = flag("True: change nothing and tell what would change.")
    whole = flag("True: the file is the whole stock, and entries that it does not name are taken out.", example=False)


@blueprint.route("/stock-imports", methods=["POST"])
@blueprint.asks(StockImportAsked, also=(CSV, XLSX))
@blueprint.asks_in_query(StockImportOptions)
@blueprint.answers(StockImportTold)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(
    requestBody={
        "content": {
            CSV: {"schema": {"type": "string"}, "example": CSV_EXAMPLE},
            XLSX: {"schema": {"type": "string", "format": "binary"}},
        }
    }
)  # type: ignore[untyped-decorator]
def import_stock(asked: dict[str, Any] | None, query: dict[str, Any]) -> dict[str, Any]:
    """Take the stock from a file.

    The file is CSV or a workbook (its first sheet), or the same in JSON. Its first row names the columns: `id`,
    `cultivar` and `quantity`, and where they are known `crop`, `rootstock`, `form`, `size`, `price` and `currency`.
    Cultivars and rootstocks may be written as ids or as names.

    With `dry_run` it tells what would change and changes nothing. All entries are taken or none: every fault is told
    with its row and column. Entries that the file does not name stay, unless `whole` says that it is the whole stock.
    """
    names = StockNames(parts().names, parts().rulebook.catalogue)
    items = stock_in_json(asked["entries"], names) if asked is not None else stock_in_table(_rows(), names)
    there = {kept.item.id: kept.item for kept in kept_stock(parts().database)}
    besides = sorted(there.keys() - {item.id for item in items})
    out, dry_run = besides if query.get("whole") else [], bool(query.get("dry_run"))
    if not dry_run:
        put_stock(parts().database, items, take_out=out)
    entries = [_told(item, there.get(item.id)) for item in items]
    return {
        "dry_run": dry_run,
        **{does: sum(one["does"] == does for one in entries) for does in ("new", "changed", "unchanged")},
        "entries": entries,
        "kept_besides": [one for one in besides if one not in out],
        "taken_out": out,
    }


@blueprint.route("/stock-exports")
@blueprint.response(200, {"type": "string"}, content_type=CSV, description="The stock.", example=CSV_EXAMPLE)  # type: ignore[untyped-decorator]
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def export_stock() -> Response:
    """Write the stock into a CSV file.

    Importing it again changes nothing. A text that a spreadsheet would take for a formula stands behind an apostrophe,
    which is taken off again on reading.
    """
    response = Response(stock_csv(kept.item for kept in kept_stock(parts().database)), mimetype=CSV)
    day = datetime.now(UTC).date().isoformat()
    response.headers["Content-Disposition"] = f'attachment; filename="stock-{day}.csv"'
    response.headers["Cache-Control"] = "no-store"
    return response


def _rows() -> Iterable[Row]:
    body = request.get_data(cache=True)
    return rows_of_csv(body) if request.mimetype == CSV else rows_of_workbook(body)


def _told(item: StockItem, there: StockItem | None) -> dict[str, Any]:
    changes = [] if there is None else stock_changes(there, item)
    does = "new" if there is None else "changed" if changes else "unchanged"
    return {"id": item.id, "cultivar": item.cultivar, "does": does, "changes": changes}
