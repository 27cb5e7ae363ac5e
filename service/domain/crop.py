"""What is known of a crop as a whole. A crop-wide figure stands in for a cultivar only when it is marked so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from service.domain.cultivar import ChillNeed, HarvestTime, Season, SelfFertility
from service.domain.provenance import Span, Stated

CropKind = Literal["pome", "stone", "nut", "other"]
TreeSize = Literal["standard", "semi_dwarf", "dwarf"]


@dataclass(frozen=True, slots=True)
class Crop:
    """One crop. `name_es` and `synonyms` are what people call it; ranges that conflict stay in `others`."""

    id: str
    name: str
    name_es: str
    species: Stated[str]
    kind: CropKind
    synonyms: tuple[str, ...] = ()
    chill_hours: Stated[ChillNeed] | None = None
    chill_portions: Stated[ChillNeed] | None = None
    hardiness_zone: Stated[Span] | None = None
    self_fertility: Stated[SelfFertility] | None = None
    partner_crops: Stated[tuple[str, ...]] | None = None
    not_partner_crops: Stated[tuple[str, ...]] | None = None
    incompatible_pairs: tuple[Stated[tuple[str, str]], ...] = ()
    good_pairs: tuple[Stated[tuple[str, str]], ...] = ()
    pollination_distance_ft: Stated[float] | None = None
    height_ft: Stated[Span] | None = None
    spacing_ft: Mapping[TreeSize, Stated[Span]] = field(default_factory=dict)
    close_spacing_ft: Stated[Span] | None = None
    years_to_bear: Mapping[TreeSize, Stated[Span]] = field(default_factory=dict)
    life_years: Mapping[TreeSize, Stated[Span]] = field(default_factory=dict)
    days_bloom_to_harvest: Stated[Span] | None = None
    harvest_by_season: Mapping[Season, Stated[HarvestTime]] = field(default_factory=dict)
    sources: tuple[str, ...] = ()
