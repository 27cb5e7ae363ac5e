"""Both matchers have one meaning: at every start they judge made-up cases and must agree byte for byte."""

from __future__ import annotations

from service.domain.errors import FruitwrightError
from service.reasoning.cases import CaseMaker
from service.reasoning.matcher import Facts, Matcher
from service.reasoning.rulebook import Rulebook

CASES = 200
SEED = 2026


class AccordFault(FruitwrightError):
    """The two matchers judged one case differently, so neither can be trusted."""


def check_accord(rulebook: Rulebook, one: Matcher, other: Matcher, *, cases: int = CASES) -> int:
    """How many cases were compared, spread over the rulesets; raises AccordFault at the first that differs."""
    rulesets = sorted(rulebook.rulesets)
    compared = 0
    for place, ruleset in enumerate(rulesets):
        maker = CaseMaker(rulebook, ruleset, seed=SEED)
        for _ in range(cases // len(rulesets) + (place < cases % len(rulesets))):
            _compare(one, other, ruleset=ruleset, case=maker.case())
            compared += 1
    return compared


def _compare(one: Matcher, other: Matcher, *, ruleset: str, case: Facts) -> None:
    first, second = one.judge(ruleset, case), other.judge(ruleset, case)
    if first.as_bytes() != second.as_bytes():
        fired = {rule.id for rule in first.rules} ^ {rule.id for rule in second.rules}
        apart = f"rules that fire in one alone: {', '.join(sorted(fired))}" if fired else "the same rules fire"
        raise AccordFault(f"the matchers disagree in {ruleset} ({apart}) on the case {dict(case)}")
