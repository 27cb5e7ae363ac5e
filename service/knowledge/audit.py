"""How good the knowledge is: for each crop, what was recalled, what rests on one source, and what nobody says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType

from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.provenance import Stated
from service.domain.rootstock import Rootstock
from service.knowledge.catalogue import Catalogue

ASKED_FOR: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "chill": ("chill_hours", "chill_portions"),
        "hardiness_zone": ("hardiness_zone",),
        "self_fertility": ("self_fertility",),
        "bloom": ("bloom", "bloom_offset"),
        "ripening": ("ripening", "ripening_offset", "harvest"),
        "uses": ("uses",),
        "resistance": ("resistance",),
    }
)


@dataclass(frozen=True, slots=True)
class CropAudit:
    """What is known of one crop and its cultivars; `unknown` counts the cultivars of which nobody says a thing.

    `crop_wide` names what the crop's own figure stands in for.
    """

    crop: str
    cultivars: int
    values: int
    recalled: int
    single_sourced: int
    disputed: int
    unknown: Mapping[str, int]
    crop_wide: tuple[str, ...]


def audit(catalogue: Catalogue) -> tuple[CropAudit, ...]:
    """One audit for each crop, in the order of the catalogue."""
    return tuple(_audit_crop(crop, catalogue.cultivars_of(crop.id)) for crop in catalogue.crops.values())


def stated_values(thing: Crop | Cultivar | Rootstock) -> Iterator[tuple[str, Stated[object]]]:
    """Every value with provenance that a thing holds, with the name of its field."""
    for each in fields(thing):
        held = getattr(thing, each.name)
        values = held.values() if isinstance(held, Mapping) else held if isinstance(held, tuple) else (held,)
        yield from ((each.name, value) for value in values if isinstance(value, Stated))


def _audit_crop(crop: Crop, cultivars: tuple[Cultivar, ...]) -> CropAudit:
    things: list[Crop | Cultivar] = [crop, *cultivars]
    values = [value for thing in things for _, value in stated_values(thing)]
    return CropAudit(
        crop=crop.id,
        cultivars=len(cultivars),
        values=len(values),
        recalled=sum(value.from_memory for value in values),
        single_sourced=sum(len(value.sources) == 1 for value in values),
        disputed=sum(bool(value.others) for value in values),
        unknown=MappingProxyType({asked: _unknown(cultivars, names) for asked, names in ASKED_FOR.items()}),
        crop_wide=tuple(
            asked for asked, names in ASKED_FOR.items() if any(getattr(crop, name, None) for name in names)
        ),
    )


def _unknown(cultivars: tuple[Cultivar, ...], names: tuple[str, ...]) -> int:
    return sum(not any(getattr(cultivar, name) for name in names) for cultivar in cultivars)
