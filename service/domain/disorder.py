"""What can be wrong with a tree: disease, pest, animal, want, weather or care, and how it is told from the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, get_args

from service.domain.cut import Wording

DisorderKind = Literal[
    "abiotic", "bacterium", "cultural", "fungus", "insect", "mite", "nematode", "nutrient", "oomycete", "phytoplasma",
    "phytoplasma_and_virus", "vertebrate", "virus", "yeast_and_bacteria",
]  # fmt: skip
DISORDER_KINDS: tuple[DisorderKind, ...] = get_args(DisorderKind)
Stage = Literal[
    "dormant", "bud_swell", "green_tip", "pink", "bloom", "petal_fall", "fruit_set", "shoot_growth", "pit_hardening",
    "fruit_growth", "ripening", "harvest", "post_harvest", "leaf_fall",
]  # fmt: skip
STAGES: tuple[Stage, ...] = get_args(Stage)
HostLevel = Literal["common", "occasional", "rare"]
HOST_LEVELS: tuple[HostLevel, ...] = get_args(HostLevel)
Standing = Literal["common", "occasional", "rare", "uncertain", "not_host"]
Urgency = Literal["low", "moderate", "high", "emergency"]
URGENCIES: tuple[Urgency, ...] = get_args(Urgency)
RegulatedStatus = Literal[
    "none", "eradicated_report", "federal_quarantine", "nursery_regulated", "report_if_suspected", "state_quarantine"
]
REGULATED_STATUSES: tuple[RegulatedStatus, ...] = get_args(RegulatedStatus)
ConditionKind = Literal["weather", "site", "care"]
CONDITION_KINDS: tuple[ConditionKind, ...] = get_args(ConditionKind)
MeasureKind = Literal["cultural", "mechanical", "biological"]
MEASURE_KINDS: tuple[MeasureKind, ...] = get_args(MeasureKind)


@dataclass(frozen=True, slots=True)
class LookAlike:
    """Another disorder that is often taken for this one: what to check, and what either of them shows.

    `telling` are the signs that speak for this disorder and not for the other one.
    """

    disorder: str
    check: Wording
    this_shows: Wording
    other_shows: Wording
    telling: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SampleProtocol:
    """How a sample is taken and packed; `recalled` names what its sources were not seen to state."""

    id: str
    how: Wording
    too_late: Wording
    sources: tuple[str, ...]
    recalled: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Condition:
    """A state of the weather, the site or the care that favours disorders."""

    id: str
    about: ConditionKind
    what: Wording


@dataclass(frozen=True, slots=True)
class Measure:
    """Something that can be done about a disorder without a product."""

    id: str
    kind: MeasureKind
    what: Wording


@dataclass(frozen=True, slots=True)
class Disorder:
    """One disorder.

    `confused_on` holds crops that are no hosts although people often suspect it there, with the disorders to look for
    instead. A crop neither in `hosts` nor in `uncertain_hosts` is no host. `stages` are those in which it shows.
    `sample` is the protocol and `bring` what to take by it. `from_memory`: nobody saw the facts in a publication;
    `recalled` names the fields of which this is so although sources were read.
    """

    id: str
    name: str
    name_es: str
    kind: DisorderKind
    hosts: Mapping[str, HostLevel]
    stages: tuple[Stage, ...]
    typical: tuple[str, ...]
    urgency: Urgency
    sample: str
    bring: Wording
    sources: tuple[str, ...]
    scientific_names: tuple[str, ...] = ()
    uncertain_hosts: tuple[str, ...] = ()
    confused_on: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: MappingProxyType({}))
    sometimes: tuple[str, ...] = ()
    rules_out: tuple[str, ...] = ()
    look_alikes: tuple[LookAlike, ...] = ()
    regulated: RegulatedStatus = "none"
    do_not_move: bool = False
    favoured_by: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    from_memory: bool = False
    recalled: tuple[str, ...] = ()

    def standing(self, crop: str) -> Standing:
        """How often it is met on a crop: the level of a host, uncertain, or not_host."""
        return self.hosts.get(crop) or ("uncertain" if crop in self.uncertain_hosts else "not_host")

    def like(self, other: str) -> LookAlike | None:
        """How to tell it from another disorder; None where the two are not taken for one another."""
        return next((pair for pair in self.look_alikes if pair.disorder == other), None)
