"""The thinning question and its answer as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, get_args

from service.compute.crop_load import Carried, CarriedBranch, Thirds
from service.domain.crop import Crop
from service.domain.crop_load import Load, TreeSize
from service.domain.cultivar import SEASONS, Cultivar
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]
Stage = Literal["bloom", "petal_fall", "fruit_set", "natural_drop", "after_drop", "half_size", "colouring", "ripe"]
STAGES: tuple[Stage, ...] = get_args(Stage)
URGENCIES = ("now", "soon", "later", "none")


def word(concluded: Value | None) -> str | None:
    """A concluded choice as text; None where no rule concluded it.

    >>> word("thin"), word(None)
    ('thin', None)
    """
    return None if concluded is None else str(concluded)


@dataclass(frozen=True, slots=True)
class Variety:
    """A variety on the tree with its load; `cultivar` is its id, None where nobody named it.

    `at` is where it stands in the request, so that what is refused can be pointed at.
    """

    cultivar: str | None = None
    ripening: str | None = None
    fruit_size: str | None = None
    hybrid_type: str | None = None
    bearing: str | None = None
    load: Load = field(default_factory=Load)
    at: str = ""


@dataclass(frozen=True, slots=True)
class Habit:
    """How the tree has grown and borne."""

    vigour: str | None = None
    last_crop: str | None = None
    split_pits: bool | None = None


@dataclass(frozen=True, slots=True)
class Moment:
    """Where the season stands."""

    days_after_full_bloom: int | None = None
    stage: Stage | None = None
    fruit_diameter_mm: float | None = None
    natural_drop: str | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """What the place and the customer add; None where nobody said."""

    frost_past: bool | None = None
    codling_moth: bool | None = None
    brown_rot: bool | None = None
    large_fruit: bool | None = None


@dataclass(frozen=True, slots=True)
class ThinningQuestion:
    """What to take off this tree; several varieties are several parts of one tree."""

    crop: str
    varieties: tuple[Variety, ...] = (Variety(),)
    tree: TreeSize = field(default_factory=TreeSize)
    habit: Habit = field(default_factory=Habit)
    moment: Moment = field(default_factory=Moment)
    place: Place = field(default_factory=Place)


@dataclass(frozen=True, slots=True)
class BranchPlan:
    """A branch with what stays and what comes off after the rules have spoken."""

    carried: CarriedBranch
    keep: int | None
    remove: int | None
    thirds: Thirds | None
    facts: Facts
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class VarietyPlan:
    """The plan for one variety: its numbers, and what each ruleset says of it."""

    variety: Variety
    cultivar: Cultivar | None
    facts: Facts
    carried: Carried
    keep: int | None
    remove: int | None
    branches: tuple[BranchPlan, ...]
    target: Judgement
    measured: Judgement
    plan: Judgement
    steps: Judgement

    @property
    def action(self) -> str | None:
        """What to do with the fruit: wait, leave, thin or remove_all; None where no rule says."""
        return word(self.plan.concluded.get("thinning_action"))

    @property
    def urgency(self) -> str | None:
        """How soon; None where no rule says."""
        return word(self.plan.concluded.get("urgency"))

    @property
    def share_removed(self) -> float | None:
        """The share of the counted fruit that comes off."""
        counted = self.variety.load.counted
        return None if not counted or self.remove is None else self.remove / counted


@dataclass(frozen=True, slots=True)
class ThinningAnswer:
    """A plan for each variety on the tree, in the order in which they were named."""

    question: ThinningQuestion
    crop: Crop
    plans: tuple[VarietyPlan, ...]
    not_judged: tuple[str, ...]

    @property
    def in_order_of_work(self) -> tuple[VarietyPlan, ...]:
        """The plans as they are worked through: the most urgent first, and of equals the one that ripens first."""
        return tuple(sorted(self.plans, key=_rank))


def _rank(plan: VarietyPlan) -> tuple[int, int]:
    ripening = plan.facts.get("cultivar.ripening")
    return (
        URGENCIES.index(plan.urgency) if plan.urgency in URGENCIES else len(URGENCIES),
        SEASONS.index(ripening) if ripening in SEASONS else len(SEASONS),
    )
