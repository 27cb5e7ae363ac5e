"""How far the heat of the season has brought the insects that somebody counts degree days for."""

from __future__ import annotations

from service.compute.degree_days import degree_days
from service.domain.insect_clock import ByHeat, InsectClock
from service.domain.sick_tree import InsectHeat
from service.questions.diagnosis.days import between, daily_f
from service.questions.diagnosis.question import DiagnosisQuestion
from service.reasoning.rulebook import Rulebook


def by_heat(question: DiagnosisQuestion, rulebook: Rulebook) -> dict[str, ByHeat]:
    """Where each insect stands of which degree days were told, or can be counted from the temperatures of the place."""
    clocks, told = rulebook.catalogue.diagnosis.insect_clocks, question.tree.weather.insect_heat
    counted = {one.disorder: _f_days(one, clocks[one.disorder], question) for one in told if one.disorder in clocks}
    return {name: clocks[name].standing(f_days) for name, f_days in counted.items() if f_days is not None}


def _f_days(heat: InsectHeat, clock: InsectClock, question: DiagnosisQuestion) -> float | None:
    """Degree days as told, or summed from the day on which they start up to the day that is asked about."""
    if heat.f_days is not None or heat.since is None or question.date is None or question.climate is None:
        return heat.f_days
    days = daily_f(question.climate.reading.series)
    if days is None:
        return None
    low, high = (between(days[0], each, since=heat.since, until=question.date) for each in days[1:])
    if low is None or high is None:
        return None
    return float(degree_days((low, high), (clock.lower_f, clock.upper_f)).sum())
