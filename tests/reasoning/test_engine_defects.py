"""Pins on defects of durable_rules 2.0.28 that compiler.py and engine.py go around.

When one of these fails after an upgrade, the engine has changed: read both modules again before going on. Each runs in
a child, since most of them end the process.
"""

from __future__ import annotations

import json
from typing import Any

import durable_rules_engine as raw
import pytest
from durable import engine as host

from tests.reasoning.children import fill_memory_with_garbage, in_child


def load(rules: dict[str, Any]) -> int:
    return int(raw.create_ruleset("pinned", json.dumps(rules)))


def firings(handle: int, *facts: dict[str, Any]) -> int:
    """How many actions run when facts are asserted one after another in one state."""
    count = 0
    for number, fact in enumerate(facts):
        _, offset = raw.assert_fact(handle, json.dumps({"sid": "0", "id": str(number), **fact}))
        started = raw.start_action_for_state(handle, offset)
        message = started[1] if started else None
        while message is not None:
            count += 1
            message = raw.complete_and_start_action(handle, offset)
    return count


def one_rule(condition: Any, *facts: dict[str, Any]) -> Any:
    return in_child(lambda: firings(load({"r": {"all": [{"m": condition}]}}), *facts), seconds=20)


def test_an_or_of_two_true_branches_fires_twice() -> None:
    assert one_rule({"$or": [{"a": 1}, {"b": 2}]}, {"a": 1, "b": 2}) == 2


def test_the_absence_test_alone_matches_a_hidden_fact() -> None:
    assert one_rule({"$nex": {"a": 1}}, {"a": 1}) == 1


def test_an_exponent_in_a_fact_is_a_parse_error() -> None:
    assert "204" in one_rule({"$lt": {"a": 1}}, {"a": 1e-05})


def test_a_whole_division_by_nought_ends_the_process() -> None:
    divided = {"$lt": {"a": {"$div": {"$l": {"$m": "b"}, "$r": {"$m": "c"}}}}}
    assert one_rule(divided, {"a": 1, "b": 4, "c": 0}) == "ended by SIGFPE"


def test_true_is_taken_for_the_word_true() -> None:
    assert one_rule({"a": True}, {"a": "true"}) == 1


def test_deleting_a_state_that_never_fired_ends_the_process() -> None:
    def work() -> str:
        fill_memory_with_garbage()
        handle = load({"r": {"all": [{"m": {"a": 5}}]}})
        raw.assert_fact(handle, '{"sid":"x","id":"1","a":6}')
        raw.delete_state(handle, "x")
        return "exited normally"

    assert in_child(work) == "ended by SIGSEGV"


def test_the_1025th_live_state_is_refused() -> None:
    def work() -> None:
        handle = load({"r": {"all": [{"m": {"a": 5}}]}})
        for number in range(1025):
            raw.assert_fact(handle, f'{{"sid":"{number}","id":"1","a":5}}')

    assert "MemoryError" in in_child(work)


def test_sixty_five_conditions_true_at_once_are_an_error() -> None:
    rules = {f"r{n}": {"all": [{"m": {"$gt": {"a": n}}}]} for n in range(65)}
    assert "303" in in_child(lambda: firings(load(rules), {"a": 999}))


def test_a_negation_fires_though_what_it_denies_comes_later() -> None:
    rules = {"r": {"all": [{"a": {"t": "x"}}, {"n$not": {"t": "y"}}]}}
    assert in_child(lambda: firings(load(rules), {"t": "x"}, {"t": "y"})) == 1


def test_a_bad_number_in_a_batch_silently_drops_the_rest() -> None:
    def work() -> tuple[int, int]:
        handle = load({"r": {"all": [{"m": {"$ex": {"t": 1}}}]}})
        facts: list[dict[str, Any]] = [{"sid": "0", "id": str(n), "t": 1} for n in range(5)]
        facts[2]["v"] = 1e-05
        code, _ = raw.assert_facts(handle, json.dumps(facts))
        return code, len(json.loads(raw.get_facts(handle, "0")))

    code, kept = in_child(work)
    assert code == 0
    assert kept < 5


def test_a_join_on_an_absent_property_is_an_error() -> None:
    joined = {"r": {"all": [{"a": {"t": 1}}, {"b": {"$and": [{"t": 2}, {"$gt": {"k": {"a": "k"}}}]}}]}}
    assert "311" in in_child(lambda: firings(load(joined), {"t": 1}, {"t": 2, "k": 1}))


@pytest.mark.parametrize(("word", "other"), [("ab c", "ab")])
def test_order_of_words_is_wrong(word: str, other: str) -> None:
    assert other < word
    assert one_rule({"$lt": {"a": word}}, {"a": other}) == 0


class QuietHost(host.Host):  # type: ignore[misc]
    def _run(self) -> None:
        """Starts no timer threads."""


def test_an_exception_in_an_action_is_swallowed_into_the_state() -> None:
    def work() -> str:
        quiet = QuietHost()
        quiet.set_rulesets({"pinned": {"r": {"all": [{"m": {"a": 1}}], "run": lambda context: 1 / 0}}})
        return str(quiet.assert_fact("pinned", {"sid": "1", "id": "1", "a": 1})["exception"])

    assert "division" in in_child(work)
