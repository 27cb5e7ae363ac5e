"""Will this list work at my place? A planting list from what was read to verdicts, line by line and as a whole."""

from service.questions.planting_list.ask import check_list, in_order, judge_tally
from service.questions.planting_list.gaps import not_judged_but
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.question import (
    CheckedLine,
    CheckedList,
    CheckedName,
    ListPlace,
    Mended,
    PlantingListQuestion,
)
from service.questions.planting_list.reading import LIST_WIDE, MoreLines, gather, list_reader, stream_of
from service.questions.planting_list.repeats import Repeated
from service.questions.planting_list.tally import Tally, tally_of
from service.questions.planting_list.tree import TreeHere

__all__ = [
    "LIST_WIDE",
    "CheckedLine",
    "CheckedList",
    "CheckedName",
    "LineChecker",
    "ListPlace",
    "Mended",
    "MoreLines",
    "PlantingListQuestion",
    "Repeated",
    "Tally",
    "TreeHere",
    "check_list",
    "gather",
    "in_order",
    "judge_tally",
    "list_reader",
    "not_judged_but",
    "stream_of",
    "tally_of",
]
