"""Cases that have facts in common are judged together, faster and not otherwise."""

from __future__ import annotations

import pytest

from service.reasoning.engine import EngineMatcher
from service.reasoning.facts import FactFault
from service.reasoning.matcher import Matcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

SHARED = {"site.hardiness_zone": 7.5, "site.chill_hours": 900, "crop": "apple", "crop.kind": "pome"}
RULESET = "suggestion.cultivar"


@pytest.fixture(params=[PlainMatcher, EngineMatcher], ids=["plain", "engine"])
def matcher(request: pytest.FixtureRequest, rulebook: Rulebook) -> Matcher:
    made: Matcher = request.param(rulebook)
    return made


@pytest.mark.parametrize("need", [100, 900, 1500, None])
def test_a_case_that_shares_facts_is_judged_as_if_it_stood_alone(matcher: Matcher, need: float | None) -> None:
    own = {
        "cultivar": "Liberty", "crop": "apple", "chill.basis": "cultivar", "chill.measure": "hours",
        "chill.need_low_hours": need, "chill.supply_over_low_need": None if need is None else 900 / need,
    }  # fmt: skip
    alone = matcher.judge(RULESET, {**SHARED, **own})
    lasting = {name: own.pop(name) for name in ("cultivar", "crop")}
    judge = matcher.sharing(RULESET, SHARED)
    assert [judge(lasting, own).as_bytes() for _ in range(2)] == [alone.as_bytes()] * 2
    assert judge(lasting, own).facts == alone.facts
    assert alone.rules


def test_a_shared_fact_that_nobody_knows_is_refused(matcher: Matcher) -> None:
    with pytest.raises(FactFault):
        matcher.sharing(RULESET, {"site.moon": "full"})({"cultivar": "Liberty"}, {})


def test_what_lasts_is_told_apart_by_the_thing_and_not_by_what_it_was_told_before(matcher: Matcher) -> None:
    judge = matcher.sharing(RULESET, SHARED)
    for need in range(100, 1500, 50):  # each mapping goes when it was judged, and its place in memory may be had again
        lasting = {"cultivar": "Liberty", "chill.basis": "cultivar", "chill.supply_over_low_need": 900 / need}
        alone = matcher.judge(RULESET, {**SHARED, **lasting})
        assert judge(dict(lasting), {}).as_bytes() == alone.as_bytes()
