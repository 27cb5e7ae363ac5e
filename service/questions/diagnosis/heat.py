"""How far the heat of the season has brought the insects that somebody counts degree days for."""

from __future__ import annotations

from datetime import date

import numpy as np

from service.compute.degree_days import degree_days
from service.domain.insect_clock import ByHeat, InsectClock
from service.domain.sick_tree import InsectHeat
from service.domain.weather import DailySeries, Floats, HourlySeries, fahrenheit
from service.questions.diagnosis.question import DiagnosisQuestion
from service.reasoning.rulebook import Rulebook

_HOURS = 24


def by_heat(question: DiagnosisQuestion, rulebook: Rulebook) -> dict[str, ByHeat]:
    """Where each insect stands of which degree days were told, or can be counted from the temperatures of the place."""
    clocks, told = rulebook.catalogue.diagnosis.insect_clocks, question.tree.weather.insect_heat
    counted = {one.disorder: _f_days(one, clocks[one.disorder], question) for one in told if one.disorder in clocks}
    return {name: clocks[name].standing(f_days) for name, f_days in counted.items() if f_days is not None}


def _f_days(heat: InsectHeat, clock: InsectClock, question: DiagnosisQuestion) -> float | None:
    """Degree days as told, or summed from the day on which they start up to the day that is asked about."""
    if heat.f_days is not None or heat.since is None or question.date is None or question.climate is None:
        return heat.f_days
    days = _daily_f(question.climate.reading.series)
    if days is None:
        return None
    low, high = (_between(days[0], each, heat.since, question.date) for each in days[1:])
    if low is None or high is None:
        return None
    return float(degree_days((low, high), (clock.lower_f, clock.upper_f)).sum())


def _daily_f(series: object) -> tuple[np.datetime64, Floats, Floats] | None:
    """The first day, and the lowest and highest temperature of each day; None where only months are known."""
    if isinstance(series, DailySeries):
        return series.first_day, np.asarray(fahrenheit(series.min_c)), np.asarray(fahrenheit(series.max_c))
    if isinstance(series, HourlySeries):
        hours = np.asarray(fahrenheit(series.temp_c)).reshape(-1, _HOURS)
        return series.first_day, hours.min(axis=1), hours.max(axis=1)
    return None


def _between(first_day: np.datetime64, each: Floats, since: date, until: date) -> Floats | None:
    """The days from `since` up to, but not with, `until`; None where one of them was not read."""
    start = int((np.datetime64(since, "D") - first_day.astype("datetime64[D]")).astype(int))
    end = start + (until - since).days
    found = each[start:end] if 0 <= start < end <= each.size else each[:0]
    return found if found.size and not np.isnan(found).any() else None
