"""The trees that the store has to sell; planting lists are checked against them."""

from __future__ import annotations

import hashlib
import re
import uuid
from typing import Any

from flask import Response
from werkzeug.exceptions import Conflict, NotFound

from service.api.fields import AskedInQuery, text, whole
from service.api.house import KEY_PARAMETER, Resource, at_id, known_crop, parts, written
from service.api.keeping import idempotency_key
from service.api.label_asked import ID_PATTERN
from service.api.paging import PageAsked, page
from service.api.stock_told import StockAsked, StockListTold, StockTold
from service.domain.errors import NotUnderstood
from service.domain.store import KeptStock, StockItem
from service.intake.stock_names import StockNames
from service.present.stock import stock_told
from service.storage.stock import (
    CountedMeanwhile,
    InStockAlready,
    NotInStock,
    add_stock,
    change_stock,
    find_stock,
    kept_stock,
    take_out,
)

blueprint = Resource("stock", "The trees that the store has to sell, by cultivar, rootstock and size.")
AWAY = (503, "SERVICE_UNAVAILABLE")
OF_ENTRY = at_id("entry", "Id of an entry of the stock.", example="GALA-M7-BR")
NO_ENTRY = "The stock has no entry of this id; GET /v1/stock lists them."


class StockWanted(PageAsked):
    """Which entries."""

    crop = text("Only trees of this crop (id or name).", example="apple", longest=100)
    cultivar = text("Only trees of this cultivar (its id).", example="apple.gala", longest=100)


class CountBasedOn(AskedInQuery):
    """Which version the change rests on."""

    based_on = whole("Version that was read before the change; the change is refused with 409 when somebody else has"
                     " changed the entry since.", unit="count", example=2, low=1, high=1_000_000)  # fmt: skip


@blueprint.route("/stock")
@blueprint.asks_in_query(StockWanted)
@blueprint.answers(StockListTold)
@blueprint.also_answers(*AWAY)
def list_stock(asked: dict[str, Any]) -> dict[str, Any]:
    """List the trees in stock.

    A stock in which nothing was ever entered is not known, and planting lists are then checked without it.
    """
    crop = known_crop(asked["crop"]) if asked.get("crop") else None
    told = [_told(kept) for kept in kept_stock(parts().database)]
    chosen = [
        one
        for one in told
        if crop in (None, one["crop"]) and asked.get("cultivar") in (None, one["cultivar"])
    ]
    return page(chosen, asked, key=lambda one: str(one["id"]), show=lambda one: one)


@blueprint.route("/stock", methods=["POST"])
@blueprint.asks(StockAsked)
@blueprint.answers(StockTold, status=201)
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(*AWAY)
@blueprint.doc(parameters=[KEY_PARAMETER])  # type: ignore[untyped-decorator]
def add_to_stock(asked: dict[str, Any]) -> Response:
    """Enter trees that are new in stock.

    Cultivar and rootstock may be named as people write them; a near miss is told and never assumed. An id that is in
    stock is refused with 409. With an Idempotency-Key and without an id the same entry sent again is entered once.
    """
    key = idempotency_key()
    item = _item({**asked, "id": asked.get("id") or _new_id(key)})
    earlier = find_stock(parts().database, item.id) if key and not asked.get("id") else None
    if earlier is not None and earlier.item != item:
        raise NotUnderstood((f"/{KEY_PARAMETER['name']}", "This key was used before with another entry."))
    try:
        kept = earlier or add_stock(parts().database, item)
    except InStockAlready as fault:
        raise Conflict(str(fault)) from None
    response = written(_told(kept), 201)
    response.headers["Location"] = f"/v1/stock/{kept.item.id}"
    return response


@blueprint.route("/stock/<entry>", parameters=[OF_ENTRY])
@blueprint.answers(StockTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(*AWAY)
def get_stock(entry: str) -> dict[str, Any]:
    """Show one entry of the stock.

    Its `version` goes with a change as `based_on`, so that two people who count at once learn of each other.
    """
    return _told(_there(entry))


@blueprint.route("/stock/<entry>", methods=["PUT"], parameters=[OF_ENTRY])
@blueprint.asks(StockAsked)
@blueprint.asks_in_query(CountBasedOn)
@blueprint.answers(StockTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(*AWAY)
def change_in_stock(asked: dict[str, Any], query: dict[str, Any], entry: str) -> dict[str, Any]:
    """Change an entry of the stock.

    The whole entry is sent. One that stands so already keeps its version.
    """
    _there(entry)
    if asked.get("id") not in (None, entry):
        raise NotUnderstood(("/id", "This is not the id in the address; leave it out, or add another entry (POST)."))
    try:
        return _told(change_stock(parts().database, _item({**asked, "id": entry}), based_on=query.get("based_on")))
    except NotInStock:
        raise NotFound(NO_ENTRY) from None
    except CountedMeanwhile as fault:
        raise Conflict(str(fault)) from None


@blueprint.route("/stock/<entry>", methods=["DELETE"], parameters=[OF_ENTRY])
@blueprint.response(204, description="It is out of the stock.")  # type: ignore[untyped-decorator]
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(*AWAY)
def take_from_stock(entry: str) -> None:
    """Take an entry out of the stock.

    Trees that are sold out for now are better kept with a quantity of 0: a stock without any entry is one of which
    nothing is known.
    """
    try:
        take_out(parts().database, _there(entry).item.id)
    except NotInStock:
        raise NotFound(NO_ENTRY) from None


def _there(entry: str) -> KeptStock:
    found = find_stock(parts().database, entry) if re.fullmatch(ID_PATTERN, entry) else None
    if found is None:
        raise NotFound(NO_ENTRY)
    return found


def _item(plain: dict[str, Any]) -> StockItem:
    return StockNames(parts().names, parts().rulebook.catalogue).item(plain)


def _new_id(key: str | None) -> str:
    return "s-" + (hashlib.sha256(key.encode()).hexdigest()[:24] if key else uuid.uuid4().hex[:24])


def _told(kept: KeptStock) -> dict[str, Any]:
    return stock_told(kept, parts().rulebook.catalogue)
