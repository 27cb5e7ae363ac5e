"""A tree through its year, as staff hear of it at the counter: everything but the crop may be unknown."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields
from datetime import date
from typing import Literal, get_args

from service.domain.cultivar import Season
from service.domain.errors import NotUnderstood
from service.domain.pruned_tree import Vigour
from service.domain.season import Stage

Floor = Literal["bare", "mulch", "grass"]
Soil = Literal["sand", "loam", "clay"]
District = Literal["early", "middle", "late"]
Trouble = Literal[
    "leaf_curl", "scab", "fire_blight", "codling_moth", "brown_rot", "shot_hole", "bacterial_canker", "aphids",
    "scale", "mites", "borers", "birds", "spotted_wing_fruit_fly", "voles", "sunburn", "fruit_cracking",
]  # fmt: skip
FLOORS: tuple[Floor, ...] = get_args(Floor)
SOILS: tuple[Soil, ...] = get_args(Soil)
DISTRICTS: tuple[District, ...] = get_args(District)
TROUBLES: tuple[Trouble, ...] = get_args(Trouble)


@dataclass(frozen=True, slots=True)
class SeenStage:
    """A stage other than bloom that was seen on the tree, and when it was in the middle of it."""

    stage: Stage
    day: date


@dataclass(frozen=True, slots=True)
class NeighbourBloom:
    """Full bloom at another place of the same climate, and how this place lies to it."""

    day: date
    north_deg: float = 0.0
    east_deg: float = 0.0
    higher_ft: float = 0.0


@dataclass(frozen=True, slots=True)
class Sighting:
    """What was seen of the season: full bloom, another stage, or the bloom of another place."""

    full_bloom: date | None = None
    stage: SeenStage | None = None
    neighbour: NeighbourBloom | None = None


@dataclass(frozen=True, slots=True)
class SeasonTree:
    """The tree; `age_years` counts summers, this one included, and `troubles` is None where nobody told."""

    crop: str
    cultivar: str | None = None
    label: str | None = None
    ripening: Season | None = None
    age_years: float | None = None
    height_ft: float | None = None
    canopy_ft: float | None = None
    trunk_girth_in: float | None = None
    shoot_length_in: float | None = None
    vigour: Vigour | None = None
    bears: bool | None = None
    just_planted: bool | None = None
    to_plant: bool | None = None
    floor: Floor | None = None
    fed_lawn: bool | None = None
    crop_lost: bool | None = None
    drip: bool | None = None
    sprinkled: bool | None = None
    troubles: tuple[Trouble, ...] | None = None
    seen: Sighting = Sighting()

    def __post_init__(self) -> None:
        faults = tuple(_contradictions(self))
        if faults:
            raise NotUnderstood(*faults)

    @property
    def summers(self) -> float | None:
        """Summers that it will have stood in the season that is planned; a new tree begins its first."""
        return 1.0 if self.to_plant else self.age_years


def _contradictions(tree: SeasonTree) -> Iterator[tuple[str, str]]:
    for field in fields(tree):
        value = getattr(tree, field.name)
        if isinstance(value, float) and not math.isfinite(value):
            yield f"/{field.name}", "this is not a finite number"
    if tree.to_plant and tree.age_years is not None and tree.age_years > 1:
        yield "/to_plant", f"a tree of {tree.age_years:g} summers stands already; leave one of the two out"
    if tree.to_plant and tree.bears:
        yield "/bears", "a tree that is still to be planted does not bear"
    if tree.just_planted and tree.age_years is not None and tree.age_years > 1:
        yield "/just_planted", f"a tree of {tree.age_years:g} summers is not newly planted; leave one of the two out"
