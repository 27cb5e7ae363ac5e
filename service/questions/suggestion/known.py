"""What the catalogue says of each cultivar, laid out once as facts that hold at every place.

A crop-wide figure stands in where nothing is known of the cultivar itself, and its basis says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any, Literal

from service.domain.crop import Crop
from service.domain.cultivar import ChillNeed, Cultivar
from service.domain.provenance import Span, Stated
from service.reasoning.vocabulary import Value

Measure = Literal["hours", "portions"]
_MEASURES: Mapping[str, Measure | None] = {
    "hours_below_45f": "hours",
    "hours_32_45f": "hours",
    "not_said": "hours",
    "portions": "portions",
    "utah_units": None,
    "units_not_said": None,
}
_RESISTS = ("very_resistant", "resistant")
_SUFFERS = ("susceptible", "highly_susceptible")


@dataclass(frozen=True, slots=True)
class ChillClaim:
    """A published chill need; `measure` is None where it is told in a count that is not compared here."""

    measure: Measure | None
    low: float | None
    high: float | None
    basis: str
    recalled: bool


def stated_values(thing: object) -> Iterator[Stated[object]]:
    """Every stated value of a cultivar, crop or rootstock, those of its tables included."""
    for field in fields(thing):  # type: ignore[arg-type]
        value = getattr(thing, field.name)
        if isinstance(value, Stated):
            yield value
        elif isinstance(value, Mapping):
            yield from (one for one in value.values() if isinstance(one, Stated))


def recalled_share(cultivar: Cultivar) -> float:
    """The share of a cultivar's values that nobody saw in the publication; 0 where nothing is known."""
    marks = [stated.from_memory for stated in stated_values(cultivar)]
    return round(sum(marks) / len(marks), 2) if marks else 0.0


def own_figures(cultivar: Cultivar) -> int:
    """How many of three things are known of the cultivar itself: its chill need, its hardiness, its season."""
    chill = (cultivar.chill_portions, cultivar.chill_hours, *cultivar.chill_bounds)
    zone = (cultivar.hardiness_zone, *cultivar.zone_bounds)
    season = (cultivar.harvest, cultivar.ripening, cultivar.ripening_offset)
    return sum(any(one is not None and one.basis != "crop" for one in of_kind) for of_kind in (chill, zone, season))


def chill_claims(cultivar: Cultivar, crop: Crop) -> tuple[ChillClaim, ...]:
    """The chill needs known of a cultivar in the order in which they are preferred: its own before its crop's.

    "Thrives where winters total this much" is an upper end of its own need, and the lower end stays unknown.
    """
    own = [_claim(stated, "cultivar") for stated in (cultivar.chill_portions, cultivar.chill_hours)]
    within = [_claim(stated, "cultivar") for stated in cultivar.chill_bounds]
    wide = crop_chill_claims(crop)
    return (*(claim for claim in (*own, *within) if claim is not None), *wide)


def crop_chill_claims(crop: Crop) -> tuple[ChillClaim, ...]:
    """The chill needs known of a crop as a whole."""
    wide = [_claim(stated, "crop") for stated in (crop.chill_portions, crop.chill_hours)]
    return tuple(claim for claim in wide if claim is not None)


def _claim(stated: Stated[ChillNeed] | None, basis: str) -> ChillClaim | None:
    if stated is None:
        return None
    need = stated.value
    measure = _MEASURES[need.model]
    basis = "crop" if stated.basis == "crop" else basis
    return ChillClaim(measure, need.amount.low, need.amount.high, basis, stated.from_memory)


def lasting_facts(cultivar: Cultivar, crop: Crop) -> dict[str, Value]:
    """The facts of a cultivar that no place changes; what is unknown is left out."""
    facts: dict[str, Value | None] = {
        "crop": crop.id,
        "crop.kind": crop.kind,
        "cultivar": cultivar.denomination,
        "cultivar.id": cultivar.id,
        "cultivar.bloom": _value(cultivar.bloom),
        "cultivar.ripening": _value(cultivar.ripening),
        "cultivar.astringency": _value(cultivar.astringency),
        "cultivar.resists": _rated(cultivar, _RESISTS),
        "cultivar.susceptible_to": _rated(cultivar, _SUFFERS),
        "cultivar.recalled_share": recalled_share(cultivar),
        "cultivar.own_figures": own_figures(cultivar),
        **_zone_facts(cultivar, crop),
        **_fertility_facts(cultivar, crop),
    }
    return {name: value for name, value in facts.items() if value is not None}


def _value(stated: Stated[Any] | None) -> str | None:
    return None if stated is None else stated.value


def _rated(cultivar: Cultivar, ratings: tuple[str, ...]) -> tuple[str, ...] | None:
    rated = tuple(sorted(disease for disease, stated in cultivar.resistance.items() if stated.value in ratings))
    return rated or None


def _zone_facts(cultivar: Cultivar, crop: Crop) -> dict[str, Value | None]:
    stated: Stated[Span] | None = cultivar.hardiness_zone or crop.hardiness_zone
    if stated is None:
        return {}
    basis = "crop" if cultivar.hardiness_zone is None or stated.basis == "crop" else "cultivar"
    return {
        "zone.basis": basis,
        "zone.coldest": stated.value.low,
        "zone.warmest": stated.value.high,
        "zone.recalled": stated.from_memory,
    }


def _fertility_facts(cultivar: Cultivar, crop: Crop) -> dict[str, Value | None]:
    stated = cultivar.self_fertility or crop.self_fertility
    ploidy = cultivar.ploidy
    facts: dict[str, Value | None] = {"pollination.triploid": ploidy is not None and ploidy.value == 3}
    if stated is not None:
        own = cultivar.self_fertility is not None and stated.basis != "crop"
        facts["pollination.self_fertility"] = stated.value
        facts["pollination.basis"] = "cultivar" if own else "crop"
    return facts
