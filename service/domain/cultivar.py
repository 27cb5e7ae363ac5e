"""What is known of one cultivar: frozen, each value with its sources, unknown as None."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, get_args

from service.domain.provenance import Span, Stated

Season = Literal["very_early", "early", "early_to_mid", "mid", "mid_to_late", "late", "very_late"]
SEASONS: tuple[Season, ...] = ("very_early", "early", "early_to_mid", "mid", "mid_to_late", "late", "very_late")
SelfFertility = Literal["self_fertile", "partly_self_fertile", "self_sterile", "pollen_sterile", "needs_caprification"]
Resistance = Literal[
    "very_resistant", "resistant", "moderately_resistant", "tolerant", "susceptible", "highly_susceptible"
]
ChillModel = Literal["hours_below_45f", "hours_32_45f", "utah_units", "portions", "not_said", "units_not_said"]
Use = Literal[
    "fresh", "cooking", "storage", "drying", "preserves", "juice_cider", "canning", "freezing", "pickling", "kernel"
]
USES: tuple[Use, ...] = get_args(Use)
Astringency = Literal["astringent", "non_astringent", "pollination_variant"]


@dataclass(frozen=True, slots=True)
class ChillNeed:
    """Winter chill a cultivar asks for; `model` says in which of the published counts.

    `not_said` are hours of which the source names no limits; `units_not_said` are chill units of an unnamed model,
    which are not comparable with hours.
    """

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
    """When the fruit is picked: days from 1 January (1-366) in the northern hemisphere, and where it was noted."""

    from_day: int
    to_day: int
    place: str | None
    as_stated: str


@dataclass(frozen=True, slots=True)
class Offset:
    """Days after (before, if negative) a reference cultivar; `to_days` is the far end where a range is given.

    `reference` is the id of the reference cultivar, or its denomination where the catalogue does not hold it.
    """

    days: float
    reference: str
    to_days: float | None = None


@dataclass(frozen=True, slots=True)
class Cultivar:
    """One cultivar by its denomination. `id` is `<crop>.<slug>`, such as `apple.golden_delicious`.

    `chill_bounds` and `zone_bounds` hold what only limits a value from one side ("thrives where winters total this
    much", "recommended in zone 4"): true of the cultivar, but neither its need nor its limit.
    """

    id: str
    crop: str
    denomination: str
    synonyms: tuple[str, ...] = ()
    species: Stated[str] | None = None
    origin: Stated[str] | None = None
    chill_hours: Stated[ChillNeed] | None = None
    chill_portions: Stated[ChillNeed] | None = None
    chill_bounds: tuple[Stated[ChillNeed], ...] = ()
    hardiness_zone: Stated[Span] | None = None
    zone_bounds: tuple[Stated[Span], ...] = ()
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
    uses: Stated[tuple[Use, ...]] | None = None
    uses_as_stated: Stated[str] | None = None
    habit: Stated[str] | None = None
    height_ft: Stated[Span] | None = None
    astringency: Stated[Astringency] | None = None
    resistance: Mapping[str, Stated[Resistance]] = field(default_factory=dict)
    remarks: tuple[Stated[str], ...] = ()
    sources: tuple[str, ...] = ()
