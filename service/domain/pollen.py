"""What is known of pollen and who accepts it: changed S-alleles, groups, and the partners a crop usually has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from service.domain.provenance import Stated

Compatibility = Literal["compatible", "partly_compatible", "incompatible", "unknown"]


@dataclass(frozen=True, slots=True)
class ChangedAllele:
    """An S-allele that lost a part of its work, so that the tree can set itself.

    `pollen_stopped_as` is the allele under which styles still stop its pollen (None: they let it pass);
    `style_stops` is the allele whose pollen the style still stops (None: it stops none).
    """

    crop: str
    allele: str
    pollen_stopped_as: str | None
    style_stops: str | None
    sources: tuple[str, ...]
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class PollenKnowledge:
    """Everything about pollen that no single crop or cultivar owns; changed alleles and groups by crop and name."""

    s_crops: Stated[tuple[str, ...]] = field(default_factory=lambda: Stated((), ()))
    changed: Mapping[tuple[str, str], ChangedAllele] = field(default_factory=dict)
    donor_groups: Mapping[tuple[str, str], Stated[str]] = field(default_factory=dict)
    usual_partners: Mapping[str, Stated[tuple[str, ...]]] = field(default_factory=dict)
