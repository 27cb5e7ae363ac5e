"""Whatever rulebook loads, no case can break the process, and no case spoils the next."""

from __future__ import annotations

import gc
import os
import threading
from typing import Any

import durable_rules_engine
import pytest

from service.reasoning.cases import CaseMaker
from service.reasoning.engine import EngineFault, EngineMatcher, as_json
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import Rule, Test
from tests.reasoning.children import fill_memory_with_garbage, in_child
from tests.reasoning.made_up import FACTS, RULESET, VOCABULARY, RuleMaker, fact, rule, rulebook, vocabulary

CHAIN = (
    rule("a", Test("ph", "below", 5), conclude={"verdict": "bad"}),
    rule("b", Test("concluded.verdict", "is", "bad"), conclude={"count": 3}),
    rule("n", Test("concluded.verdict", "known", False)),
)


def ids(matcher: EngineMatcher, **facts: Any) -> list[str]:
    return [one.id for one in matcher.judge(RULESET, facts).rules]


def hostile(size: int, *, seed: int) -> str:
    """Judges a generated rulebook's cases by both matchers; says how it ended."""
    fill_memory_with_garbage()
    maker = RuleMaker(VOCABULARY, seed=seed)
    book = rulebook(*maker.rules(size))
    plain, engine, cases = PlainMatcher(book), EngineMatcher(book), CaseMaker(book, RULESET, seed=seed)
    for _ in range(60):
        case = cases.case()
        if plain.judge(RULESET, case).as_bytes() != engine.judge(RULESET, case).as_bytes():
            return f"judged differently: {case}"
    return "exited normally"


@pytest.mark.parametrize("size", [20, 50, 100, 200, 400, 700, 1000, 1500])
@pytest.mark.parametrize("seed", [11, 12])
def test_a_generated_rulebook_cannot_break_the_process(size: int, seed: int) -> None:
    assert in_child(lambda: hostile(size, seed=seed)) == "exited normally"


def alike(rules: list[Rule], words: Any, cases: list[dict[str, Any]]) -> str:
    fill_memory_with_garbage()
    book = rulebook(*rules, words=words)
    plain, engine = PlainMatcher(book), EngineMatcher(book)
    same = all(plain.judge(RULESET, c).as_bytes() == engine.judge(RULESET, c).as_bytes() for c in cases)
    return "exited normally" if same else "judged differently"


WORDS = tuple(f"w{number}" for number in range(600))
SHAPES: dict[str, tuple[list[Rule], Any, list[dict[str, Any]]]] = {
    "one condition in 1,500 rules": (
        [rule(f"r{n}", Test("ph", "above", 5)) for n in range(1500)], VOCABULARY, [{"ph": 6}, {"ph": 5}, {}],
    ),
    "1,500 boundaries on one fact": (
        [rule(f"r{n}", Test("rain", "at_least", n / 7)) for n in range(1500)],
        VOCABULARY, [{"rain": 1e6}, {"rain": 99.5}],
    ),
    "600 words of one fact": (
        [rule(f"r{n}", Test("soil", "is", word)) for n, word in enumerate(WORDS)],
        vocabulary([fact("soil", "choice", values=WORDS)]), [{"soil": word} for word in WORDS[::50]],
    ),
    "overlapping lists of words": (
        [rule(f"r{n}", Test("soil", "one_of", WORDS[n : n + 12]), Test("ph", "above", n)) for n in range(500)],
        vocabulary([fact("soil", "choice", values=WORDS), FACTS[2]]), [{"soil": w, "ph": 900} for w in WORDS[::60]],
    ),
    "one hundred words in one list": (
        [rule(f"r{n}", Test("soil", "none_of", WORDS[n : n + 100])) for n in range(300)],
        vocabulary([fact("soil", "choice", values=WORDS)]), [{"soil": word} for word in WORDS[::100]],
    ),
    "forty tests in each rule": (
        [
            rule(f"r{n}", *[Test(f"f{(n + step) % 60}", "above", step) for step in range(40)])
            for n in range(300)
        ],
        vocabulary([fact(f"f{n}", "number", low=0.0, high=99.0) for n in range(60)]),
        [{f"f{n}": 99 for n in range(60)}, {f"f{n}": 20 for n in range(60)}],
    ),
    "nothing is known, 600 rules ask for it": (
        [rule(f"r{n}", Test(f"f{n % 60}", "known", False)) for n in range(600)],
        vocabulary([fact(f"f{n}", "number", low=0.0, high=99.0) for n in range(60)]), [{}, {"f1": 3}],
    ),
}  # fmt: skip


@pytest.mark.parametrize("shape", SHAPES)
def test_a_shape_at_which_the_engine_breaks_by_itself_is_harmless(shape: str) -> None:
    assert in_child(lambda: alike(*SHAPES[shape])) == "exited normally"


def test_eight_threads_get_no_wrong_answer() -> None:
    matcher, wrong = EngineMatcher(rulebook(*CHAIN)), list[int]()

    def ask(offset: int) -> None:
        for number in range(400):
            acid = (number + offset) % 2 == 0
            if ids(matcher, ph=4 if acid else 6) != (["a", "b"] if acid else ["n"]):
                wrong.append(number)

    threads = [threading.Thread(target=ask, args=(offset,)) for offset in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert wrong == []


def test_the_engine_starts_no_threads() -> None:
    before = threading.active_count()
    matcher = EngineMatcher(rulebook(*CHAIN))
    ids(matcher, ph=4)
    assert threading.active_count() == before


def resident_kb() -> int:
    with open("/proc/self/statm", encoding="ascii") as numbers:
        return int(numbers.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") // 1024


def growth_kb(matcher: Any, *, cases: int) -> int:
    """How much memory the process gains while it judges cases, after a warm-up."""
    for number in range(2000):
        matcher.judge(RULESET, {"ph": number % 10, "rain": number / 7})
    gc.collect()
    before = resident_kb()
    for number in range(cases):
        matcher.judge(RULESET, {"ph": number % 10, "rain": number / 7})
    gc.collect()
    return resident_kb() - before


SMALL = [rule(f"r{n}", Test("ph", "at_least", n), Test("rain", "above", n)) for n in range(10)]


@pytest.mark.parametrize("matcher", [EngineMatcher, PlainMatcher])
def test_a_hundred_thousand_cases_leave_memory_flat(matcher: Any) -> None:
    gained = in_child(lambda: growth_kb(matcher(rulebook(*SMALL)), cases=100_000), seconds=120)
    assert gained < 2048, f"{gained} KB more after 100,000 cases"


def test_a_forked_worker_answers_as_its_parent() -> None:
    matcher = EngineMatcher(rulebook(*CHAIN))
    assert ids(matcher, ph=4) == ["a", "b"]
    assert in_child(lambda: [ids(matcher, ph=4), ids(matcher, ph=6)]) == [["a", "b"], ["n"]]
    assert ids(matcher, ph=6) == ["n"]


class Faulty:
    """The engine's functions with a fault on chosen calls."""

    def __init__(self, function: str, *, calls: set[int], fault: Any) -> None:
        self.real, self.calls, self.fault, self.count = getattr(durable_rules_engine, function), calls, fault, 0

    def __call__(self, *arguments: Any) -> Any:
        self.count += 1
        if self.count in self.calls:
            if isinstance(self.fault, Exception):
                raise self.fault
            return self.fault
        return self.real(*arguments)


@pytest.mark.parametrize("function", ["assert_fact", "start_action_for_state", "complete_and_start_action"])
@pytest.mark.parametrize("call", [1, 2, 3])
def test_a_fault_injected_in_one_case_leaves_the_next_right(
    function: str, call: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    def work() -> list[Any]:
        matcher = EngineMatcher(rulebook(*CHAIN))
        monkeypatch.setattr(
            durable_rules_engine, function, Faulty(function, calls={call}, fault=MemoryError("made up"))
        )
        answers: list[Any] = []
        for ph in (4, 4, 6):
            try:
                answers.append(ids(matcher, ph=ph))
            except MemoryError as fault:
                answers.append(str(fault))
        return answers

    assert in_child(work) == ["made up", ["a", "b"], ["n"]]


def test_facts_that_the_engine_refuses_are_told_as_such(monkeypatch: pytest.MonkeyPatch) -> None:
    matcher = EngineMatcher(rulebook(*CHAIN))
    monkeypatch.setattr(durable_rules_engine, "assert_fact", Faulty("assert_fact", calls={2}, fault=(204, 0)))
    with pytest.raises(EngineFault, match="code 204"):
        ids(matcher, ph=4)
    assert ids(matcher, ph=4) == ["a", "b"]


def test_a_number_without_end_never_reaches_the_engine() -> None:
    with pytest.raises(EngineFault, match="inf"):
        as_json(float("inf"))
