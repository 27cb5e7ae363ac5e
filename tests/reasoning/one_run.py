"""Judges drawn cases in a process of its own and prints one hash of all answers; run by test_determinism.py."""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from service.reasoning.cases import CaseMaker
from service.reasoning.engine import EngineMatcher
from service.reasoning.plain import PlainMatcher
from tests.reasoning.made_up import RULESET, VOCABULARY, RuleMaker, rulebook


def hash_of_all(matcher: str, order: int) -> str:
    """The hash of 200 judgements, with the rules read in an order drawn by its number."""
    rules = RuleMaker(VOCABULARY, seed=5).rules(150)
    Random(order).shuffle(rules)
    book = rulebook(*rules)
    judge = (PlainMatcher if matcher == "plain" else EngineMatcher)(book).judge
    cases = CaseMaker(book, RULESET, seed=5)
    total = hashlib.sha256()
    for _ in range(200):
        total.update(judge(RULESET, cases.case()).as_bytes())
    return total.hexdigest()


if __name__ == "__main__":
    print(hash_of_all(sys.argv[1], int(sys.argv[2])))
