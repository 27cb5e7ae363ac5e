"""The products on the shelf of the store, each with all versions of its label record."""

from __future__ import annotations

import hashlib
import re
import uuid
from dataclasses import replace
from typing import Any

from flask import Response
from werkzeug.exceptions import Conflict, NotFound

from service.api.fields import AskedInQuery, flag, text, whole
from service.api.house import KEY_PARAMETER, Resource, at_id, parts, written
from service.api.keeping import idempotency_key
from service.api.label_asked import ID_PATTERN, LabelAsked, record_of
from service.api.paging import PageAsked, page
from service.api.shelf_told import EnteredTold, ShelfProductsTold, ShelfProductTold
from service.domain.errors import NotUnderstood
from service.domain.shelf import ShelfProduct
from service.knowledge.spelling import plain
from service.present.shelf import left_out_told, product_told
from service.storage.shelf import (
    ChangedMeanwhile,
    NotOnShelf,
    OnShelfAlready,
    add_product,
    change_product,
    find_product,
    shelf,
    withdraw,
)

blueprint = Resource("shelf-products", "The products that the store sells, as label records with all their versions.")
AWAY = (503, "SERVICE_UNAVAILABLE")
OF_PRODUCT = at_id("product", "Id of a product of the shelf.", example="P-0042")
NO_PRODUCT = "No product of the shelf has this id; GET /v1/shelf-products lists them."


class ShelfAsked(PageAsked):
    """Which products."""

    withdrawn = flag("True: those that were taken off the shelf, in the place of those on it.", example=False)
    active = text("Only products with this active (ISO common name).", example="captan", longest=100)


class BasedOnAsked(AskedInQuery):
    """Which version the change rests on."""

    based_on = whole("Version that was read before the change; the change is refused with 409 when another has been"
                     " entered since.", unit="count", example=2, low=1, high=1_000_000)  # fmt: skip


@blueprint.route("/shelf-products")
@blueprint.asks_in_query(ShelfAsked)
@blueprint.answers(ShelfProductsTold)
@blueprint.also_answers(*AWAY)
def list_shelf(asked: dict[str, Any]) -> dict[str, Any]:
    """List the products on the shelf.

    Each comes in its newest version, with what is missing or contradictory in its record.
    """
    products = shelf(parts().database, withdrawn=asked.get("withdrawn", False))
    active = plain(asked.get("active", ""))
    chosen = [one for one in products if not active or active in map(plain, one.record.actives)]
    return page(chosen, asked, key=lambda one: one.id, show=_told)


@blueprint.route("/shelf-products", methods=["POST"])
@blueprint.asks(LabelAsked)
@blueprint.answers(EnteredTold, status=201)
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(*AWAY)
@blueprint.doc(parameters=[KEY_PARAMETER])  # type: ignore[untyped-decorator]
def add_to_shelf(asked: dict[str, Any]) -> dict[str, Any] | Response:
    """Put a product on the shelf.

    A record may be sent before it is complete: what is missing stands under `findings`, and until it is there the
    product is not pointed to. A rate is taken and dropped, for it stays on the label. An id that is on the shelf is
    refused with 409; one that was withdrawn comes back. With an Idempotency-Key and without an id,
    the same record sent again is entered once.
    """
    read = record_of(asked)
    key = idempotency_key()
    record = replace(read.record, id=read.record.id or _new_id(key))
    earlier = find_product(parts().database, record.id or "") if key and read.record.id is None else None
    if earlier is not None and earlier.record != record:
        raise NotUnderstood((f"/{KEY_PARAMETER['name']}", "This key was used before with another record."))
    try:
        product = earlier or add_product(parts().database, record)
    except OnShelfAlready as fault:
        raise Conflict(str(fault)) from None
    response = written(_entered(product, read.left_out), 201)
    response.headers["Location"] = f"/v1/shelf-products/{product.id}"
    return response


@blueprint.route("/shelf-products/<product>", parameters=[OF_PRODUCT])
@blueprint.answers(ShelfProductTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(*AWAY)
def get_product(product: str) -> dict[str, Any]:
    """Show a product on the shelf in its newest version.

    A product that was withdrawn is no longer found here; its versions are (GET /v1/label-versions/{product}).
    """
    return _told(_on_shelf(product))


@blueprint.route("/shelf-products/<product>", methods=["PUT"], parameters=[OF_PRODUCT])
@blueprint.asks(LabelAsked)
@blueprint.asks_in_query(BasedOnAsked)
@blueprint.answers(EnteredTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(*AWAY)
def change_on_shelf(asked: dict[str, Any], query: dict[str, Any], product: str) -> dict[str, Any]:
    """Change the label record of a product.

    The whole record is sent. It becomes a new version and the old one stays, so that an answer of earlier still shows
    the label that it was made with. A record that stands so already makes no new version.
    """
    _on_shelf(product)
    if asked.get("id") not in (None, product):
        raise NotUnderstood(("/id", "This is not the id in the address; leave it out, or add another product (POST)."))
    read = record_of({**asked, "id": product})
    try:
        changed = change_product(parts().database, read.record, based_on=query.get("based_on"))
    except NotOnShelf:
        raise NotFound(NO_PRODUCT) from None
    except ChangedMeanwhile as fault:
        raise Conflict(str(fault)) from None
    return _entered(changed, read.left_out)


@blueprint.route("/shelf-products/<product>", methods=["DELETE"], parameters=[OF_PRODUCT])
@blueprint.response(204, description="It is off the shelf.")  # type: ignore[untyped-decorator]
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(*AWAY)
def take_off_shelf(product: str) -> None:
    """Take a product off the shelf.

    It is withdrawn and not erased: its versions stay (GET /v1/label-versions/{product}), and adding it again brings it
    back.
    """
    withdraw(parts().database, _on_shelf(product).id)


def _on_shelf(product: str) -> ShelfProduct:
    found = find_product(parts().database, product) if re.fullmatch(ID_PATTERN, product) else None
    if found is None or found.withdrawn_at is not None:
        raise NotFound(NO_PRODUCT)
    return found


def _new_id(key: str | None) -> str:
    return "p-" + (hashlib.sha256(key.encode()).hexdigest()[:24] if key else uuid.uuid4().hex[:24])


def _told(product: ShelfProduct) -> dict[str, Any]:
    return product_told(product, parts().rulebook.catalogue.label.model)


def _entered(product: ShelfProduct, left_out: tuple[str, ...]) -> dict[str, Any]:
    return {**_told(product), "notes": left_out_told(left_out)}
