"""What the trees of a list have in common: one disease that many of them take, one cultivar or crop that fills it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from service.questions.planting_list.room import Planted
from service.questions.planting_list.tree import TreeHere
from service.reasoning.vocabulary import Value

_SUSCEPTIBLE, _RESISTS = "cultivar.susceptible_to", "cultivar.resists"


def kind_facts(planted: Sequence[Planted], *, shared_from: float) -> dict[str, Value]:
    """Diseases shared by a share of the trees from `shared_from` on, and how large one cultivar or crop is."""
    grown = [(tree, one.count) for one in planted for tree in one.trees]
    all_trees = sum(count for _, count in grown)
    facts: dict[str, Value] = {"disease.shared": ()}
    if not all_trees:
        return facts
    taking = _counted(grown, lambda tree: _diseases(tree, _SUSCEPTIBLE))
    facts["disease.shared"] = tuple(sorted(one for one, count in taking.items() if count / all_trees >= shared_from))
    if taking:
        widest = min(taking, key=lambda one: (-taking[one], one))
        facts |= {"disease.widest": widest, "disease.widest_trees": taking[widest]}
        facts["disease.widest_share"] = taking[widest] / all_trees
    cultivars = _counted(grown, lambda tree: (tree.candidate.cultivar.denomination,))
    crops = _counted(grown, lambda tree: (tree.candidate.crop.id,))
    largest = min(cultivars, key=lambda one: (-cultivars[one], one))
    facts |= {"list.largest_cultivar": largest, "list.largest_cultivar_share": cultivars[largest] / all_trees}
    facts["list.largest_crop_share"] = max(crops.values()) / all_trees
    return facts | _of_pome_fruit(grown)


def _of_pome_fruit(grown: Sequence[tuple[TreeHere, int]]) -> dict[str, Value]:
    """Shares among the trees that the disease concerns; left out where there are none."""
    pome = [(tree, count) for tree, count in grown if tree.candidate.crop.kind == "pome"]
    apples = [(tree, count) for tree, count in pome if tree.candidate.crop.id == "apple"]
    shares = {
        "disease.fire_blight_share": _share(pome, _SUSCEPTIBLE, "fire_blight"),
        "disease.cedar_apple_rust_share": _share(apples, _SUSCEPTIBLE, "cedar_apple_rust"),
        "disease.apple_resistant_share": _share(apples, _RESISTS, "apple_scab"),
    }
    return {name: share for name, share in shares.items() if share is not None}


def _share(grown: Sequence[tuple[TreeHere, int]], rating: str, disease: str) -> float | None:
    trees = sum(count for _, count in grown)
    rated = sum(count for tree, count in grown if disease in _diseases(tree, rating))
    return rated / trees if trees else None


def _counted(grown: Sequence[tuple[TreeHere, int]], kinds: Callable[[TreeHere], Sequence[str]]) -> Counter[str]:
    counts: Counter[str] = Counter()
    for tree, count in grown:
        for kind in kinds(tree):
            counts[kind] += count
    return counts


def _diseases(tree: TreeHere, rating: str) -> tuple[str, ...]:
    return tree.facts.get(rating, ())  # type: ignore[return-value]
