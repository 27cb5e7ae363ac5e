"""Weather for the outside checks: two real files that test libraries ship, a made-up wave, and our own models.

- Seattle, daily 2012-2015 (`seattle-weather.csv` of the package vega_datasets; NOAA, public domain).
- Greensboro NC, hourly, a typical year whose months come from different years (`723170TYA.CSV` of the package pvlib;
  NREL TMY3, US Government).
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import numpy as np

from service.domain.climate_models import ClimateModels
from service.domain.weather import DailySeries, Floats, HourlySeries
from service.knowledge.climate import read_climate
from service.knowledge.source_file import read_sources

RULES = Path(__file__).parents[2] / "rules"
SEATTLE_LATITUDE, GREENSBORO_LATITUDE = 47.45, 36.1
JANUARY_AND_FEBRUARY_H = 59 * 24


def package_file(package: str, *parts: str) -> Path:
    """A data file inside an installed package."""
    spec = find_spec(package)
    assert spec is not None, f"the package {package} is not installed"
    return Path(str(spec.origin)).parent.joinpath(*parts)


@cache
def models() -> ClimateModels:
    """The models as rules/climate.yaml holds them."""
    return read_climate(RULES, read_sources(RULES))


@cache
def seattle() -> DailySeries:
    """Daily extremes of Seattle, 2012-2015, °C."""
    rows = _table(package_file("vega_datasets", "_data", "seattle-weather.csv"))
    low, high = (np.array([float(row[name]) for row in rows]) for name in ("temp_min", "temp_max"))
    return DailySeries(np.datetime64("2012-01-01"), low, high)


@cache
def seattle_normals_f() -> Floats:
    """Hourly normals of Seattle, labelled 2010, °F; one hour of March is missing."""
    rows = _table(package_file("vega_datasets", "_data", "seattle-temps.csv"))
    return np.array([float(row["temp"]) for row in rows])


@cache
def greensboro_c() -> Floats:
    """8760 hourly dry-bulb temperatures of a typical year in Greensboro, °C, from 1 January on."""
    lines = package_file("pvlib", "data", "723170TYA.CSV").read_text(encoding="latin-1").splitlines()
    return np.array([float(row["Dry-bulb (C)"]) for row in csv.DictReader(lines[1:])])


def greensboro_winter() -> HourlySeries:
    """The same year laid out so that one whole winter stands in a row: July to December, then January to June."""
    half = 181 * 24
    year = greensboro_c()
    return HourlySeries(np.datetime64("2012-07-01"), np.concatenate((year[half:], year[:half])))


def wave_c() -> Floats:
    """Sixty days of a sine from -1 to 15 °C, a row for one winter."""
    hour = np.arange(60 * 24)
    return (7.0 + 8.0 * np.sin(2 * np.pi * (hour - 9) / 24))[None, :]


def blocks_c(*parts: tuple[int, float], days: int = 30) -> Floats:
    """Days made of so many hours at one temperature (°C) after another, a row for one winter."""
    day = np.concatenate([np.full(hours, temp_c) for hours, temp_c in parts])
    return np.tile(day, days)[None, :]


def _table(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8") as lines:
        return list(csv.DictReader(lines))
