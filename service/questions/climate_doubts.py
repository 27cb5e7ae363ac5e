"""What a summary cannot carry, said in sentences: gaps, too few winters, an estimate in place of a count."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from service.domain.climate import ClimateSummary, Gaps
from service.domain.climate_models import ClimateModels
from service.domain.weather import HOURS_PER_DAY, DailySeries, HourlySeries


def gaps_in(series: HourlySeries | DailySeries) -> Gaps:
    """Where nothing was read between the first and the last reading."""
    missing = np.isnan(series.temp_c if isinstance(series, HourlySeries) else series.min_c + series.max_c)
    read = np.flatnonzero(~missing)
    inside = missing[read[0] : read[-1] + 1] if read.size else missing[:0]
    edges = np.flatnonzero(np.diff(np.concatenate(([False], inside, [False])).astype(np.int8)))
    starts, lengths = edges[::2], edges[1::2] - edges[::2]
    longest = int(lengths.max(initial=0))
    at = int(read[0] + starts[lengths.argmax()]) if longest else None
    return Gaps(
        unit="hours" if isinstance(series, HourlySeries) else "days",
        missing=int(inside.sum()),
        of=int(inside.size),
        longest=longest,
        longest_from=_moment(series, at),
    )


def _moment(series: HourlySeries | DailySeries, at: int | None) -> str | None:
    if at is None:
        return None
    if isinstance(series, DailySeries):
        return str(series.first_day + np.timedelta64(at, "D"))
    day, hour = divmod(at, HOURS_PER_DAY)
    return f"{series.first_day + np.timedelta64(day, 'D')}T{hour:02d}:00"


def doubts_about(summary: ClimateSummary, models: ClimateModels) -> ClimateSummary:
    """The summary with a warning for everything that weakens it."""
    found = _about_estimate(summary, models) if summary.estimate else _about_series(summary, models)
    return replace(summary, warnings=(*summary.warnings, *found))


def _about_estimate(summary: ClimateSummary, models: ClimateModels) -> Iterator[str]:
    estimate = summary.estimate
    if estimate is None:
        return
    yield (
        "The chill is an estimate from monthly means, not a count, and it says what a middling winter gives, not what"
        " one may count on. " + estimate.bias
    )
    if not estimate.within_range:
        yield (
            f"The mean of {estimate.mean_f:.0f} °F lies outside {models.lines.from_f:g} to {models.lines.to_f:g} °F,"
            " where such a line is of use."
        )


def _about_series(summary: ClimateSummary, models: ClimateModels) -> Iterator[str]:
    wanted, left_out = models.safe.winters_wanted, [winter.label for winter in summary.winters if not winter.counted]
    if left_out:
        yield (
            f"Left out of the safe chill, because less than {models.safe.coverage:.0%} of the winter was read: "
            + ", ".join(left_out) + "."
        )
    counted = len(summary.counted_winters)
    if not counted:
        yield "No winter was read far enough for a safe chill figure."
    elif counted < wanted:
        yield f"The safe chill rests on {_many(counted, 'winter')}; with fewer than {wanted} it may be far off."
    yield from _about_cold(summary, models)


def _about_cold(summary: ClimateSummary, models: ClimateModels) -> Iterator[str]:
    wanted = models.safe.winters_wanted
    if summary.cold is None:
        yield "No midwinter was read far enough for a hardiness zone."
    elif summary.cold.years < wanted:
        yield (
            f"The hardiness zone rests on {_many(summary.cold.years, 'winter')}; the map rests on"
            f" {models.zones.years_of_map:g} years, and a station is not the map."
        )
    for name, frost in (("last spring frost", summary.spring_frost), ("first autumn frost", summary.autumn_frost)):
        if frost is None:
            yield f"No season was read far enough for the {name}."
        elif frost.years < wanted:
            yield f"The {name} rests on {_many(frost.years, 'year')}; with fewer than {wanted} it may be far off."


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
