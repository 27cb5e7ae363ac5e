"""How a request describes a place, and how it is read: shared by the questions that ask for one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from service.api.climate_asked import question_in_json
from service.api.house import parts
from service.domain.climate import ClimateSummary
from service.domain.errors import NotUnderstood
from service.domain.month_day import read_month_day
from service.domain.site import Site, read_zone
from service.questions.climate import summarise_climate

_READ: tuple[tuple[str, Callable[[str], Any]], ...] = (
    ("hardiness_zone", read_zone),
    ("last_spring_frost", read_month_day),
    ("first_autumn_frost", read_month_day),
    ("rains_begin", read_month_day),
)


def read_place(asked: dict[str, Any] | None) -> tuple[Site, ClimateSummary | None]:
    """The site of a checked request, and the summary of its temperatures where it gives a series."""
    given = dict(asked or {})
    series = given.pop("climate", None)
    for name, read in _READ:
        if given.get(name) is not None:
            given[name] = read(given[name])
    with pointing_below("/site"):
        site = Site(**given)
    return site, None if series is None else _climate(series)


def _climate(series: dict[str, Any]) -> ClimateSummary:
    models = parts().climate
    with pointing_below("/site/climate"):
        return summarise_climate(question_in_json(series, models), models)


@contextmanager
def pointing_below(start: str) -> Iterator[None]:
    """Faults of one part of the request point into the whole of it."""
    try:
        yield
    except NotUnderstood as fault:
        raise NotUnderstood(*((start + pointer, detail) for pointer, detail in fault.faults)) from fault
