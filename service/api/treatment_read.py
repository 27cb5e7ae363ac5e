"""A checked treatment request as a question: names become ids, products become records, the log is read in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from service.api.house import parts
from service.api.label_asked import record_of
from service.domain.application import standing
from service.domain.errors import NotUnderstood
from service.domain.label import LabelActive, LabelRecord
from service.domain.label_use import (
    OWN_STOCK,
    Applied,
    Cause,
    Container,
    Customer,
    DayWeather,
    Offered,
    TreatedTree,
    Use,
    UsePlace,
)
from service.questions.treatment import Names, TreatmentQuestion, likeliest
from service.storage.applications import applications_of
from service.storage.shelf import shelf

_FIRST_YEAR, _LAST_YEAR = 1990, 2100
_OF_CAUSE = ("symptoms", "inside_fruit", "cut_out", "new_to_place")


def read_treatment(asked: dict[str, Any]) -> TreatmentQuestion:
    """The question; NotUnderstood points at every name that is not known and at days that cannot be."""
    return _Reader(asked).question()


class _Reader:
    def __init__(self, asked: dict[str, Any]) -> None:
        self.asked, house = asked, parts()
        self.catalogue = house.rulebook.catalogue
        self.names = Names(house.names, self.catalogue)
        self.day = self.day_of_use()
        self.on_shelf = tuple(Offered(one.id, one.record, one.version) for one in shelf(house.database))
        self.known: dict[str, Offered] = {one.id: one for one in self.on_shelf}
        self.inline: dict[str, Offered] = {}

    def day_of_use(self) -> date:
        told = _day(self.asked.get("date"))
        if told is not None and not _FIRST_YEAR <= told.year <= _LAST_YEAR:
            self.names.faults.append(("/date", f"Days from {_FIRST_YEAR} to {_LAST_YEAR} are answered for."))
        return told or date.today()

    def question(self) -> TreatmentQuestion:
        self.gather_inline()
        offered, use = self.offered(), self.use()
        self.names.stop_if_any()
        return TreatmentQuestion(use, offered, tuple(one.record for one in (*self.on_shelf, *self.inline.values())))

    def gather_inline(self) -> None:
        """Every whole record of the request, so that ids elsewhere in it may mean them."""
        for pointer, given in self.given_products():
            if isinstance(given, dict):
                record = self.record(pointer, given)
                name = record.id or f"record-{len(self.inline) + 1}"
                self.inline[pointer] = Offered(name, record)
                self.known[name] = self.inline[pointer]

    def record(self, pointer: str, given: Mapping[str, Any]) -> LabelRecord:
        try:
            return record_of(given, pointer=pointer).record
        except NotUnderstood as fault:
            self.names.faults.extend(fault.faults)
            return LabelRecord()

    def given_products(self) -> Iterable[tuple[str, Any]]:
        for key in ("products", "tank_mix"):
            yield from ((f"/{key}/{place}", given) for place, given in enumerate(self.asked.get(key) or ()))
        for place, entry in enumerate(self.asked.get("history") or ()):
            if entry.get("product") is not None:
                yield f"/history/{place}/product", entry["product"]

    def product(self, pointer: str, given: Any) -> Offered | None:
        return self.inline.get(pointer) or self.names.product(pointer, str(given), self.known)

    def each(self, key: str) -> tuple[Offered, ...]:
        found = (self.product(f"/{key}/{place}", given) for place, given in enumerate(self.asked.get(key) or ()))
        return tuple({one.id: one for one in found if one is not None}.values())

    def offered(self) -> tuple[Offered, ...]:
        """The products asked about, or the whole shelf; then what the customer owns."""
        told = self.asked.get("products") is not None
        chosen = self.each("products") if told else self.on_shelf
        active, cancelled = self.asked.get("own_stock_active"), bool(self.asked.get("own_stock_cancelled"))
        if told and (active is True or cancelled):
            chosen = tuple(_owned(one, cancelled=cancelled) for one in chosen)
        if not isinstance(active, str):
            return chosen
        name = self.names.active("/own_stock_active", active)
        own = Offered(OWN_STOCK, LabelRecord(active_ingredients=(LabelActive(name),)), owned=True)
        return (*chosen, _owned(own, cancelled=cancelled))

    def use(self) -> Use:
        asked = self.asked
        crop = self.names.crop(asked["crop"])
        return Use(
            crop=crop,
            cause=self.cause(),
            on=self.day,
            cultivar=self.names.cultivar(asked.get("cultivar"), crop),
            stage=asked.get("stage"),
            state=asked.get("state"),
            harvest_from=_day(asked.get("harvest_from")),
            full_bloom=_day(asked.get("full_bloom_date")),
            method=asked.get("method"),
            log=self.log(),
            weather=DayWeather(**(asked.get("weather") or {})),
            place=self.place(),
            tree=TreatedTree(**_told(asked.get("tree"))),
            customer=Customer(**_told(asked.get("customer"))),
            exposure=bool(asked.get("exposure_reported")),
            also_asked=tuple(dict.fromkeys(asked.get("asks") or ())),
            pest_recommendation=bool(asked.get("pest_recommendation")),
            adviser_licensed=bool(asked.get("adviser_licensed")),
            tank_mix=self.each("tank_mix"),
            containers=tuple(self.containers()),
        )

    def cause(self) -> Cause:
        asked = self.asked
        more: dict[str, Any] = {name: asked.get(name) for name in _OF_CAUSE}
        more["new_generation"] = bool(asked.get("new_generation"))
        if asked.get("disorder") is not None:
            return Cause(self.names.cause("/disorder", asked["disorder"]), **more)
        if not asked.get("suspects"):
            self.names.faults.append(("/disorder", "The disorder is needed, or the suspects of a diagnosis."))
            return Cause("", **more)
        suspects = [
            (self.names.cause(f"/suspects/{place}/disorder", one["disorder"]), one["likelihood"])
            for place, one in enumerate(asked["suspects"])
        ]
        return replace(likeliest(suspects, parts().rulebook), **more)

    def place(self) -> UsePlace:
        told = dict(self.asked.get("site") or {})
        plants = told.pop("understory_crops", None)
        return UsePlace(**told, understory_crops=None if plants is None else tuple(map(self.names.plant, plants)))

    def log(self) -> tuple[Applied, ...]:
        """What the request tells and what the log of the tree holds, each use once."""
        told = [self.used(f"/history/{place}", one) for place, one in enumerate(self.asked.get("history") or ())]
        seen = {(one.on, one.product) for one in told if one.product is not None}
        logged = [one for one in self.logged() if one.product is None or (one.on, one.product) not in seen]
        return (*told, *logged)

    def used(self, pointer: str, entry: Mapping[str, Any]) -> Applied:
        on = date.fromisoformat(entry["date"])
        if on > self.day:
            self.names.faults.append((f"{pointer}/date", "This day lies after the day that is asked about."))
        actives = [self.names.active(f"{pointer}/actives/{place}", name)
                   for place, name in enumerate(entry.get("actives") or ())]  # fmt: skip
        given = entry.get("product")
        if given is None and not actives:
            self.names.faults.append((f"{pointer}/product", "The product is needed, or its actives."))
        product = None if given is None else self.product(f"{pointer}/product", given)
        if product is None:
            return Applied(on, tuple(actives))
        return Applied(on, tuple(dict.fromkeys((*product.record.actives, *actives))), product.id, product.record)

    def logged(self) -> Iterable[Applied]:
        reference = self.asked.get("reference")
        if reference is None:
            return
        for entry in standing(applications_of(parts().database, reference)):
            if entry.applied_on <= self.day:
                product = self.known.get(entry.product or "")
                yield Applied(entry.applied_on, entry.actives, entry.product, product.record if product else None)

    def containers(self) -> Iterable[tuple[str, Container]]:
        for place, one in enumerate(self.asked.get("containers") or ()):
            actives = one.get("actives")
            names = [self.names.active(f"/containers/{place}/actives/{number}", name)
                     for number, name in enumerate(actives or ())]  # fmt: skip
            read = None if actives is None else tuple(names)
            yield one["product"], Container(one.get("epa_reg_no"), _day(one.get("label_version_date")), read)


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)


def _told(given: Mapping[str, Any] | None) -> dict[str, Any]:
    return {name: value for name, value in (given or {}).items() if value is not None}


def _owned(offered: Offered, *, cancelled: bool) -> Offered:
    record = replace(offered.record, registration_status="cancelled") if cancelled else offered.record
    return replace(offered, record=record, owned=True)
