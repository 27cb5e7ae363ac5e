"""What we know, with who says so: any value of the knowledge as plain data.

One presenter serves crops, cultivars and rootstocks alike: it walks their fields, and the name of a field says the
unit of its value.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from service.domain.cultivar import ChillModel, ChillNeed
from service.domain.provenance import Stated

UNIT_OF: Mapping[str, str] = {
    "chill_hours": "hours",
    "chill_portions": "portions",
    "hardiness_zone": "zone",
    "harvest": "day_of_year",
    "harvest_by_season": "day_of_year",
    "days_bloom_to_harvest": "days",
    "chill_bounds": "hours",
    "zone_bounds": "zone",
    "bloom_offset": "days",
    "ripening_offset": "days",
    "years_to_bear": "years",
    "life_years": "years",
    "size_percent": "percent",
    "ploidy": "count",
}


CHILL_UNIT_OF: Mapping[ChillModel, str] = {
    "utah_units": "chill units",
    "units_not_said": "chill units",
    "portions": "portions",
}


def known(thing: Any) -> dict[str, Any]:
    """A crop, a cultivar or a rootstock as plain data; what nobody knows is null."""
    return {item.name: _told(getattr(thing, item.name), unit_of(item.name)) for item in fields(thing)}


def unit_of(name: str) -> str | None:
    """The unit of a field by its name; None where it is no quantity.

    >>> unit_of("height_ft"), unit_of("chill_hours"), unit_of("species")
    ('ft', 'hours', None)
    """
    return "ft" if name.endswith("_ft") else UNIT_OF.get(name)


def _told(value: Any, unit: str | None) -> Any:
    if isinstance(value, Stated):
        return stated(value, unit)
    if isinstance(value, Mapping):
        return {key: _told(inner, unit) for key, inner in value.items()}
    if isinstance(value, tuple):
        return [_told(inner, unit) for inner in value]
    return plain(value)


def stated(value: Stated[Any], unit: str | None = None) -> dict[str, Any]:
    """A value with its unit and its provenance; a chill need says itself what it is counted in."""
    if isinstance(value.value, ChillNeed):
        unit = CHILL_UNIT_OF.get(value.value.model, "hours")
    return {
        "value": plain(value.value),
        "unit": unit,
        "sources": list(value.sources),
        "from_memory": value.from_memory,
        "basis": value.basis,
        "note": value.note,
        "others": [stated(other, unit) for other in value.others],
    }


def plain(value: Any) -> Any:
    """A value of the trade as plain data.

    >>> from service.domain.provenance import Span
    >>> plain((Span(4, 8.5), "scab"))
    [{'low': 4, 'high': 8.5}, 'scab']
    """
    if is_dataclass(value):
        return {item.name: plain(getattr(value, item.name)) for item in fields(value)}
    if isinstance(value, Mapping):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, (tuple, list)):
        return [plain(inner) for inner in value]
    return value
