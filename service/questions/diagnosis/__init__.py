"""What is wrong with this tree? The diagnosis from a complaint and signs to likely causes and the next question."""

from service.questions.diagnosis.ask import diagnose
from service.questions.diagnosis.naming import NamedDiagnosis, find_diagnosed
from service.questions.diagnosis.prepared import prepare
from service.questions.diagnosis.question import (
    DiagnosisAnswer,
    DiagnosisQuestion,
    JudgedDisorder,
    Leaning,
    NextQuestion,
    Suspect,
    TellApart,
)

__all__ = [
    "DiagnosisAnswer",
    "DiagnosisQuestion",
    "JudgedDisorder",
    "Leaning",
    "NamedDiagnosis",
    "NextQuestion",
    "Suspect",
    "TellApart",
    "diagnose",
    "find_diagnosed",
    "prepare",
]
