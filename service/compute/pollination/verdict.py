"""The verdict on one pair: can this pollen set that tree, do they bloom together, and who says so."""

from __future__ import annotations

from dataclasses import dataclass

from service.compute.pollination.bloom import gap_in_classes, gap_in_days, together
from service.compute.pollination.decide import Decision, by_alleles, decide
from service.compute.pollination.profile import Grounds, profile_of
from service.compute.pollination.reasons import Reason, naming, reason_for
from service.domain.cultivar import Cultivar, Season, SelfFertility
from service.domain.pollen import Compatibility

_OWN_POLLEN: dict[SelfFertility | None, Decision] = {
    "self_fertile": Decision("own_pollen_sets", "compatible"),
    "partly_self_fertile": Decision("own_pollen_sets_some", "partly_compatible"),
    "self_sterile": Decision("own_pollen_refused", "incompatible"),
    "pollen_sterile": Decision("sterile_pollen", "incompatible"),
    "needs_caprification": Decision("needs_fig_wasp", "incompatible"),
    None: Decision("own_pollen_not_known", "unknown"),
}


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether pollen sets a tree. `likely` marks an unknown pair for which the usual advice names such a partner."""

    compatibility: Compatibility
    bloom_gap_classes: float | None
    bloom_gap_days: float | None
    bloom_together: bool | None
    likely: bool
    reasons: tuple[Reason, ...]


def judge_pair(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Verdict:
    """Can pollen of the second tree set fruit on the first?"""
    decisions = decisions_on(seed, pollen, grounds)
    classes = gap_in_classes(_bloom(seed), _bloom(pollen)) if seed.crop == pollen.crop else None
    days = gap_in_days(seed, pollen) if seed.crop == pollen.crop else None
    return Verdict(
        compatibility=decisions[0].compatibility,
        bloom_gap_classes=classes,
        bloom_gap_days=days,
        bloom_together=True if seed.id == pollen.id else together(classes, days, grounds.bloom),
        likely=decisions[0].likely,
        reasons=tuple(reason_for(decision.code, seed, pollen, grounds=grounds) for decision in decisions),
    )


def decisions_on(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> tuple[Decision, ...]:
    """The decision on a pair first, then what else is known of it. Named pairs were tried out, so they decide."""
    one, other = profile_of(seed, grounds), profile_of(pollen, grounds)
    own = own_pollen(seed, pollen, grounds)
    if own is not None:
        return (own,)
    named = named_pair(seed, pollen, grounds)
    if named is None:
        return (decide(one, other, grounds),)
    inferred = by_alleles(one, other, grounds)
    return (named,) if inferred is None else (named, inferred)


def own_pollen(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Decision | None:
    """The decision on a tree and itself, or None where the two are different cultivars."""
    if seed.id != pollen.id:
        return None
    return _OWN_POLLEN[profile_of(seed, grounds).self_fertility]


def named_pair(seed: Cultivar, pollen: Cultivar, grounds: Grounds) -> Decision | None:
    """The decision on a pair that a source names; a pair is named for both directions."""
    crop = grounds.crops[seed.crop]
    if naming(crop.incompatible_pairs, seed, pollen) is not None:
        return Decision("named_incompatible", "incompatible")
    if naming(crop.good_pairs, seed, pollen) is not None:
        return Decision("named_good", "compatible")
    return None


def _bloom(cultivar: Cultivar) -> Season | None:
    return cultivar.bloom.value if cultivar.bloom else None
