"""The place as facts: what was said of it, and what its climate series adds where nothing was said."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from service.compute.warmth import warmest_month_c
from service.domain.climate import ClimateSummary
from service.domain.errors import NotUnderstood
from service.domain.month_day import day_of_season
from service.domain.site import Site, read_zone
from service.domain.weather import fahrenheit
from service.reasoning.vocabulary import Value, Vocabulary

_AS_SAID = (
    "hardiness_zone", "chill_hours", "chill_portions", "chill_basis", "winters", "sun_hours", "drainage", "soil_ph",
    "replant", "summer", "warmest_month_f", "width_ft", "depth_ft", "max_height_ft",
)  # fmt: skip
_YEAR = 365
T = TypeVar("T")


def with_climate(site: Site, climate: ClimateSummary | None) -> Site:
    """The site with its gaps filled from a climate summary; what the customer said of the place stands."""
    said_chill = site.chill_hours is not None or site.chill_portions is not None
    if climate is None:
        return replace(site, chill_basis="given") if said_chill and site.chill_basis is None else site
    filled = replace(
        site,
        latitude=_first(site.latitude, climate.latitude),
        hardiness_zone=_first(site.hardiness_zone, _zone(climate)),
        last_spring_frost=_first(site.last_spring_frost, climate.last_spring_frost),
        first_autumn_frost=_first(site.first_autumn_frost, climate.first_autumn_frost),
        warmest_month_f=_first(site.warmest_month_f, _warmest_month_f(climate)),
    )
    return replace(filled, chill_basis="given") if said_chill else _with_chill(filled, climate)


def _with_chill(site: Site, climate: ClimateSummary) -> Site:
    if climate.estimate is not None:
        return replace(site, chill_hours=climate.estimate.chill_hours, chill_basis="estimate")
    if climate.safe_chill is None:
        return site
    return replace(
        site,
        chill_hours=climate.safe_chill_hours,
        chill_portions=climate.safe_chill_portions,
        chill_basis="series",
        winters=climate.safe_chill.winters,
    )


def _first(said: T | None, found: T | None) -> T | None:
    return found if said is None else said


def _zone(climate: ClimateSummary) -> float | None:
    return None if climate.hardiness_zone is None else read_zone(climate.hardiness_zone)


def _warmest_month_f(climate: ClimateSummary) -> float | None:
    found = warmest_month_c(climate.reading.series, southern=climate.latitude < 0)
    return None if found is None else round(float(fahrenheit(found)), 1)


def site_facts(site: Site) -> dict[str, Value]:
    """What is known of the place, by the names of the vocabulary; what is unknown is left out."""
    facts = {f"site.{name}": getattr(site, name) for name in _AS_SAID}
    facts.update(_frost_facts(site))
    return {name: value for name, value in facts.items() if value is not None}


def _frost_facts(site: Site) -> dict[str, Value | None]:
    spring = None if site.last_spring_frost is None else day_of_season(site.last_spring_frost, southern=site.southern)
    autumn = None if site.first_autumn_frost is None else day_of_season(site.first_autumn_frost, southern=site.southern)
    if spring is not None and autumn is not None and autumn < spring and autumn <= 59:
        autumn = _YEAR  # the first frost of a mild autumn comes after the turn of the year
    free = None if spring is None or autumn is None else max(autumn - spring, 0)
    return {
        "site.last_spring_frost_day": spring,
        "site.first_autumn_frost_day": autumn,
        "site.frost_free_days": free,
    }


def refuse_impossible(facts: Mapping[str, Value], vocabulary: Vocabulary) -> None:
    """NotUnderstood for each figure of the place that lies outside the range the vocabulary gives it."""
    faults = []
    for name, value in facts.items():
        fact = vocabulary.facts[name]
        if fact.type == "number" and isinstance(value, int | float) and not fact.low <= value <= fact.high:
            pointer = f"/site/{name.removeprefix('site.')}"
            faults.append((pointer, f"{value:g} is not between {fact.low:g} and {fact.high:g}"))
    if faults:
        raise NotUnderstood(*faults)


class WinterChill:
    """The chill of the recorded winters, sorted, to say in how large a share of them a need was met."""

    def __init__(self, climate: ClimateSummary | None) -> None:
        winters = () if climate is None else climate.counted_winters
        self._sorted = {
            "hours": sorted(winter.chill_hours for winter in winters),
            "portions": sorted(winter.chill_portions for winter in winters),
        }

    def met_share(self, measure: str, need: float) -> float | None:
        """The share of the recorded winters whose chill was at least the need; None without winters."""
        amounts = self._sorted[measure]
        if not amounts:
            return None
        return round(1 - bisect_left(amounts, need) / len(amounts), 3)
