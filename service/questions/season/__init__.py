"""What to do to these trees through the year: dated tasks from stages that were seen or can be estimated."""

from service.questions.season.ask import plan_season
from service.questions.season.naming import NamedTree, find_trees
from service.questions.season.question import (
    DatedStage,
    DatedTask,
    Ground,
    SeasonAnswer,
    SeasonQuestion,
    TreeYear,
    WaterMonth,
)

__all__ = [
    "DatedStage",
    "DatedTask",
    "Ground",
    "NamedTree",
    "SeasonAnswer",
    "SeasonQuestion",
    "TreeYear",
    "WaterMonth",
    "find_trees",
    "plan_season",
]
