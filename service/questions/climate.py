"""What climate does this place have? From a series of temperatures to chill, cold and frost.

The sums are in compute/, the parameters in rules/climate.yaml; this file joins them and says what the series cannot
carry.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import numpy as np

from service.compute.monthly import chill_from_mean, mean_of, months_of
from service.compute.winters import southern_window
from service.domain.climate import ChillEstimate, ClimateSummary, ModelSource, WinterWindow
from service.domain.climate_models import ChillLine, ClimateModels
from service.domain.errors import NotUnderstood
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans, Reading, fahrenheit
from service.questions.climate_chill import count_chill, hours_of_days, safe_chill
from service.questions.climate_cold import daily_minima, frost_days, winter_cold
from service.questions.climate_doubts import doubts_about, gaps_in

_MIDWINTER_NORTH, _MIDWINTER_SOUTH = 1, 7
_MODELS_OF_DAYS = ("day_length", "hourly_from_daily")
_MODELS_OF_HOURS = (
    "hours_at_or_below_45f", "hours_32_45f", "utah", "positive_utah", "dynamic_model", "hardiness_zones", "frost",
    "safe_chill",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ClimateQuestion:
    """Temperatures taken at a latitude (degrees, south negative); without a winter the usual one is taken."""

    latitude: float
    reading: Reading
    winter: WinterWindow | None = None

    @property
    def southern(self) -> bool:
        """Whether the seasons are those of the southern hemisphere."""
        return self.latitude < 0


def summarise_climate(question: ClimateQuestion, models: ClimateModels) -> ClimateSummary:
    """The climate that the series shows; raises NotUnderstood where the question cannot be answered."""
    series = question.reading.series
    if isinstance(series, MonthlyMeans):
        return _from_months(question, series, models)
    if isinstance(series, DailySeries) and abs(question.latitude) > models.sun.latitude_limit_deg:
        raise NotUnderstood(("/latitude", _too_far(models.sun.latitude_limit_deg)))
    return _from_series(question, series, models)


def _too_far(limit: float) -> str:
    return (
        f"beyond {limit:g} degrees there are days without sunrise or sunset, and hours cannot be worked out from daily"
        " extremes; give hourly temperatures"
    )


def _window(question: ClimateQuestion, models: ClimateModels) -> WinterWindow:
    if question.winter is not None:
        return question.winter
    return southern_window(models.seasons.winter) if question.southern else models.seasons.winter


def _from_series(
    question: ClimateQuestion, series: HourlySeries | DailySeries, models: ClimateModels
) -> ClimateSummary:
    window = _window(question, models)
    hours = series if isinstance(series, HourlySeries) else hours_of_days(series, question.latitude, models)
    winters = count_chill(hours, window, southern=question.southern, models=models)
    minima = daily_minima(series, models.safe)
    cold = winter_cold(minima, southern=question.southern, models=models)
    spring, autumn = frost_days(minima, southern=question.southern, models=models)
    first, last = _ends(series)
    summary = ClimateSummary(
        latitude=question.latitude,
        reading=question.reading,
        first_day=first,
        last_day=last,
        window=window,
        winters=winters,
        safe_chill=safe_chill(winters, models.safe),
        estimate=None,
        cold=cold,
        spring_frost=spring,
        autumn_frost=autumn,
        gaps=gaps_in(series),
        warnings=(),
        sources=_sources(series, models),
    )
    return doubts_about(summary, models)


def _ends(series: HourlySeries | DailySeries) -> tuple[date, date]:
    days = series.min_c.size if isinstance(series, DailySeries) else series.temp_c.size // 24
    first, last = series.first_day, series.first_day + np.timedelta64(days - 1, "D")
    return first.astype(date), last.astype(date)


def _sources(series: HourlySeries | DailySeries, models: ClimateModels) -> tuple[ModelSource, ...]:
    of_days = _MODELS_OF_DAYS if isinstance(series, DailySeries) else ()
    return tuple(cited for name in (*of_days, *_MODELS_OF_HOURS) for cited in models.sources[name])


def _from_months(question: ClimateQuestion, months: MonthlyMeans, models: ClimateModels) -> ClimateSummary:
    summary = ClimateSummary(
        latitude=question.latitude,
        reading=question.reading,
        first_day=None,
        last_day=None,
        window=_window(question, models),
        winters=(),
        safe_chill=None,
        estimate=_estimate(months, models, midwinter=_MIDWINTER_SOUTH if question.southern else _MIDWINTER_NORTH),
        cold=None,
        spring_frost=None,
        autumn_frost=None,
        gaps=None,
        warnings=(),
        sources=models.sources["chill_from_monthly_means"],
    )
    return doubts_about(summary, models)


def _estimate(months: MonthlyMeans, models: ClimateModels, *, midwinter: int) -> ChillEstimate:
    means_f = {month: float(fahrenheit(mean_c)) for month, mean_c in months.mean_c.items()}
    by_reach = sorted(models.lines.lines, key=lambda line: -line.months_before)
    for line in by_reach:
        mean_f = mean_of(means_f, months_of(line, midwinter=midwinter))
        if mean_f is not None:
            return _on_line(line, mean_f, models)
    name = "January" if midwinter == _MIDWINTER_NORTH else "July"
    raise NotUnderstood(("/monthly", f"chill is estimated from the mean of {name}, which is not among the months"))


def _on_line(line: ChillLine, mean_f: float, models: ClimateModels) -> ChillEstimate:
    known = models.lines
    return ChillEstimate(
        chill_hours=chill_from_mean(mean_f, line),
        line=line.name,
        mean_f=mean_f,
        within_range=known.from_f <= mean_f <= known.to_f,
        bias=known.bias,
    )
