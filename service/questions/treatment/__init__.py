"""What do I put on it? The treatment question: measures first, then products of the shelf inside their labels."""

from service.questions.treatment.ask import point
from service.questions.treatment.naming import Names
from service.questions.treatment.question import (
    Dates,
    JudgedProduct,
    TreatmentAnswer,
    TreatmentQuestion,
    Waiting,
)
from service.questions.treatment.suspected import likeliest
from service.questions.treatment.waiting import BARRING

__all__ = [
    "BARRING",
    "Dates",
    "JudgedProduct",
    "Names",
    "TreatmentAnswer",
    "TreatmentQuestion",
    "Waiting",
    "likeliest",
    "point",
]
