"""From hours of temperature to the chill of each winter and to the chill that one may count on."""

from __future__ import annotations

import numpy as np

from service.compute.chill import chill_hours, chill_units
from service.compute.day_length import sun_times
from service.compute.dynamic_model import chill_portions
from service.compute.hourly import Daylight, hourly_temperatures
from service.compute.winters import coverage_of, exceeded_by_most, rows_of, spans_of
from service.domain.climate import Chill, SafeChill, Winter, WinterWindow
from service.domain.climate_models import ClimateModels, SafeRule
from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats, HourlySeries

COUNTS = ("chill_hours", "chill_hours_32_45", "utah_units", "positive_utah_units", "chill_portions")


def hours_of_days(days: DailySeries, latitude: float, models: ClimateModels) -> HourlySeries:
    """The hours that the daily extremes of a latitude stand for."""
    dates = days.first_day + np.arange(days.min_c.size)
    day_of_year = (dates - dates.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.float64) + 1.0
    sun = sun_times(latitude, day_of_year, models.sun)
    light = Daylight(sun.sunrise_h, sun.sunset_h)
    return HourlySeries(days.first_day, hourly_temperatures(days, light, models.day_curve))


def count_chill(
    hours: HourlySeries, window: WinterWindow, *, southern: bool, models: ClimateModels
) -> tuple[Winter, ...]:
    """The chill of every winter of which at least an hour was read."""
    days = hours.temp_c.size // HOURS_PER_DAY
    spans = spans_of(window, first_day=hours.first_day, days=days, southern=southern)
    rows = rows_of(hours.temp_c, spans, first_day=hours.first_day, per_day=HOURS_PER_DAY)
    coverage = coverage_of(rows, spans, per_day=HOURS_PER_DAY)
    chill = chill_of_rows(rows, models)
    return tuple(
        Winter(span.label, Chill(*map(float, chill[:, place])), float(share), bool(share >= models.safe.coverage))
        for place, (span, share) in enumerate(zip(spans, coverage, strict=True))
        if share > 0
    )


def chill_of_rows(rows_c: Floats, models: ClimateModels) -> Floats:
    """Each count of chill (down, in the order of `COUNTS`) for each row of hours (across)."""
    return np.stack(
        [
            chill_hours(rows_c, models.hours_at_or_below_45f),
            chill_hours(rows_c, models.hours_32_45f),
            chill_units(rows_c, models.utah),
            chill_units(rows_c, models.positive_utah),
            chill_portions(rows_c, models.portions),
        ]
    )


def safe_chill(winters: tuple[Winter, ...], rule: SafeRule) -> SafeChill | None:
    """The chill that most winters exceed, each count on its own; None where no winter was read far enough."""
    counted = [winter.chill for winter in winters if winter.counted]
    if not counted:
        return None
    totals = ([getattr(chill, name) for chill in counted] for name in COUNTS)
    return SafeChill(Chill(*(exceeded_by_most(np.array(each), rule.quantile) for each in totals)), len(counted))
