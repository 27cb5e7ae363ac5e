"""Made-up crops and cultivars for the tests of pollination."""

from __future__ import annotations

from typing import Any

from service.compute.pollination import BloomLimits, Grounds, Verdict, judge_pair
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar, SGenotype
from service.domain.pollen import ChangedAllele, PollenKnowledge
from service.domain.provenance import Stated


def said(value: Any, source: str = "made-up", **marks: Any) -> Stated[Any]:
    """A made-up statement."""
    return Stated(value, (source,), **marks)


def crop(name: str, species: str = "Prunus exempli", **known: Any) -> Crop:
    """A made-up crop."""
    kind = "stone" if species.startswith("Prunus") else "pome"
    return Crop(id=name, name=name, name_es=name, species=said(species, "flora"), kind=kind, **known)  # type: ignore[arg-type]


def tree(name: str, *alleles: str, of: str = "cherry", notation: str = "numbered", **known: Any) -> Cultivar:
    """A made-up cultivar; further keywords are stated values."""
    stated = {key: said(value) for key, value in known.items() if value is not None}
    genotype = said(SGenotype(alleles, notation), f"{name} typed") if alleles else None
    return Cultivar(id=f"{of}.{name}", crop=of, denomination=name.title(), s_genotype=genotype, **stated)


CROPS = {
    "cherry": crop("cherry", not_partner_crops=said(("sour",)), self_fertility=said("self_sterile")),
    "sour": crop("sour", self_fertility=said("self_fertile")),
    "peach": crop("peach", partner_crops=said(("nectarine",)), self_fertility=said("self_fertile")),
    "nectarine": crop("nectarine", self_fertility=said("self_fertile")),
    "plum": crop("plum"),
    "fig": crop("fig", "Ficus exempli", self_fertility=said("self_fertile")),
    "apple": crop("apple", "Malus exempli", self_fertility=said("self_sterile")),
}
POLLEN = PollenKnowledge(
    s_crops=said(("cherry", "apple")),
    changed={
        ("cherry", "S4'"): ChangedAllele("cherry", "S4'", None, "S4", ("made-up",)),
        ("cherry", "S4sm"): ChangedAllele("cherry", "S4sm", "S4", None, ("made-up",)),
    },
    donor_groups={("cherry", "SC"): said("SC")},
    usual_partners={
        "cherry": said(("cherry",), "usual"),
        "apple": said(("apple",), "usual"),
        "peach": said(("peach", "nectarine"), "usual"),
        "sour": said(("sour",), "usual"),
    },
)
GROUNDS = Grounds(CROPS, POLLEN, BloomLimits(classes=1))


def verdict(seed: Cultivar, pollen: Cultivar, grounds: Grounds = GROUNDS) -> Verdict:
    """The verdict on made-up cultivars."""
    return judge_pair(seed, pollen, grounds)


def found(seed: Cultivar, pollen: Cultivar, grounds: Grounds = GROUNDS) -> tuple[str, str]:
    """What a verdict says first: the compatibility and the finding."""
    said_ = verdict(seed, pollen, grounds)
    return said_.compatibility, said_.reasons[0].code
