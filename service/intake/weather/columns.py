"""Finds out from the names of columns what each holds and in which unit.

Known are `time` with `temp_f` or `temp_c` (hours), `date` with `min_f` and `max_f` (days), `month` with `mean_f`
(monthly means), each with _c as well, and the DATE, TMAX and TMIN of station files, whose unit the person must say.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.domain.weather import Kind, Unit

_ROLES = {
    "time": ("time", "datetime", "date_time", "timestamp", "valid", "local_time", "clock"),
    "date": ("date", "day"),
    "month": ("month",),
    "station": ("station", "station_id"),
    "temp": ("temp", "temperature", "air_temp", "air_temperature", "tmp", "dry_bulb"),
    "min": ("min", "tmin", "min_temp", "temp_min", "minimum", "minimum_temperature", "temperature_min", "low"),
    "max": ("max", "tmax", "max_temp", "temp_max", "maximum", "maximum_temperature", "temperature_max", "high"),
    "mean": ("mean", "mean_temp", "temp_mean", "mean_temperature"),
}
_ROLE_OF = {name: role for role, names in _ROLES.items() for name in names}
_TENTHS = re.compile(r"tenths?_(of_)?(deg(rees)?_)?c(elsius)?_?\Z")
_DEGREES = re.compile(r"(.*?)_(?:deg(?:rees)?_?)?(f|c|fahrenheit|celsius)\Z")
_VALUES: dict[Kind, tuple[str, ...]] = {"hourly": ("temp",), "daily": ("min", "max"), "monthly": ("mean",)}
EXPECTED = "time and temp_f (hours), date, min_f and max_f (days) or month and mean_f (monthly means); _c for °C"


@dataclass(frozen=True, slots=True)
class Columns:
    """Where moments and values stand in a row, and the unit of the values as the names tell it."""

    kind: Kind
    moment: tuple[int, ...]
    values: tuple[int, ...]
    unit: Unit | None
    station: int | None


def find_columns(names: Sequence[str]) -> Columns:
    """The columns by their names; raises NotUnderstood when they do not make a series.

    >>> find_columns(["Date", "Min (°F)", "Max (°F)"])
    Columns(kind='daily', moment=(0,), values=(1, 2), unit='f', station=None)
    >>> find_columns(["STATION", "DATE", "TMAX", "TMIN"])
    Columns(kind='daily', moment=(1,), values=(3, 2), unit=None, station=0)
    """
    found: dict[str, list[tuple[int, Unit | None]]] = {}
    for place, name in enumerate(names):
        stem, unit = _stem_and_unit(name)
        if stem in _ROLE_OF:
            found.setdefault(_ROLE_OF[stem], []).append((place, unit))
    kind = _kind(found, names)
    moment = tuple(found[role][0][0] for role in _moment_roles(kind, found))
    chosen = [found[role][0] for role in _VALUES[kind]]
    units = {unit for _, unit in chosen}
    if len(units) > 1:
        raise NotUnderstood(("", f"the columns stand in different units ({', '.join(names)}); give both in one"))
    station = found["station"][0][0] if "station" in found else None
    return Columns(kind, moment, tuple(place for place, _ in chosen), units.pop(), station)


def _stem_and_unit(name: str) -> tuple[str, Unit | None]:
    plain = re.sub(r"[^a-z0-9]+", "_", name.lower()).strip("_")
    tenths = _TENTHS.search(plain)
    if tenths:
        return plain[: tenths.start()].rstrip("_"), "tenths_c"
    degrees = _DEGREES.match(plain)
    if degrees and degrees[1] in _ROLE_OF:
        return degrees[1], "f" if degrees[2].startswith("f") else "c"
    return plain, None


def _kind(found: dict[str, list[tuple[int, Unit | None]]], names: Sequence[str]) -> Kind:
    if "min" in found and "max" in found and ("date" in found or "time" in found):
        return "daily"
    if "temp" in found and ("time" in found or "date" in found):
        return "hourly"
    if "mean" in found and "month" in found:
        return "monthly"
    seen = ", ".join(name.strip() for name in names if name.strip()) or "nothing"
    raise NotUnderstood(("", f"the first row must name the columns {EXPECTED}; it holds: {seen[:200]}"))


def _moment_roles(kind: Kind, found: dict[str, list[tuple[int, Unit | None]]]) -> tuple[str, ...]:
    if kind == "monthly":
        return ("month",)
    if kind == "hourly" and "date" in found and "time" in found:
        return ("date", "time")
    return ("date",) if "date" in found else ("time",)
