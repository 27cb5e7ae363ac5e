"""A climate summary as plain data: what was read, the winters, the safe chill, cold and frost, and every doubt."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.domain.climate import Chill, ChillEstimate, ClimateSummary, FrostDay, Gaps, ModelSource, Winter
from service.domain.month_day import MonthDay
from service.domain.source import Source
from service.present.advice import Advice
from service.present.sentences import Sentences
from service.reasoning.rulebook import Rulebook

UNIT_NAMES = {"f": "°F", "c": "°C", "tenths_c": "tenths of °C"}


def climate_advice(summary: ClimateSummary, *, rulebook: Rulebook) -> dict[str, Any]:
    """The whole answer to a climate question; no rule judges it, so nothing is concluded."""
    answer = climate_answer(summary, sources=rulebook.sources)
    return Advice(rulebook, Sentences(rulebook)).envelope(answer, concluded=(), not_judged=())


def climate_answer(summary: ClimateSummary, *, sources: Mapping[str, Source]) -> dict[str, Any]:
    """The summary as the API and the command line show it."""
    return {
        "read": _read(summary),
        "winter": {"from": summary.window.first.text, "to": summary.window.last.text},
        "winters": [_winter(winter) for winter in summary.winters],
        "safe_chill": _safe(summary),
        "chill_estimate": None if summary.estimate is None else _estimate(summary.estimate),
        "hardiness_zone": summary.hardiness_zone,
        "mean_annual_minimum_f": None if summary.cold is None else round(summary.cold.mean_annual_minimum_f, 1),
        "minima": None if summary.cold is None else summary.cold.years,
        "last_spring_frost": _text(summary.last_spring_frost),
        "first_autumn_frost": _text(summary.first_autumn_frost),
        "frosts": {"spring": _frost(summary.spring_frost), "autumn": _frost(summary.autumn_frost)},
        "gaps": None if summary.gaps is None else _gaps(summary.gaps),
        "warnings": list(summary.warnings),
        "sources": [_source(cited, sources[cited.ref]) for cited in summary.sources],
    }


def _read(summary: ClimateSummary) -> dict[str, Any]:
    reading = summary.reading
    return {
        "kind": reading.kind,
        "unit": UNIT_NAMES[reading.unit],
        "rows": reading.rows,
        "empty_rows": reading.empty_rows,
        "repeated_rows": reading.repeated_rows,
        "first_day": None if summary.first_day is None else summary.first_day.isoformat(),
        "last_day": None if summary.last_day is None else summary.last_day.isoformat(),
        "notes": list(reading.notes),
    }


def _chill(chill: Chill) -> dict[str, float]:
    return {
        "chill_hours": round(chill.chill_hours, 1),
        "chill_hours_32_45": round(chill.chill_hours_32_45, 1),
        "utah_units": round(chill.utah_units, 1),
        "positive_utah_units": round(chill.positive_utah_units, 1),
        "chill_portions": round(chill.chill_portions, 2),
    }


def _winter(winter: Winter) -> dict[str, Any]:
    coverage = round(winter.coverage, 4)
    return {"winter": winter.label, **_chill(winter.chill), "coverage": coverage, "counted": winter.counted}


def _safe(summary: ClimateSummary) -> dict[str, Any] | None:
    safe = summary.safe_chill
    return None if safe is None else {**_chill(safe.chill), "winters": safe.winters}


def _estimate(estimate: ChillEstimate) -> dict[str, Any]:
    return {
        "chill_hours": round(estimate.chill_hours),
        "from_means_of": estimate.line,
        "mean_f": round(estimate.mean_f, 1),
        "within_range": estimate.within_range,
        "bias": estimate.bias,
    }


def _text(day: MonthDay | None) -> str | None:
    return None if day is None else day.text


def _frost(frost: FrostDay | None) -> dict[str, Any] | None:
    if frost is None:
        return None
    return {
        "typical": _text(frost.typical),
        "one_in_ten": _text(frost.one_in_ten),
        "years": frost.years,
        "years_without_frost": frost.years_without_frost,
    }


def _gaps(gaps: Gaps) -> dict[str, Any]:
    return {
        "unit": gaps.unit,
        "missing": gaps.missing,
        "of": gaps.of,
        "longest": gaps.longest,
        "longest_from": gaps.longest_from,
    }


def _source(cited: ModelSource, source: Source) -> dict[str, Any]:
    return {
        "model": cited.model,
        "id": source.id,
        "title": source.title,
        "publisher": source.publisher,
        "year": source.year,
        "url": source.url,
        "where": cited.where,
        "from_memory": cited.from_memory,
    }
