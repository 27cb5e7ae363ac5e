"""The climate models against a plain loop in C, by hand: python tests/benchmarks/climate_against_c.py

Thirty years of made-up hourly temperatures, one row a winter. Compiles climate_loop.c with the compiler at hand, checks
that both give the same figures, and prints for each model the CPU time of both (median over rounds in turn, so that
other work on the machine weighs on both alike) and their ratio. Wanted: a ratio of at most 2, for the chill portions 3.
"""

from __future__ import annotations

import ctypes
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import astuple, dataclass
from pathlib import Path
from statistics import median

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from service.compute.chill import chill_hours, chill_units
from service.compute.dynamic_model import chill_portions
from service.compute.heat import growing_degree_hours
from service.domain.climate_models import ChillClasses, ChillHours, ClimateModels
from service.domain.weather import DailySeries, Floats, celsius
from service.knowledge.climate import read_climate
from service.knowledge.source_file import read_sources
from service.questions.climate_chill import hours_of_days
from service.settings import CHECKOUT

HERE = Path(__file__).parent
LATITUDE, WINTERS, ROUNDS = 40.0, 30, 15
LENGTHS = {"winters of 121 days": 121, "whole years": 365}
_ROW = np.ctypeslib.ndpointer(dtype=np.float64, flags="C_CONTIGUOUS")


@dataclass(frozen=True)
class Race:
    """One model in both tongues."""

    name: str
    ours: Callable[[], Floats]
    theirs: Callable[[], Floats]
    wanted: float


def main() -> None:
    """Print a table for each length of the rows."""
    models = read_climate(CHECKOUT / "rules", read_sources(CHECKOUT / "rules"))
    with tempfile.TemporaryDirectory() as folder:
        loop = compiled(Path(folder))
        for name, days in LENGTHS.items():
            print(f"\n{WINTERS} {name}, {WINTERS * days * 24:,} hours")
            print(f"{'model':<24}{'ours ms':>9}{'C ms':>9}{'ratio':>8}{'wanted':>8}")
            show(list(races(loop, models, days)))


def compiled(folder: Path) -> ctypes.CDLL:
    """The loop as a library, at the optimisation that most packages are built with."""
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None:
        sys.exit("a C compiler is needed: install the package gcc")
    library = folder / "climate_loop.so"
    source = HERE / "climate_loop.c"
    subprocess.run([compiler, "-O2", "-shared", "-fPIC", "-o", library, source, "-lm"], check=True)
    return ctypes.CDLL(str(library))


def made_up(days: int) -> tuple[Floats, DailySeries]:
    """Hours of a winter or year with warm and cold spells, one row a winter, and daily extremes as long."""
    rng = np.random.default_rng(1)
    day, hour = np.divmod(np.arange(days * 24), 24)
    season = 12 - 10 * np.cos(2 * np.pi * (day - 75) / 365)
    spells = np.repeat(rng.normal(0, 3.5, (WINTERS, days)), 24, axis=1)
    rows = season + 5 * np.sin(2 * np.pi * (hour - 9) / 24) + spells
    low, high = (pick(rows.reshape(-1, 24), axis=1) for pick in (np.min, np.max))
    return rows, DailySeries(np.datetime64("1991-11-01"), low, high)


def races(loop: ctypes.CDLL, models: ClimateModels, days: int) -> Iterator[Race]:
    """Every model on the same hours."""
    rows, daily = made_up(days)
    cold, cool, utah, positive = models.hours_at_or_below_45f, models.hours_32_45f, models.utah, models.positive_utah
    of_rows = {
        "hours at or below 45 °F": (lambda: chill_hours(rows, cold), "hours_between", _limits(cold)),
        "hours 32-45 °F": (lambda: chill_hours(rows, cool), "hours_between", _limits(cool)),
        "Utah units": (lambda: chill_units(rows, utah), "units", _classes(utah)),
        "positive Utah units": (lambda: chill_units(rows, positive), "units", _classes(positive)),
        "growing degree hours": (lambda: growing_degree_hours(rows, models.heat), "heat", astuple(models.heat)),
        "chill portions": (lambda: chill_portions(rows, models.portions), "portions", astuple(models.portions)),
    }
    for name, (ours, function, constants) in of_rows.items():
        theirs = _over_rows(getattr(loop, function), rows, np.array(constants, dtype=np.float64))
        yield Race(name, ours, theirs, 3.0 if function == "portions" else 2.0)
    by_the_hour = _hourly(loop, daily, models)
    yield Race("hours from days", lambda: hours_of_days(daily, LATITUDE, models).temp_c, by_the_hour, 2.0)


def _limits(model: ChillHours) -> tuple[float, float]:
    low = -np.inf if model.low_f is None else float(celsius(model.low_f))
    return low, float(celsius(model.high_f))


def _classes(model: ChillClasses) -> tuple[float, ...]:
    return (len(model.edges_c), *model.edges_c, *model.units)


def _over_rows(function: Callable[..., None], rows: Floats, constants: Floats) -> Callable[[], Floats]:
    out = np.empty(len(rows))
    function.argtypes = [_ROW, ctypes.c_long, ctypes.c_long, _ROW, _ROW]  # type: ignore[attr-defined]

    def run() -> Floats:
        function(rows, *rows.shape, constants, out)
        return out

    return run


def _hourly(loop: ctypes.CDLL, daily: DailySeries, models: ClimateModels) -> Callable[[], Floats]:
    dates = daily.first_day + np.arange(daily.min_c.size)
    day_of_year = (dates - dates.astype("datetime64[Y]")).astype("timedelta64[D]").astype(np.float64) + 1
    sun = np.array([*models.sun.declination, models.sun.horizon_deg, LATITUDE])
    out, function = np.empty(daily.min_c.size * 24), loop.hourly
    function.argtypes = [_ROW, _ROW, _ROW, ctypes.c_long, _ROW, ctypes.c_double, _ROW]

    def run() -> Floats:
        beyond_h = models.day_curve.sine_beyond_day_h
        function(daily.min_c, daily.max_c, day_of_year, daily.min_c.size, sun, beyond_h, out)
        return out

    return run


def show(all_races: list[Race]) -> None:
    """Check each pair for the same figures, time it, and print it; then the sum of all."""
    totals = np.zeros(2)
    for race in all_races:
        np.testing.assert_allclose(race.ours(), race.theirs(), rtol=1e-9, atol=1e-9, err_msg=race.name)
        pair = np.array(both(race))
        totals += pair
        line(race.name, pair, race.wanted)
    line("all", totals, None)


def both(race: Race) -> tuple[float, float]:
    """Median CPU time of ours and of the loop, in ms."""
    times = [(spent(race.ours), spent(race.theirs)) for _ in range(ROUNDS)]
    return median(ours for ours, _ in times), median(theirs for _, theirs in times)


def spent(run: Callable[[], Floats]) -> float:
    """CPU time of one run, in ms."""
    before = time.process_time_ns()
    run()
    return (time.process_time_ns() - before) / 1e6


def line(name: str, pair: Floats, wanted: float | None) -> None:
    """One row of the table."""
    target = "" if wanted is None else f"{wanted:.0f}"
    print(f"{name:<24}{pair[0]:>9.2f}{pair[1]:>9.2f}{pair[0] / pair[1]:>8.2f}{target:>8}")


if __name__ == "__main__":
    main()
