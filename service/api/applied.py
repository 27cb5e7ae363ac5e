"""A checked request to log a use as an entry; what a correction leaves out is taken from what it corrects."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from service.api.house import parts
from service.api.keeping import idempotency_key
from service.domain.application import Application
from service.domain.errors import NotUnderstood
from service.domain.label_use import Offered
from service.questions.treatment import Names
from service.storage.applications import find_application, new_entry_id, now_text
from service.storage.shelf import shelf

_ID_LETTERS = 32
_A_DAY = timedelta(days=1)  # a till may stand in a time zone ahead of ours


def entry_of(asked: dict[str, Any]) -> Application:
    """The entry, not stored yet; NotUnderstood points at what is not known or cannot be."""
    key = idempotency_key()
    corrected = _corrected(asked)
    entry = Application(
        id=new_entry_id() if key is None else hashlib.sha256(f"applications {key}".encode()).hexdigest()[:_ID_LETTERS],
        reference=asked["reference"],
        applied_on=_day(asked["date"]),
        actives=() if corrected is None else corrected.actives,
        logged_at=now_text(),
        corrects=asked.get("corrects"),
        did_not_happen=bool(asked.get("did_not_happen")),
    )
    if corrected is not None:
        kept = ("crop", "product", "version", "product_name", "epa_reg_no")
        entry = replace(entry, **{name: getattr(corrected, name) for name in kept})
    return _named(entry, asked)


def same_entry(one: Application, other: Application) -> bool:
    """Whether two entries say the same, whenever they were written."""
    return replace(one, logged_at="") == replace(other, logged_at="")


def _day(text: str) -> date:
    day = date.fromisoformat(text)
    if day > datetime.now(UTC).date() + _A_DAY:
        raise NotUnderstood(("/date", "This day is still to come; log a use once it is done."))
    return day


def _corrected(asked: dict[str, Any]) -> Application | None:
    wanted = asked.get("corrects")
    if wanted is None:
        if asked.get("did_not_happen"):
            raise NotUnderstood(("/corrects", "The id of the entry that never happened is needed."))
        return None
    found = find_application(parts().database, wanted)
    if found is None or found.reference != asked["reference"]:
        raise NotUnderstood(("/corrects", "The log of this tree has no entry of this id."))
    return found


def _named(entry: Application, asked: dict[str, Any]) -> Application:
    """The entry with what the request names; a product or actives of its own take the place of all that was kept."""
    house = parts()
    names = Names(house.names, house.rulebook.catalogue)
    if asked.get("crop") is not None:
        entry = replace(entry, crop=names.crop(asked["crop"]))
    told = tuple(names.active(f"/actives/{place}", name) for place, name in enumerate(asked.get("actives") or ()))
    if asked.get("product") is not None:
        on_shelf = {one.id: Offered(one.id, one.record, one.version) for one in shelf(house.database)}
        product = names.product("/product", asked["product"], on_shelf)
        names.stop_if_any()
        assert product is not None
        entry = replace(
            entry,
            product=product.id,
            version=product.version,
            product_name=product.record.product_name,
            epa_reg_no=product.record.epa_reg_no,
            actives=tuple(dict.fromkeys((*product.record.actives, *told))),
        )
    elif told:
        entry = replace(entry, product=None, version=None, product_name=None, epa_reg_no=None, actives=told)
    elif asked.get("corrects") is None:
        names.faults.append(("/product", "The product is needed, or its actives."))
    names.stop_if_any()
    return entry
