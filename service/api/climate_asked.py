"""How a client gives a series of temperatures: rows of JSON in a body, or a file with its terms in the query."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, cast

import marshmallow as ma

from service.api.fields import Asked, AskedInQuery, choice, list_of, month_day, nested, number, text, whole
from service.domain.climate import WinterWindow
from service.domain.climate_models import ClimateModels
from service.domain.errors import NotUnderstood
from service.domain.month_day import read_month_day
from service.domain.weather import Reading, Unit
from service.intake.weather.csv_file import read_weather_csv
from service.intake.weather.json_rows import read_weather_rows
from service.intake.weather.plausible import refuse_wrong_unit
from service.questions.climate import ClimateQuestion

CSV = "text/csv"
KINDS: tuple[Literal["hourly", "daily", "monthly"], ...] = ("hourly", "daily", "monthly")
NULL_IS_A_GAP = "null where nothing was read."


class RawRows(ma.fields.List[Any]):
    """A list whose rows are documented here and read by the intake, which is a hundred times as fast as a schema."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> list[Any]:
        if not isinstance(value, list):
            raise self.make_error("invalid", input=value)
        return value


def _rows(row: type[ma.Schema], description: str, *, example: list[dict[str, Any]]) -> RawRows:
    documented = list_of(nested(row, "One row."), description, example=example)
    return RawRows(documented.inner, error_messages={"invalid": "This must be a list."}, allow_none=True,
                   metadata=documented.metadata)  # fmt: skip


class HourAsked(Asked):
    """One reading; a series has all its temperatures in °F or all in °C."""

    time = text("Local clock time.", example="2012-11-01T05:00", longest=40, required=True)
    temp_f = number(f"Temperature; {NULL_IS_A_GAP}", unit="°F", example=41.5, nullable=True)
    temp_c = number(f"Temperature; {NULL_IS_A_GAP}", unit="°C", example=5.3, nullable=True)


class DayAsked(Asked):
    """The extremes of one day; a series has all its temperatures in °F or all in °C."""

    date = text("Day.", example="2012-11-01", longest=40, required=True)
    min_f = number(f"Lowest temperature; {NULL_IS_A_GAP}", unit="°F", example=38.0, nullable=True)
    max_f = number(f"Highest temperature; {NULL_IS_A_GAP}", unit="°F", example=54.0, nullable=True)
    min_c = number(f"Lowest temperature; {NULL_IS_A_GAP}", unit="°C", example=3.3, nullable=True)
    max_c = number(f"Highest temperature; {NULL_IS_A_GAP}", unit="°C", example=12.2, nullable=True)


class MonthAsked(Asked):
    """The mean of one calendar month; a month told for several years is averaged."""

    month = whole("Month.", unit="month", example=1, low=1, high=12, required=True)
    mean_f = number(f"Mean temperature; {NULL_IS_A_GAP}", unit="°F", example=46.0, nullable=True)
    mean_c = number(f"Mean temperature; {NULL_IS_A_GAP}", unit="°C", example=7.8, nullable=True)


class WinterAsked(Asked):
    """The days on which chill is counted; the end of February includes the 29th."""

    from_ = month_day("First day.", example="11-01", required=True)
    to = month_day("Last day.", example="02-28", required=True)

    def on_bind_field(self, field_name: str, field_obj: ma.fields.Field[Any]) -> None:
        """`from` is a word of Python; a client writes it without the underscore."""
        if field_name == "from_":
            field_obj.data_key = "from"


LATITUDE = "Latitude; below zero is south of the equator."
WINTER = "When chill is counted; from 1 November to the end of February, or six months later in the south."


class ClimateAsked(Asked):
    """A series of temperatures of one place: hours, days or monthly means."""

    latitude = number(LATITUDE, unit="degrees", example=47.45, low=-90, high=90, required=True)
    hourly = _rows(HourAsked, "Hourly temperatures.", example=[{"time": "2012-11-01T05:00", "temp_f": 41.5}])
    daily = _rows(DayAsked, "Daily extremes.", example=[{"date": "2012-11-01", "min_f": 38.0, "max_f": 54.0}])
    monthly = _rows(MonthAsked, "Monthly means; an estimate only.", example=[{"month": 1, "mean_f": 46.0}])
    winter = nested(WinterAsked, WINTER)


class ClimateFileAsked(AskedInQuery):
    """What a file of temperatures does not say itself; with a JSON body these parameters have no place."""

    latitude = number(f"{LATITUDE} Needed with a file.", unit="degrees", example=47.45, low=-90, high=90)
    winter_from = month_day("First day on which chill is counted, with a file.", example="11-01")
    winter_to = month_day("Last day on which chill is counted, with a file.", example="02-28")
    units = choice("Unit of the temperatures in a file whose columns do not name it: °F, °C or tenths of °C.",
                   values=("f", "c", "tenths_c"))  # fmt: skip


def question_in_json(asked: Mapping[str, Any], models: ClimateModels) -> ClimateQuestion:
    """The question in a checked JSON object."""
    given = [kind for kind in KINDS if asked.get(kind) is not None]
    if len(given) != 1:
        said = " and ".join(given) if given else "none"
        raise NotUnderstood(("", f"One of hourly, daily and monthly is needed; the question has {said}."))
    reading = read_weather_rows(given[0], asked[given[0]])
    refuse_wrong_unit(reading, asked["latitude"], models.plausible, whole=f"/{given[0]}")
    winter = asked.get("winter")
    return ClimateQuestion(asked["latitude"], reading, _window(winter["from_"], winter["to"]) if winter else None)


def question_in_csv(query: Mapping[str, Any], body: bytes, models: ClimateModels) -> ClimateQuestion:
    """The question in a file and the query beside it."""
    if query.get("latitude") is None:
        raise NotUnderstood(("/latitude", "The latitude is needed with a file: ?latitude=47.45"))
    first, last = query.get("winter_from"), query.get("winter_to")
    if (first is None) != (last is None):
        raise NotUnderstood(("/winter_to" if first else "/winter_from", "A winter needs both its ends."))
    reading: Reading = read_weather_csv(body, unit=cast("Unit | None", query.get("units")))
    refuse_wrong_unit(reading, query["latitude"], models.plausible)
    return ClimateQuestion(query["latitude"], reading, _window(first, last) if first and last else None)


def _window(first: str, last: str) -> WinterWindow:
    return WinterWindow(read_month_day(first), read_month_day(last))
