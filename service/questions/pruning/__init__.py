"""What do I cut on this tree, and when? The pruning question from a tree and a day to cuts with reasons."""

from service.questions.pruning.ask import plan_pruning
from service.questions.pruning.naming import NamedPruning, find_pruned
from service.questions.pruning.question import (
    WINDOWS,
    DatedWindow,
    JudgedCut,
    JudgedVariety,
    JudgedYear,
    PruningAnswer,
    PruningQuestion,
    WeatherAhead,
)

__all__ = [
    "WINDOWS",
    "DatedWindow",
    "JudgedCut",
    "JudgedVariety",
    "JudgedYear",
    "NamedPruning",
    "PruningAnswer",
    "PruningQuestion",
    "WeatherAhead",
    "find_pruned",
    "plan_pruning",
]
