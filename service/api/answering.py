"""Answers a question that stands inside another request, as its own address would; nothing of it is kept."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping
from typing import Any, cast

import marshmallow as ma

from service.api.diagnoses import DiagnosisAsked, diagnose_tree
from service.api.house import parts
from service.api.place import pointing_below
from service.api.planting_list_asked import MOST_LINES, PlantingListAsked
from service.api.planting_list_sent import sent_in_json
from service.api.pointers import faults_of
from service.api.pruning_plans import PruningAsked, plan_cuts
from service.api.season_asked import SeasonAsked
from service.api.season_plans import plan_year
from service.api.thinning_plans import ThinningAsked, plan_the_thinning
from service.api.treatment_asked import TreatmentAsked
from service.api.treatment_pointers import point_to_treatment
from service.api.variety_suggestions import SuggestionsAsked, suggest_varieties
from service.domain.errors import NotUnderstood
from service.domain.units import Language
from service.present.planting_list import planting_list_advice
from service.questions.planting_list import MoreLines, check_list
from service.questions.suggestion import Judges


def check_short_list(asked: dict[str, Any]) -> dict[str, Any]:
    """The answer on a list that is short enough to be answered at once; a longer one is refused and not kept."""
    house = parts()
    try:
        question = sent_in_json(asked).question()
    except MoreLines:
        raise NotUnderstood(("", f"Up to {MOST_LINES} lines are taken here.")) from None
    judges = Judges(sweeping=house.sweeping, asking=house.asking)
    checked = check_list(question, rulebook=house.rulebook, judges=judges)
    return planting_list_advice(checked, rulebook=house.rulebook, language=cast(Language, asked["language"]))


Plain = Callable[[dict[str, Any]], dict[str, Any]]
QUESTIONS: Mapping[str, tuple[type[ma.Schema], Callable[..., Any]]] = {
    "variety-suggestions": (SuggestionsAsked, suggest_varieties),
    "thinning-plans": (ThinningAsked, plan_the_thinning),
    "pruning-plans": (PruningAsked, plan_cuts),
    "season-plans": (SeasonAsked, plan_year),
    "diagnoses": (DiagnosisAsked, diagnose_tree),
    "treatment-pointers": (TreatmentAsked, point_to_treatment),
    "planting-lists": (PlantingListAsked, check_short_list),
}


def answer_of(question: str, asked: Mapping[str, Any], *, below: str) -> dict[str, Any]:
    """The envelope that answers a question; faults point into it from the pointer `below` it."""
    schema, view = QUESTIONS[question]
    plain: Plain = inspect.unwrap(view)
    with pointing_below(f"{below}/asked"):
        try:
            checked = schema().load(asked)
        except ma.ValidationError as error:
            raise NotUnderstood(*faults_of({"json": error.messages})) from None
        return plain(checked)
