"""Cuts a long offer down to the trees among which the best set is sought, without losing the partners they need."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from service.compute.planting_set.order import Tree


def shortlist(trees: Iterable[Tree], *, size: int, per_crop_month: int) -> tuple[Tree, ...]:
    """The best trees of each crop in each month, then the best partners of those that need one, up to a size.

    Partners come before further trees of middling fit, so that no tree is lost for want of a partner on the list.
    """
    ranked = sorted(trees, key=lambda tree: (-tree.fit, tree.id))
    leading, carriers = _leading(ranked, per_crop_month), _carriers(ranked)
    kept: dict[str, Tree] = {}
    for tree in leading:
        if len(kept) >= size:
            break
        kept.setdefault(tree.id, tree)
        for partner in _partners(tree, ranked, carriers):
            if len(kept) < size:
                kept.setdefault(partner.id, partner)
    for tree in ranked:
        if len(kept) < size:
            kept.setdefault(tree.id, tree)
    return tuple(sorted(kept.values(), key=lambda tree: tree.id))


def _leading(ranked: Sequence[Tree], per_crop_month: int) -> list[Tree]:
    """Trees that are among the best of their crop in some month, or of the crop where their months are unknown."""
    counts: dict[tuple[str, int], int] = defaultdict(int)
    leading = []
    for tree in ranked:
        slots = [(tree.crop, month) for month in tree.months or (0,)]
        if any(counts[slot] < per_crop_month for slot in slots):
            leading.append(tree)
            for slot in slots:
                counts[slot] += 1
    return leading


def _partners(tree: Tree, ranked: Sequence[Tree], carriers: Mapping[str, Sequence[int]]) -> list[Tree]:
    """For each limb as many of the fittest trees that serve it as it needs, those with proven pollen first."""
    wanted: list[Tree] = []
    for limb in (limb for limb in tree.limbs if limb.partners_needed):
        proven = _places(limb.proven, carriers)
        serving = [*sorted(proven), *sorted(_places(limb.likely, carriers) - proven)]
        others = [ranked[place] for place in serving if ranked[place].id != tree.id]
        wanted += others[: limb.partners_needed]
    return wanted


def _carriers(ranked: Sequence[Tree]) -> Mapping[str, Sequence[int]]:
    """For each cultivar the places of the trees that carry it."""
    carriers: dict[str, list[int]] = defaultdict(list)
    for place, tree in enumerate(ranked):
        for limb in tree.limbs:
            carriers[limb.cultivar].append(place)
    return carriers


def _places(cultivars: frozenset[str], carriers: Mapping[str, Sequence[int]]) -> set[int]:
    return {place for cultivar in cultivars if cultivar in carriers for place in carriers[cultivar]}
