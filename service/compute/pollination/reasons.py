"""Why a pair was judged as it was: the finding, and the statements on the two trees that stand behind it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from service.compute.pollination.profile import Grounds
from service.domain.cultivar import Cultivar
from service.domain.provenance import Stated

Evidence = tuple[Stated[Any] | None, ...]
NamedPair = Stated[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason of a verdict: the code of a finding, the alleles it compared, and who states them."""

    code: str
    values: tuple[tuple[str, str], ...]
    sources: tuple[str, ...]
    from_memory: bool


def reason_for(code: str, seed: Cultivar, pollen: Cultivar, *, grounds: Grounds) -> Reason:
    """The reason that stands behind a finding on two cultivars."""
    evidence = [stated for stated in _evidence(code, seed, pollen, grounds) if stated is not None]
    sources = dict.fromkeys(source for stated in evidence for source in stated.sources)
    return Reason(
        code=code,
        values=_values(seed, pollen),
        sources=tuple(sources),
        from_memory=any(stated.from_memory for stated in evidence),
    )


def naming(pairs: tuple[NamedPair, ...], one: Cultivar, other: Cultivar) -> NamedPair | None:
    """The statement that names two cultivars as a pair, in either order."""
    return next((pair for pair in pairs if set(pair.value) == {one.id, other.id}), None)


def _values(seed: Cultivar, pollen: Cultivar) -> tuple[tuple[str, str], ...]:
    values = [("seed_parent", seed.denomination), ("pollen_parent", pollen.denomination)]
    for name, cultivar in (("seed_alleles", seed), ("pollen_alleles", pollen)):
        if cultivar.s_genotype is not None:
            values.append((name, "".join(cultivar.s_genotype.value.alleles)))
    return tuple(values)


def _evidence(code: str, seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    gather = _EVIDENCE.get(code)
    return () if gather is None else gather(seed, pollen, grounds)


def _alleles(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (seed.s_genotype, pollen.s_genotype)


def _donor(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (pollen.s_genotype or pollen.incompatibility_group,)


def _groups(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (seed.incompatibility_group, pollen.incompatibility_group)


def _seed_fertility(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (seed.self_fertility or grounds.crops[seed.crop].self_fertility,)


def _no_pollen(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (pollen.ploidy, pollen.self_fertility or grounds.crops[pollen.crop].self_fertility)


def _named_bad(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (naming(grounds.crops[seed.crop].incompatible_pairs, seed, pollen),)


def _named_good(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (naming(grounds.crops[seed.crop].good_pairs, seed, pollen),)


def _crops(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (grounds.crops[seed.crop].not_partner_crops, grounds.crops[pollen.crop].not_partner_crops)


def _species(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (grounds.crops[seed.crop].species, grounds.crops[pollen.crop].species)


def _usual(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return (grounds.pollen.usual_partners.get(seed.crop),)


def _both_fertile(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Evidence:
    return tuple(one.self_fertility or grounds.crops[one.crop].self_fertility for one in (seed, pollen))


_EVIDENCE: dict[str, Callable[[Cultivar, Cultivar, Grounds], Evidence]] = {
    "no_allele_shared": _alleles,
    "one_allele_shared": _alleles,
    "all_alleles_shared": _alleles,
    "sets_itself_otherwise": _alleles,
    "universal_donor": _donor,
    "same_group": _groups,
    "other_group": _groups,
    "own_pollen_sets": _seed_fertility,
    "own_pollen_sets_some": _seed_fertility,
    "own_pollen_refused": _seed_fertility,
    "needs_fig_wasp": _seed_fertility,
    "triploid_pollen": _no_pollen,
    "sterile_pollen": _no_pollen,
    "named_incompatible": _named_bad,
    "named_good": _named_good,
    "crops_do_not_cross": _crops,
    "other_genus": _species,
    "usual_partner": _usual,
    "crop_without_barrier": _both_fertile,
}
