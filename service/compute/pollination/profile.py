"""What decides about a cultivar's pollen, drawn together so that cultivars alike in it are judged once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from service.compute.pollination.bloom import BloomLimits
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar, SelfFertility, SGenotype
from service.domain.pollen import ChangedAllele, PollenKnowledge

TRIPLOID = 3


@dataclass(frozen=True, slots=True)
class Grounds:
    """All that a verdict on pollen rests on besides the two cultivars."""

    crops: Mapping[str, Crop]
    pollen: PollenKnowledge
    bloom: BloomLimits


class Profile(NamedTuple):
    """The facts of one cultivar that bear on pollen; the crop's own self-fertility stands in where it is unknown."""

    crop: str
    genotype: SGenotype | None
    group: str | None
    self_fertility: SelfFertility | None
    of_cultivar: bool
    triploid: bool


def profile_of(cultivar: Cultivar, grounds: Grounds) -> Profile:
    """The pollen profile of a cultivar."""
    crop = grounds.crops[cultivar.crop]
    stated = cultivar.self_fertility or crop.self_fertility
    return Profile(
        crop=cultivar.crop,
        genotype=cultivar.s_genotype.value if cultivar.s_genotype else None,
        group=cultivar.incompatibility_group.value if cultivar.incompatibility_group else None,
        self_fertility=stated.value if stated else None,
        of_cultivar=stated is not None and cultivar.self_fertility is not None and stated.basis == "cultivar",
        triploid=cultivar.ploidy is not None and cultivar.ploidy.value == TRIPLOID,
    )


def changed_alleles(crop: str, grounds: Grounds) -> dict[str, ChangedAllele]:
    """The alleles of a crop that lost a part of their work."""
    return {allele: changed for (of_crop, allele), changed in grounds.pollen.changed.items() if of_crop == crop}


def gives_pollen(profile: Profile) -> bool:
    """Whether the pollen of such a tree is of use: that of triploids and of pollen-sterile cultivars is not."""
    return not profile.triploid and profile.self_fertility != "pollen_sterile"


def crops_alone(profile: Profile) -> bool:
    """Whether such a tree is known to set fruit with its own pollen or without any."""
    return profile.self_fertility == "self_fertile"
