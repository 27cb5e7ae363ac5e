"""From daily minima to winter cold and to the dates of the frosts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.compute.frost import early_place, first_frosts, last_frosts, late_place
from service.compute.hardiness import annual_minima, hardiness_zone
from service.compute.winters import Span, coverage_of, rows_of, southern_window, spans_of
from service.domain.climate import FrostDay, WinterCold, WinterWindow
from service.domain.climate_models import ClimateModels, FrostRule, SafeRule
from service.domain.month_day import MonthDay
from service.domain.weather import HOURS_PER_DAY, DailySeries, Flags, Floats, HourlySeries, celsius, fahrenheit

_MIDDLING = 0.5
_LEAP_YEAR_NORTH, _LEAP_YEAR_SOUTH = np.datetime64("2003-07-01"), np.datetime64("2004-01-01")
_LEAP_YEAR_DAYS = 366
_LEAP_DAY = np.datetime64("2004-02-29")


@dataclass(frozen=True, slots=True, eq=False)
class DailyMinima:
    """The lowest temperature of each day from `first_day` on, NaN where the day was not read far enough."""

    first_day: np.datetime64
    min_c: Floats

    def rows(self, spans: tuple[Span, ...]) -> Floats:
        """One row of minima for each span."""
        return rows_of(self.min_c, spans, first_day=self.first_day, per_day=1)

    def spans(self, window: WinterWindow, *, southern: bool) -> tuple[Span, ...]:
        """The rounds of a northern window, or of its southern counterpart, that the series touches."""
        turned = southern_window(window) if southern else window
        return spans_of(turned, first_day=self.first_day, days=self.min_c.size, southern=southern)


def daily_minima(series: HourlySeries | DailySeries, rule: SafeRule) -> DailyMinima:
    """The minima of a daily series, or those of the days of an hourly one of which enough hours were read."""
    if isinstance(series, DailySeries):
        return DailyMinima(series.first_day, series.min_c)
    days = series.temp_c.reshape(-1, HOURS_PER_DAY)
    read = np.count_nonzero(~np.isnan(days), axis=1) / HOURS_PER_DAY
    return DailyMinima(series.first_day, np.where(read >= rule.coverage, np.fmin.reduce(days, axis=1), np.nan))


def winter_cold(minima: DailyMinima, *, southern: bool, models: ClimateModels) -> WinterCold | None:
    """The mean of the annual minima, over the winter-centred years whose midwinter was read."""
    midwinters = minima.spans(models.seasons.midwinter, southern=southern)
    covered = coverage_of(minima.rows(midwinters), midwinters, per_day=1) >= models.safe.coverage
    known = {span.label for span, enough in zip(midwinters, covered, strict=True) if enough}
    years = tuple(span for span in minima.spans(models.seasons.year, southern=southern) if span.label in known)
    if not years:
        return None
    mean_f = float(fahrenheit(annual_minima(minima.rows(years)).mean()))
    return WinterCold(mean_f, hardiness_zone(mean_f, models.zones), len(years))


def frost_days(
    minima: DailyMinima, *, southern: bool, models: ClimateModels
) -> tuple[FrostDay | None, FrostDay | None]:
    """The last frost of spring and the first of autumn; None where no year was read far enough to tell."""
    years = minima.spans(models.seasons.year, southern=southern)
    if not years:
        return None, None
    rows, start = minima.rows(years), _LEAP_YEAR_SOUTH if southern else _LEAP_YEAR_NORTH
    is_frost, places = rows <= celsius(models.frost.threshold_f), _places(years, rows.shape[1], start)
    early, late = _halves_read(rows, models.safe)
    firsts, lasts = first_frosts(is_frost, places), last_frosts(is_frost, places)
    half = rows.shape[1] // 2
    spring = _frost_day(lasts[late & (early | (lasts >= half))], models.frost, start, ends=True)
    return spring, _frost_day(firsts[early & (late | (firsts < half))], models.frost, start, ends=False)


def _halves_read(rows: Floats, rule: SafeRule) -> tuple[Flags, Flags]:
    """Whether the half before midwinter, and the half after it, was read far enough in each year."""
    half = rows.shape[1] // 2
    parts = (rows[:, :half], rows[:, half:-1])  # the last day of a leap year is missing in others
    before, after = (np.count_nonzero(~np.isnan(part), axis=1) / part.shape[1] >= rule.coverage for part in parts)
    return before, after


def _places(years: tuple[Span, ...], columns: int, start: np.datetime64) -> Floats:
    """The place of each day in a year of 366 days that begins as these years do."""
    day = np.arange(columns)
    leap_place = int((_LEAP_DAY - start) / np.timedelta64(1, "D"))
    short = np.array([[span.days < _LEAP_YEAR_DAYS] for span in years])
    return (day + (short & (day >= leap_place))).astype(np.float64)


def _frost_day(places: Floats, rule: FrostRule, start: np.datetime64, *, ends: bool) -> FrostDay | None:
    if not places.size:
        return None
    pick = late_place if ends else early_place
    middling, cautious = (_month_day(pick(places, share), start) for share in (_MIDDLING, rule.cautious_share))
    return FrostDay(middling, cautious, places.size, int(np.count_nonzero(np.isnan(places))))


def _month_day(place: int | None, start: np.datetime64) -> MonthDay | None:
    if place is None:
        return None
    day = (start + np.timedelta64(place, "D")).astype(object)
    return MonthDay(day.month, day.day)
