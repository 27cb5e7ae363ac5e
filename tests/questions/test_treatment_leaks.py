"""The search for a leak: whatever is asked, no product is allowed that breaks a limit of its label or the law.

The limits are those of label_law.py, which is written from the label and shares no code with the service; the
regulation behind each stands in its table. tests/benchmarks/treatment_leaks.py searches on, and sweeps all discrete
facts.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.reasoning.rulebook import Rulebook
from tests.questions.label_counter import LabelCounter
from tests.questions.label_law import FORBIDDEN
from tests.questions.label_law_of_use import breaches
from tests.questions.label_uses import Plain, made_up_record, made_up_use

USES = 2000
PRODUCTS = 2


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> LabelCounter:
    """A counter with the real rulebook."""
    return LabelCounter(rulebook)


@settings(max_examples=USES, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck), database=None)
@given(data=st.data())
def test_no_use_is_allowed_that_breaks_a_limit(counter: LabelCounter, data: st.DataObject) -> None:
    def choose(among: object) -> object:
        return data.draw(st.sampled_from(among))  # type: ignore[arg-type]

    shelf = [made_up_record(choose, number) for number in range(1, PRODUCTS + 1)]  # type: ignore[arg-type]
    use = made_up_use(choose, shelf)  # type: ignore[arg-type]
    for name, verdict, found in judged(counter, use, shelf):
        assert verdict != "allowed" or not found, f"{name} is allowed and breaks: {found}"
        assert verdict == "forbidden" or not found & set(FORBIDDEN), f"{name}: {verdict}, though it breaks {found}"


def test_the_search_meets_every_verdict_and_nearly_every_limit(counter: LabelCounter) -> None:
    verdicts, met = Counter[str](), set[str]()
    for use, shelf in drawn(seed=4, uses=2500):
        for _, verdict, found in judged(counter, use, shelf):
            verdicts[verdict] += 1
            met |= found
    assert min(verdicts[name] for name in ("allowed", "caution", "forbidden")) > 100
    assert sorted(set(FORBIDDEN) - met) == []


@pytest.mark.parametrize(
    ("rule", "limit"),
    [
        ("forbid-a-harvest-that-comes-too-soon", "harvest too soon"),
        ("forbid-once-the-yearly-uses-are-used-up", "applications used up"),
        ("forbid-a-repeat-that-comes-too-soon", "too soon to repeat"),
        ("forbid-a-stage-that-the-label-bars", "stage forbidden"),
        ("forbid-a-product-not-registered-in-the-state", "not registered in the state"),
        ("forbid-a-product-not-made-for-homes", "not for homes"),
        ("forbid-in-wind", "windy"),
        ("forbid-oil-in-heat", "oil in heat"),
    ],
)
def test_the_search_would_find_the_leak_if_a_rule_were_missing(rulebook: Rulebook, rule: str, limit: str) -> None:
    torn = LabelCounter(without(rulebook, rule))
    leaks = (
        found & set(FORBIDDEN)
        for use, shelf in drawn(seed=7, uses=8000)
        for _, verdict, found in judged(torn, use, shelf)
        if verdict != "forbidden"
    )
    assert any(limit in leak for leak in leaks)


def judged(counter: LabelCounter, use: Plain, shelf: list[Plain]) -> Iterator[tuple[str, str, set[str]]]:
    """Each product with its verdict and the limits that the use would break."""
    by_name = {record["id"]: record for record in shelf}
    for name, verdict in counter.verdicts(use, shelf).items():
        yield name, verdict, breaches(by_name[name], use, shelf=by_name)


def drawn(*, seed: int, uses: int) -> Iterator[tuple[Plain, list[Plain]]]:
    """Uses drawn at random, each on a shelf of its own."""
    draw = random.Random(seed)
    for _ in range(uses):
        shelf = [made_up_record(draw.choice, number) for number in range(1, PRODUCTS + 1)]
        yield made_up_use(draw.choice, shelf), shelf


def without(rulebook: Rulebook, rule: str) -> Rulebook:
    """The rulebook as if a rule had never been written."""
    rulesets: Mapping[str, object] = {
        name: tuple(one for one in rules if one.id != rule) for name, rules in rulebook.rulesets.items()
    }
    rules = MappingProxyType({name: one for name, one in rulebook.rules.items() if name != rule})
    return replace(rulebook, rules=rules, rulesets=MappingProxyType(rulesets))  # type: ignore[arg-type]
