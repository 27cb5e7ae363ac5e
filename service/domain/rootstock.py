"""What is known of one rootstock, or of a tree on its own roots."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from service.domain.provenance import Span, Stated

Staking = Literal["permanent", "while_young", "none"]
Cold = Literal["tender", "moderate", "hardy", "very_hardy"]
Tolerance = Literal["tolerates", "dislikes"]
Strength = Literal["resistant", "tolerant", "moderate", "susceptible"]
Precocity = Literal["very_precocious", "precocious", "moderate", "slow"]


@dataclass(frozen=True, slots=True)
class Rootstock:
    """One rootstock by its denomination; sizes in percent of a tree on seedling roots, lengths in feet."""

    id: str
    name: str
    crops: tuple[str, ...]
    synonyms: tuple[str, ...] = ()
    parentage: Stated[str] | None = None
    size_percent: Stated[Span] | None = None
    size_note: Stated[str] | None = None
    height_ft: Stated[Span] | None = None
    spacing_ft: Stated[Span] | None = None
    staking: Stated[Staking] | None = None
    staking_as_stated: Stated[str] | None = None
    precocity: Stated[Precocity] | None = None
    precocity_as_stated: Stated[str] | None = None
    years_to_bear: Stated[Span] | None = None
    cold_hardiness: Stated[Cold] | None = None
    wet_soil: Stated[Tolerance] | None = None
    lime_soil: Stated[Tolerance] | None = None
    dry_soil: Stated[Tolerance] | None = None
    soil_as_stated: Stated[str] | None = None
    suckering: Stated[str] | None = None
    fire_blight: Stated[Strength] | None = None
    crown_rot: Stated[Strength] | None = None
    replant_disease: Stated[Strength] | None = None
    woolly_apple_aphid: Stated[Strength] | None = None
    root_knot_nematode: Stated[Strength] | None = None
    bacterial_canker: Stated[Strength] | None = None
    incompatible_cultivars: Stated[tuple[str, ...]] | None = None
    compatibility_as_stated: Stated[str] | None = None
    remarks: tuple[Stated[str], ...] = ()
    sources: tuple[str, ...] = ()
