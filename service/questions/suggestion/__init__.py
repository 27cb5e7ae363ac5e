"""What will fruit here? The variety question from a site and wishes to cultivars with reasons."""

from service.questions.suggestion.ask import Judges, disagreements, suggest
from service.questions.suggestion.naming import NamedTree, find_names
from service.questions.suggestion.prepared import prepare
from service.questions.suggestion.question import (
    Candidate,
    Partners,
    PlantingChoice,
    PlantingPlan,
    RootChoice,
    SuggestionAnswer,
    SuggestionQuestion,
)

__all__ = [
    "Candidate",
    "Judges",
    "NamedTree",
    "Partners",
    "PlantingChoice",
    "PlantingPlan",
    "RootChoice",
    "SuggestionAnswer",
    "SuggestionQuestion",
    "disagreements",
    "find_names",
    "prepare",
    "suggest",
]
