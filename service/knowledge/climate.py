"""Reads rules/climate.yaml: the parameters of the climate models, each group with the publications behind it.

A group of plain numbers is read into the dataclass that holds them, field by field: a number that is missing or that
the dataclass does not know stops the start with file, line and name.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import MISSING, fields
from pathlib import Path
from typing import TypeVar

from service.domain.climate import WinterWindow
from service.domain.climate_models import (
    ChillClasses,
    ChillHours,
    ChillLine,
    ChillLines,
    ClimateModels,
    DayCurve,
    Evapotranspiration,
    FrostRule,
    HeatCurve,
    Midwinter,
    Plausible,
    PortionModel,
    SafeRule,
    Seasons,
    Sun,
    Zones,
)
from service.domain.month_day import MonthDay, read_month_day
from service.knowledge.bud_kill import read_bud_kill
from service.knowledge.entry import Entry, read_file
from service.knowledge.model_sources import read_model_sources

FILE = "climate.yaml"
MODELS = (
    "hours_at_or_below_45f",
    "hours_32_45f",
    "utah",
    "positive_utah",
    "dynamic_model",
    "growing_degree_hours",
    "day_length",
    "hourly_from_daily",
    "hardiness_zones",
    "frost",
    "safe_chill",
    "chill_from_monthly_means",
    "seasons",
    "evapotranspiration",
    "plausible",
)
_ABOUT = ("meaning", "source", "basis")
T = TypeVar("T")


def read_climate(folder: Path, sources: Collection[str]) -> ClimateModels:
    """The models in a rules folder; every publication cited must be among `sources`."""
    top = read_file(folder, FILE, sources)
    top.known(MODELS)
    of = {name: _model(top, name) for name in MODELS}
    utah = _classes(of["utah"])
    _only(of["positive_utah"], "least_units")
    return ClimateModels(
        hours_at_or_below_45f=_numbers(of["hours_at_or_below_45f"], ChillHours),
        hours_32_45f=_numbers(of["hours_32_45f"], ChillHours),
        utah=utah,
        positive_utah=utah.floored(_number(of["positive_utah"], "least_units")),
        portions=_numbers(of["dynamic_model"], PortionModel),
        heat=_numbers(of["growing_degree_hours"], HeatCurve),
        sun=_sun(of["day_length"]),
        day_curve=_numbers(of["hourly_from_daily"], DayCurve),
        zones=_numbers(of["hardiness_zones"], Zones),
        frost=_numbers(of["frost"], FrostRule),
        safe=_numbers(of["safe_chill"], SafeRule),
        lines=_lines(of["chill_from_monthly_means"]),
        plausible=_plausible(of["plausible"]),
        seasons=_seasons(of["seasons"]),
        evapotranspiration=_numbers(of["evapotranspiration"], Evapotranspiration),
        bud_kill=read_bud_kill(folder, sources),
        sources={name: read_model_sources(entry, name) for name, entry in of.items()},
    )


def _model(top: Entry, name: str) -> Entry:
    entry = top.inner(name)
    if entry is None:
        top.fail(f"the model “{name}” is missing")
    entry.name = name
    entry.text("meaning")
    return entry


def _number(entry: Entry, key: str) -> float:
    value = entry.number(key)
    return value if value is not None else entry.fail(f"the number “{key}” is missing")


def _only(entry: Entry, *keys: str) -> None:
    entry.known((*keys, *_ABOUT))


def _numbers(entry: Entry, kind: type[T], *, texts: tuple[str, ...] = ()) -> T:
    known = {field.name: field.default is MISSING for field in fields(kind)}  # type: ignore[arg-type]
    _only(entry, *known)
    wanted = [name for name, needed in known.items() if needed or name in entry.mapping]
    return kind(**{name: entry.text(name) if name in texts else _number(entry, name) for name in wanted})


def _classes(entry: Entry) -> ChillClasses:
    _only(entry, "classes")
    rows = list(entry.each("classes"))
    for row in rows:
        row.known(("up_to_c", "units"))
    edges = tuple(_number(row, "up_to_c") for row in rows[:-1])
    try:
        return ChillClasses(edges, tuple(_number(row, "units") for row in rows))
    except ValueError as fault:
        entry.fail(str(fault), "classes")


def _sun(entry: Entry) -> Sun:
    _only(entry, "declination", "horizon_deg", "latitude_limit_deg")
    terms = entry.mapping.get("declination")
    if not isinstance(terms, list) or len(terms) != 7 or not all(isinstance(term, float) for term in terms):
        entry.fail("“declination” must be a list of seven numbers", "declination")
    return Sun(tuple(terms), _number(entry, "horizon_deg"), _number(entry, "latitude_limit_deg"))


def _lines(entry: Entry) -> ChillLines:
    _only(entry, "lines", "from_f", "to_f", "bias")
    lines = tuple(_numbers(row, ChillLine, texts=("name",)) for row in entry.each("lines"))
    if not lines:
        entry.fail("“lines” must hold at least one line", "lines")
    return ChillLines(lines, _number(entry, "from_f"), _number(entry, "to_f"), entry.text("bias"))


def _plausible(entry: Entry) -> Plausible:
    numbers = ("lowest_c", "highest_c", "summer_mean_maximum_c", "days_of_a_month", "few_days_c",
               "seasons_from_latitude_deg")  # fmt: skip
    _only(entry, *numbers, "midwinters")
    bounds: Mapping[str, float] = {name: _number(entry, name) for name in numbers}
    midwinters = tuple(_numbers(row, Midwinter) for row in entry.each("midwinters"))
    if not midwinters or midwinters[0].latitude_from_deg != 0:
        entry.fail("“midwinters” must begin with latitude_from_deg: 0", "midwinters")
    return Plausible(midwinters=midwinters, **bounds)


def _seasons(entry: Entry) -> Seasons:
    _only(entry, "winter", "midwinter", "year")
    return Seasons(*(_window(entry, name) for name in ("winter", "midwinter", "year")))


def _window(entry: Entry, key: str) -> WinterWindow:
    inner = entry.inner(key)
    if inner is None:
        entry.fail(f"the window “{key}” is missing")
    inner.known(("from", "to"))
    return WinterWindow(_month_day(inner, "from"), _month_day(inner, "to"))


def _month_day(entry: Entry, key: str) -> MonthDay:
    try:
        return read_month_day(entry.text(key))
    except ValueError as fault:
        entry.fail(str(fault), key)
