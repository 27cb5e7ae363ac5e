"""A tree that somebody wants to prune, as staff hear of it at the counter: everything but the crop may be unknown."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Literal, get_args

from service.domain.errors import NotUnderstood

Form = Literal[
    "open_centre", "central_leader", "modified_leader", "fan", "horizontal_tiers", "hedge", "small_tree_kept_low",
    "multi_stem_bush", "untrained",
]  # fmt: skip
Vigour = Literal["weak", "moderate", "strong"]
Stage = Literal["dormant", "bud_swell", "bloom", "in_leaf", "leaf_fall"]
Sign = Literal[
    "dead_wood", "broken_limb", "fire_blight", "dieback", "gumming", "canker", "black_knot", "sprouts_from_base",
    "water_sprouts", "crossing_limbs", "low_limbs", "dense_inside", "bare_below", "narrow_crotches", "rival_leaders",
    "long_weak_limbs", "fruit_at_shoot_ends", "sunburned_bark", "freeze_injury", "stubs", "one_sided",
]  # fmt: skip
FORMS: tuple[Form, ...] = get_args(Form)
VIGOURS: tuple[Vigour, ...] = get_args(Vigour)
STAGES: tuple[Stage, ...] = get_args(Stage)
SIGNS: tuple[Sign, ...] = get_args(Sign)
_INCHES_A_FOOT = 12


@dataclass(frozen=True, slots=True)
class GraftedVariety:
    """One variety of several on a tree: its name as told, or as the catalogue has it, and how long its shoots are."""

    name: str
    cultivar: str | None = None
    shoot_length_in: float | None = None


@dataclass(frozen=True, slots=True)
class SharedHole:
    """Several trees in one planting hole."""

    trees: int
    gap_in: float | None = None
    heights_ft: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        if len(self.heights_ft) > self.trees:
            raise NotUnderstood(
                ("/heights_ft", f"{len(self.heights_ft)} heights are given for {self.trees} trees")
            )


@dataclass(frozen=True, slots=True)
class PrunedTree:
    """The tree; `age_years` counts summers, this one included, and `signs` is None where nobody looked."""

    crop: str
    cultivar: str | None = None
    age_years: float | None = None
    height_ft: float | None = None
    max_height_ft: float | None = None
    training: Form | None = None
    just_planted: bool | None = None
    branched: bool | None = None
    bears: bool | None = None
    vigour: Vigour | None = None
    shoot_length_in: float | None = None
    years_unpruned: float | None = None
    harvested: bool | None = None
    stage: Stage | None = None
    signs: tuple[Sign, ...] | None = None
    fruit_wanted: int | None = None
    varieties: tuple[GraftedVariety, ...] = ()
    shared_hole: SharedHole | None = None

    def __post_init__(self) -> None:
        faults = tuple(_contradictions(self))
        if faults:
            raise NotUnderstood(*faults)


def _contradictions(tree: PrunedTree) -> Iterator[tuple[str, str]]:
    """What cannot be true of one tree, said at the field that is most likely wrong."""
    for field in fields(tree):
        value = getattr(tree, field.name)
        if isinstance(value, float) and not math.isfinite(value):
            yield f"/{field.name}", "this is not a finite number"
    if tree.just_planted and tree.age_years is not None and tree.age_years > 1:
        yield "/just_planted", f"a tree of {tree.age_years:g} summers is not newly planted; leave one of the two out"
    if tree.just_planted and tree.bears:
        yield "/bears", "a newly planted tree does not bear yet"
    if _longer(tree.shoot_length_in, tree.height_ft):
        yield "/shoot_length_in", "the shoots of one season cannot be longer than the tree is high"
    if tree.years_unpruned is not None and tree.age_years is not None and tree.years_unpruned > tree.age_years:
        yield "/years_unpruned", "the tree has not stood for so many years"
    for place, variety in enumerate(tree.varieties):
        if _longer(variety.shoot_length_in, tree.height_ft):
            yield f"/varieties/{place}/shoot_length_in", "the shoots cannot be longer than the tree is high"


def _longer(shoot_in: float | None, tree_ft: float | None) -> bool:
    return shoot_in is not None and tree_ft is not None and shoot_in > tree_ft * _INCHES_A_FOOT
