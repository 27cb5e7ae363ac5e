"""Will this list work at my place? A planting list from what was read to verdicts, line by line and as a whole."""

from service.questions.planting_list.ask import check_list, in_order, judge_tally
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.question import (
    CheckedLine,
    CheckedList,
    CheckedName,
    ListPlace,
    Mended,
    PlantingListQuestion,
)
from service.questions.planting_list.reading import gather, list_reader
from service.questions.planting_list.repeats import Repeated
from service.questions.planting_list.tally import Tally
from service.questions.planting_list.tree import TreeHere

__all__ = [
    "CheckedLine",
    "CheckedList",
    "CheckedName",
    "LineChecker",
    "ListPlace",
    "Mended",
    "PlantingListQuestion",
    "Repeated",
    "Tally",
    "TreeHere",
    "check_list",
    "gather",
    "in_order",
    "judge_tally",
    "list_reader",
]
