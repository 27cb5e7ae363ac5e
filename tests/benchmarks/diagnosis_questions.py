"""How many questions a diagnosis takes, and how long an answer takes: python tests/benchmarks/diagnosis_questions.py

Each case starts from its crop, its stage and one thing that is seen, as a customer brings it to the counter. Then the
service asks, and the case answers: what it says is there is there, what is typical of its cause is there, all else is
not. Counted are the questions until the likeliest cause is 80 % sure. The same is done with two questionnaires in a
fixed order over the same signs: all signs of the crop as the catalogue lists them, and those of the part that is
complained of first. Where the service has nothing more to ask and is not sure, a questionnaire goes on in its place; a
case that never gets there counts with all its questions.

The time is CPU time of the serving process for the whole request.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from statistics import mean, median

sys.path.insert(0, str(Path(__file__).parents[2]))

from flask.testing import FlaskClient

from service import create_app
from service.domain.sick_tree import Seen, SickTree
from service.observe.logs import configure_logs
from service.questions.diagnosis import DiagnosisAnswer, prepare
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT, read_settings
from tests.questions.counter import Case, Counter, read_cases

SURE = 0.8
ROUNDS = 15


@dataclass
class Dialogue:
    """A case and what has been told of it."""

    case: Case
    counter: Counter
    answers: dict[str, bool]

    @classmethod
    def begin(cls, case: Case, sign: str, counter: Counter) -> Dialogue:
        """A dialogue that begins with one sign that is seen."""
        return cls(case, counter, {sign: True})

    def diagnosis(self) -> DiagnosisAnswer:
        """What the service says now."""
        present = tuple(sign for sign, there in self.answers.items() if there)
        absent = tuple(sign for sign, there in self.answers.items() if not there)
        return self.counter.ask(SickTree(self.case.crop, stage=self.case.stage, seen=Seen(present, absent)))

    def reply(self, sign: str) -> None:
        """The case answers a question."""
        typical = self.counter.rulebook.catalogue.disorders[self.case.expected].typical
        self.answers[sign] = sign in self.case.present or (sign in typical and sign not in self.case.absent)


def sure(answer: DiagnosisAnswer) -> bool:
    """Whether the likeliest cause is as sure as is asked for here."""
    return bool(answer.suspects) and answer.suspects[0].likelihood >= SURE


def by_the_service(dialogue: Dialogue) -> tuple[int, bool, bool]:
    """Questions until it is sure, whether it is, and whether it is right."""
    asked = 0
    answer = dialogue.diagnosis()
    while not sure(answer) and answer.ask_next:
        dialogue.reply(answer.ask_next[0].sign.id)
        asked += 1
        answer = dialogue.diagnosis()
    if not sure(answer):
        rest = prepare(dialogue.counter.rulebook).askable(dialogue.case.crop)
        more, reached, right = in_order(dialogue, list(rest))
        return asked + more, reached, right
    return asked, True, is_right(answer, dialogue.case)


def in_order(dialogue: Dialogue, order: list[str]) -> tuple[int, bool, bool]:
    """The same with a questionnaire."""
    asked = 0
    answer = dialogue.diagnosis()
    for sign in order:
        if sure(answer):
            break
        if sign not in dialogue.answers:
            dialogue.reply(sign)
            asked += 1
            answer = dialogue.diagnosis()
    return asked, sure(answer), is_right(answer, dialogue.case)


def is_right(answer: DiagnosisAnswer, case: Case) -> bool:
    """Whether the likeliest cause is one that is right for the case."""
    return bool(answer.suspects) and answer.suspects[0].disorder.id in (case.expected, *case.also)


def starts(cases: list[Case]) -> Iterator[tuple[Case, str]]:
    """Each case with each of its signs as the one that the customer begins with."""
    yield from ((case, sign) for case in cases for sign in case.present)


def rows(book: Rulebook, counter: Counter) -> Iterator[tuple[str, list[tuple[int, bool, bool]]]]:
    """The three ways to ask, with their dialogues."""
    began = list(starts(read_cases()))
    yield "the service asks", [by_the_service(Dialogue.begin(case, sign, counter)) for case, sign in began]
    yield "all signs in order", [
        in_order(Dialogue.begin(case, sign, counter), list(prepare(book).askable(case.crop))) for case, sign in began
    ]
    yield "the part complained of first", [
        in_order(Dialogue.begin(case, sign, counter), part_first(book, case, sign)) for case, sign in began
    ]


def part_first(book: Rulebook, case: Case, sign: str) -> list[str]:
    """The signs of a crop, those of the part of a sign before the rest."""
    signs = book.catalogue.signs
    return sorted(prepare(book).askable(case.crop), key=lambda other: signs[other].part != signs[sign].part)


def milliseconds(client: FlaskClient, case: Case) -> float:
    """The median time of an answer."""
    question = {"crop": case.crop, "stage": case.stage,
                "signs": {"present": list(case.present), "absent": list(case.absent)}}  # fmt: skip
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        assert client.post("/v1/diagnoses", json=question).status_code == 200
        times.append(1000 * (time.process_time() - start))
    return median(times)


def main() -> None:
    """Measure and print."""
    configure_logs("error", "json")
    book = load_rulebook(CHECKOUT / "rules")
    for name, told in rows(book, Counter(book)):
        asked, reached, right = zip(*told, strict=True)
        print(f"{name:30} {mean(asked):6.2f} questions   sure in {mean(reached):4.0%}   right in {mean(right):4.0%}")
    with tempfile.TemporaryDirectory() as folder:
        settings = read_settings({"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{folder}/store.sqlite3"})
        client = create_app(settings, book).test_client()
        print(f"server time {median(milliseconds(client, case) for case in read_cases()):.1f} ms (target 15 ms)")


if __name__ == "__main__":
    main()
