"""How much fruit to take off, where and when: the thinning question from a tree and its load to a plan in steps."""

from service.questions.thinning.ask import plan_thinning
from service.questions.thinning.naming import NamedVariety, find_varieties
from service.questions.thinning.question import (
    BranchPlan,
    Habit,
    Moment,
    Place,
    ThinningAnswer,
    ThinningQuestion,
    Variety,
    VarietyPlan,
)

__all__ = [
    "BranchPlan",
    "Habit",
    "Moment",
    "NamedVariety",
    "Place",
    "ThinningAnswer",
    "ThinningQuestion",
    "Variety",
    "VarietyPlan",
    "find_varieties",
    "plan_thinning",
]
