"""Can pollen of one kind set a tree of another kind? The questions are asked from the surest to the least sure.

Each question answers with a `Decision` or passes on (None). What nobody has stated ends as "unknown"; where the usual
advice for the crop nevertheless says that another cultivar serves, the decision is marked `likely`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from service.compute.pollination.alleles import Changed, passes_everywhere, share_accepted
from service.compute.pollination.profile import Grounds, Profile, changed_alleles, crops_alone, gives_pollen
from service.domain.pollen import Compatibility
from service.domain.provenance import Stated


class Decision(NamedTuple):
    """How a question of pollen was decided: the finding's code and what it means for fruit set."""

    code: str
    compatibility: Compatibility
    likely: bool = False


_MATCHING_PROVES_NOTHING = Decision("sets_itself_otherwise", "unknown")
Question = Callable[[Profile, Profile, Grounds], Decision | None]


def decide(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision:
    """The first question that has an answer decides."""
    for question in _QUESTIONS:
        decision = question(seed, pollen, grounds)
        if decision is not None:
            return decision
    return _nothing_known(seed, pollen, grounds)


def by_alleles(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    """What the S-alleles of two cultivars of one crop say."""
    if seed.crop != pollen.crop or seed.genotype is None or pollen.genotype is None:
        return None
    changed = changed_alleles(seed.crop, grounds)
    share = share_accepted(seed.genotype, pollen.genotype, changed)
    if share == 1:
        return Decision("no_allele_shared", "compatible")
    if share is not None and passes_everywhere(pollen.genotype, changed):
        return Decision("universal_donor", "compatible")
    if share == 0:
        unexplained = any(_sets_itself_unexplained(profile, changed) for profile in (seed, pollen))
        return _MATCHING_PROVES_NOTHING if unexplained else Decision("all_alleles_shared", "incompatible")
    return None if share is None else Decision("one_allele_shared", "partly_compatible")


def _sets_itself_unexplained(profile: Profile, changed: Changed) -> bool:
    """Self-fertile though none of its alleles explains it: matching alleles then prove nothing."""
    alleles = profile.genotype.alleles if profile.genotype else ()
    return crops_alone(profile) and not any(allele in changed for allele in alleles)


def _by_crops(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    if seed.crop == pollen.crop:
        return None
    one, other = grounds.crops[seed.crop], grounds.crops[pollen.crop]
    if _names(one.not_partner_crops, other.id) or _names(other.not_partner_crops, one.id):
        return Decision("crops_do_not_cross", "incompatible")
    if _crosses(seed, pollen, grounds):
        return None
    if one.species.value.split()[0] != other.species.value.split()[0]:
        return Decision("other_genus", "incompatible")
    return Decision("crossing_not_known", "unknown")


def _names(stated: Stated[tuple[str, ...]] | None, crop: str) -> bool:
    return stated is not None and crop in stated.value


def _crosses(seed: Profile, pollen: Profile, grounds: Grounds) -> bool:
    one, other = grounds.crops[seed.crop], grounds.crops[pollen.crop]
    return _names(one.partner_crops, other.id) or _names(other.partner_crops, one.id)


def _by_fig_wasp(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    return Decision("needs_fig_wasp", "incompatible") if seed.self_fertility == "needs_caprification" else None


def _by_sterile_pollen(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    if gives_pollen(pollen):
        return None
    return Decision("triploid_pollen" if pollen.triploid else "sterile_pollen", "incompatible")


def _by_donor_group(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    """Pollen that every tree of the crop accepts, known from the allele or from the group it is listed in."""
    if seed.crop != pollen.crop:
        return None
    changed = changed_alleles(pollen.crop, grounds)
    by_allele = pollen.genotype is not None and passes_everywhere(pollen.genotype, changed)
    by_group = (pollen.crop, pollen.group) in grounds.pollen.donor_groups
    return Decision("universal_donor", "compatible") if by_allele or by_group else None


def _by_group(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    if seed.crop != pollen.crop or seed.group is None or pollen.group is None:
        return None
    if any((profile.crop, profile.group) in grounds.pollen.donor_groups for profile in (seed, pollen)):
        return None
    if seed.group == pollen.group:
        return Decision("same_group", "incompatible")
    return Decision("other_group", "compatible")


def _by_crop_without_alleles(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision | None:
    """In crops that need no partner, any good pollen of a usual partner sets a tree that does not refuse its own."""
    with_alleles = grounds.pollen.s_crops.value
    if not _usual(seed, pollen, grounds) or seed.crop in with_alleles or pollen.crop in with_alleles:
        return None
    if not crops_alone(pollen) or seed.self_fertility not in ("self_fertile", "pollen_sterile"):
        return None
    return Decision("crop_without_barrier", "compatible")


def _nothing_known(seed: Profile, pollen: Profile, grounds: Grounds) -> Decision:
    if _usual(seed, pollen, grounds):
        return Decision("usual_partner", "unknown", likely=True)
    return Decision("not_known", "unknown")


def _usual(seed: Profile, pollen: Profile, grounds: Grounds) -> bool:
    return _names(grounds.pollen.usual_partners.get(seed.crop), pollen.crop)


_QUESTIONS: tuple[Question, ...] = (
    _by_crops,
    _by_fig_wasp,
    _by_sterile_pollen,
    by_alleles,
    _by_donor_group,
    _by_group,
    _by_crop_without_alleles,
)
