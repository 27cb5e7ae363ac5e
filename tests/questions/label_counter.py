"""A counter that points to treatments by the real rulebook, asked with plain records and plain uses."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from typing import Any

from service.domain.label import LabelRecord
from service.domain.label_use import Applied, Cause, Customer, DayWeather, Offered, TreatedTree, Use, UsePlace
from service.domain.plain_label import read_record
from service.questions.suggestion import Judges
from service.questions.treatment import TreatmentAnswer, TreatmentQuestion, point
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

Plain = Mapping[str, Any]


class LabelCounter:
    """Asks about the products of one shelf."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        plain = PlainMatcher(rulebook)
        self.judges = Judges(sweeping=plain, asking=plain)

    def verdicts(self, told: Plain, shelf: Sequence[Plain]) -> dict[str, str]:
        """The verdict on each product of a shelf, by its id."""
        return {one.offered.id: one.verdict for one in self.ask(told, shelf).products}

    def ask(self, told: Plain, shelf: Sequence[Plain]) -> TreatmentAnswer:
        """The answer to a use on every product of a shelf."""
        return self.ask_records(told, [read_record(_with_dates(plain)).record for plain in shelf])

    def ask_records(self, told: Plain, shelf: Sequence[LabelRecord]) -> TreatmentAnswer:
        """The answer to a use on every record of a shelf."""
        records = {str(record.id): record for record in shelf}
        offered = tuple(Offered(name, record) for name, record in records.items())
        question = TreatmentQuestion(use_of(told, records), offered, tuple(records.values()))
        return point(question, rulebook=self.rulebook, judges=self.judges)


def use_of(told: Plain, records: Mapping[str, LabelRecord]) -> Use:
    """A plain use as the service takes it."""
    site = dict(told.get("site") or {})
    if site.get("understory_crops") is not None:
        site["understory_crops"] = tuple(site["understory_crops"])
    return Use(
        crop=told["crop"],
        cause=Cause(told["disorder"], told.get("confidence"), new_generation=bool(told.get("new_generation"))),
        on=datetime.date.fromisoformat(told["date"]),
        stage=told.get("stage"),
        state=told.get("state"),
        harvest_from=_day(told.get("harvest_from")),
        full_bloom=_day(told.get("full_bloom_date")),
        log=tuple(_applied(past, records) for past in told.get("history") or ()),
        weather=DayWeather(**(told.get("weather") or {})),
        place=UsePlace(**site),
        tree=TreatedTree(**(told.get("tree") or {})),
        customer=Customer(**(told.get("customer") or {})),
        method=told.get("method"),
        tank_mix=tuple(Offered(name, records[name]) for name in told.get("tank_mix") or ()),
        exposure=bool(told.get("exposure_reported")),
    )


def _applied(past: Plain, records: Mapping[str, LabelRecord]) -> Applied:
    record = records[past["product"]]
    return Applied(datetime.date.fromisoformat(past["date"]), record.actives, past["product"], record)


def _day(text: str | None) -> datetime.date | None:
    return None if text is None else datetime.date.fromisoformat(text)


def _with_dates(plain: Plain) -> dict[str, Any]:
    """The values that hold a day by their name, as days."""
    found: dict[str, Any] = {}
    for name, value in plain.items():
        if isinstance(value, dict):
            found[name] = _with_dates(value)
        elif isinstance(value, str) and (name.endswith(("_date", "_on", "_end")) or name == "shelf_expiry"):
            found[name] = datetime.date.fromisoformat(value)
        else:
            found[name] = value
    return found
