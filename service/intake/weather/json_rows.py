"""Rows of JSON: hours, days or months, each row with its moment and its temperatures in °F or in °C.

The rows of one series all use the same unit. They are read here rather than by a schema, since a series of thirty
years has a quarter of a million of them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

import numpy as np

from service.domain.errors import NotUnderstood
from service.domain.weather import Floats, Reading
from service.intake.weather.csv_file import MOST_ROWS
from service.intake.weather.faults import RowFaults
from service.intake.weather.grid import Readings, daily_reading, hourly_reading
from service.intake.weather.moments import read_moment
from service.intake.weather.months import monthly_reading

_Unit = Literal["f", "c"]


@dataclass(frozen=True, slots=True)
class _Form:
    moment: str
    values: tuple[str, ...]


_FORMS = {
    "hourly": _Form("time", ("temp",)),
    "daily": _Form("date", ("min", "max")),
    "monthly": _Form("month", ("mean",)),
}


def read_weather_rows(kind: Literal["hourly", "daily", "monthly"], rows: Sequence[Any]) -> Reading:
    """The series in a list of JSON objects; faults point at /hourly/0/temp_f and the like."""
    whole, form = f"/{kind}", _FORMS[kind]
    if not isinstance(rows, list) or not rows:
        raise NotUnderstood((whole, "this must be a list with at least one row"))
    if len(rows) > MOST_ROWS:
        raise NotUnderstood((whole, f"there are more than {MOST_ROWS:,} rows; give at most as many"))
    table = _Rows(whole, form, _unit_of(rows, form, whole))
    table.check(rows)
    values = table.values(rows)
    if kind == "monthly":
        months = [row["month"] if _is_whole(row["month"]) else 0 for row in rows]
        pointers = [f"{whole}/{place}/month" for place in range(len(rows))]
        return monthly_reading(months, values[0], unit=table.unit, pointers=pointers)
    readings = Readings(table.moments(rows), values, table.unit, whole)
    if kind == "hourly":
        return hourly_reading(readings)
    table.low_above_high(values)
    return daily_reading(readings)


def _unit_of(rows: Sequence[Any], form: _Form, whole: str) -> _Unit:
    first = next((row for row in rows if isinstance(row, dict)), {})
    name = form.values[0]
    if f"{name}_f" in first:
        return "f"
    if f"{name}_c" in first:
        return "c"
    needed = " and ".join((form.moment, *_named(form, "f")))
    raise NotUnderstood((f"{whole}/0", f"a row needs {needed}; write _c in place of _f for °C"))


def _named(form: _Form, unit: _Unit) -> tuple[str, ...]:
    return tuple(f"{name}_{unit}" for name in form.values)


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


class _Rows:
    """Reads the columns of a list of rows and gathers what is wrong with them."""

    def __init__(self, whole: str, form: _Form, unit: _Unit) -> None:
        self.whole, self.form, self.unit = whole, form, unit
        self.names = _named(form, unit)
        self.known = frozenset((form.moment, *self.names))
        self.faults = RowFaults(whole)

    def values(self, rows: Sequence[Any]) -> tuple[Floats, ...]:
        """One array for each temperature of the form; null is a gap."""
        read = tuple(
            np.array([self._value(place, row[name], name) for place, row in enumerate(rows)], dtype=np.float64)
            for name in self.names
        )
        self.faults.stop_if_any()
        return read

    def check(self, rows: Sequence[Any]) -> None:
        """Refuse rows that are no objects or hold anything but what the form asks for."""
        for place, row in enumerate(rows):
            if not isinstance(row, dict):
                self.faults.add(f"{self.whole}/{place}", "a row must be an object")
            elif row.keys() != self.known:
                self._fields(place, row)
        self.faults.stop_if_any()

    def _fields(self, place: int, row: Mapping[str, Any]) -> None:
        for name in row.keys() - self.known:
            known = " and ".join((self.form.moment, *self.names))
            self.faults.add(f"{self.whole}/{place}/{name}", f"this series has rows of {known}; leave other fields out")
        for name in self.known - row.keys():
            self.faults.add(f"{self.whole}/{place}/{name}", "this field is needed; null says that nothing was read")

    def _value(self, place: int, value: Any, name: str) -> float:
        if value is None:
            return math.nan
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            self.faults.add(f"{self.whole}/{place}/{name}", "a temperature is a number, or null where none was read")
            return math.nan
        return float(value)

    def moments(self, rows: Sequence[Any]) -> list[datetime]:
        """The moment of each row."""
        found = []
        for place, row in enumerate(rows):
            value = row[self.form.moment]
            try:
                found.append(read_moment(value if isinstance(value, str) else repr(value)))
            except ValueError as fault:
                self.faults.add(f"{self.whole}/{place}/{self.form.moment}", str(fault))
        self.faults.stop_if_any()
        return found

    def low_above_high(self, values: tuple[Floats, ...]) -> None:
        """Refuse a day whose lowest temperature is above its highest."""
        low, high = values
        for place in np.flatnonzero(low > high):
            told = f"the lowest, {low[place]:g}, is above the highest, {high[place]:g}"
            self.faults.add(f"{self.whole}/{place}", told)
        self.faults.stop_if_any()
