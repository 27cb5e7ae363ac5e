"""What is known of one cultivar: frozen, each value with its sources, unknown as None."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, Mapping

from service.domain.provenance import Span, Stated

Season = Literal["very_early", "early", "early_to_mid", "mid", "mid_to_late", "late", "very_late"]
SEASONS: tuple[Season, ...] = ("very_early", "early", "early_to_mid", "mid", "mid_to_late", "late", "very_late")
SelfFertility = Literal["self_fertile", "partly_self_fertile", "self_sterile", "pollen_sterile", "needs_caprification"]
Resistance = Literal[
    "very_resistant", "resistant", "moderately_resistant", "tolerant", "susceptible", "highly_susceptible"
]
ChillModel = Literal["hours_below_45f", "hours_32_45f", "utah_units", "portions", "not_said"]


@dataclass(frozen=True, slots=True)
class ChillNeed:
    """Winter chill a cultivar asks for; `model` says in which of the published counts."""

    amount: Span
    model: ChillModel
    as_stated: str | None = None


@dataclass(frozen=True, slots=True)
class SGenotype:
    """S-alleles of a tree. Genotypes of different notations are never compared."""

    alleles: tuple[str, ...]
    notation: str = "numbered"


@dataclass(frozen=True, slots=True)
class HarvestTime:
    """When the fruit is picked. Days count from 1 January (1-366) in the northern hemisphere; `place` is where it was noted."""

    from_day: int
    to_day: int
    place: str | None
    as_stated: str


@dataclass(frozen=True, slots=True)
class Offset:
    """Days after (before, if negative) a reference cultivar of the same crop."""

    days: int
    reference: str


@dataclass(frozen=True, slots=True)
class Cultivar:
    """One cultivar by its denomination. `id` is `<crop>.<slug>`, such as `apple.golden_delicious`."""

    id: str
    crop: str
    denomination: str
    synonyms: tuple[str, ...] = ()
    species: Stated[str] | None = None
    origin: Stated[str] | None = None
    chill_hours: Stated[ChillNeed] | None = None
    chill_portions: Stated[ChillNeed] | None = None
    hardiness_zone: Stated[Span] | None = None
    self_fertility: Stated[SelfFertility] | None = None
    s_genotype: Stated[SGenotype] | None = None
    incompatibility_group: Stated[str] | None = None
    ploidy: Stated[int] | None = None
    bloom: Stated[Season] | None = None
    bloom_offset: Stated[Offset] | None = None
    ripening: Stated[Season] | None = None
    ripening_offset: Stated[Offset] | None = None
    harvest: Stated[HarvestTime] | None = None
    ripening_as_stated: Stated[str] | None = None
    uses: Stated[tuple[str, ...]] | None = None
    uses_as_stated: Stated[str] | None = None
    habit: Stated[str] | None = None
    astringency: Stated[str] | None = None
    resistance: Mapping[str, Stated[Resistance]] = field(default_factory=dict)
    remarks: tuple[Stated[str], ...] = ()
    sources: tuple[str, ...] = ()
