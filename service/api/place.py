"""How a request describes a place, and how it is read: shared by the questions that ask for one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from service.api.climate_asked import ClimateAsked, question_in_json
from service.api.fields import Asked, choice, month_day, nested, number, text
from service.api.house import parts
from service.domain.climate import ClimateSummary
from service.domain.errors import NotUnderstood
from service.domain.month_day import read_month_day
from service.domain.site import Site, read_zone
from service.questions.climate import summarise_climate


class PlaceAsked(Asked):
    """What every question about a place may be told of its climate."""

    hardiness_zone = text(
        "Hardiness zone; a zone without a letter is read as its colder half.", example="7b", longest=3,
        pattern=r"(0?[0-9]|1[0-3])[abAB]?", wants="This must be a hardiness zone such as 7b.",
    )  # fmt: skip
    latitude = number("Latitude; below zero is south of the equator.", unit="degrees", example=36.1, low=-66, high=66)
    last_spring_frost = month_day("Usual date of the last spring frost.", example="04-10")
    first_autumn_frost = month_day("Usual date of the first autumn frost.", example="10-28")
    summer = choice("Character of the growing season.", values=("dry", "humid"), example="humid")
    climate = nested(ClimateAsked, "Temperatures of the place; they fill in what nobody said of chill, zone and frost.")


class RainyPlaceAsked(PlaceAsked):
    """A place for questions that hang on the rains as well."""

    rain = choice("When most rain falls.", values=("winter", "summer", "all_year"))
    rains_begin = month_day("Usual first day of the rainy season.", example="10-20")


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
