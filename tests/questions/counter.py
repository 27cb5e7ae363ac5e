"""A counter that diagnoses by the real rulebook, for tests: cases from file, and a short way to ask."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from service.domain.sick_tree import Seen, SickTree
from service.knowledge import strict_yaml
from service.questions.diagnosis import DiagnosisAnswer, DiagnosisQuestion, diagnose
from service.questions.suggestion import Judges
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

CASES = Path(__file__).parents[1] / "cases" / "diagnosis.yaml"


@dataclass(frozen=True)
class Case:
    """A tree with what it turned out to have."""

    id: str
    crop: str
    stage: str
    present: tuple[str, ...]
    absent: tuple[str, ...]
    expected: str
    also: tuple[str, ...]
    never: tuple[str, ...]

    def tree(self) -> SickTree:
        """The tree as it is told at the counter."""
        return SickTree(self.crop, stage=self.stage, seen=Seen(self.present, self.absent))


def read_cases() -> list[Case]:
    """The cases of the file."""
    file: Any = strict_yaml.read(CASES)
    return [
        Case(*(each[key] for key in ("id", "crop", "stage")), tuple(each["present"]), tuple(each["absent"]),
             each["expected"], tuple(each["also"]), tuple(each["never"]))
        for each in file["cases"]
    ]  # fmt: skip


class Counter:
    """Asks what is wrong with a tree."""

    def __init__(self, rulebook: Rulebook) -> None:
        self.rulebook = rulebook
        plain = PlainMatcher(rulebook)
        self.judges = Judges(sweeping=plain, asking=plain)

    def ask(self, tree: SickTree, **more: Any) -> DiagnosisAnswer:
        """The diagnosis of a tree."""
        return diagnose(DiagnosisQuestion(tree, **more), rulebook=self.rulebook, judges=self.judges)


def suspects(answer: DiagnosisAnswer) -> list[str]:
    """The ids of the suspects, the likeliest first."""
    return [one.disorder.id for one in answer.suspects]
