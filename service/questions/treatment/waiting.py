"""The net under every verdict: a prohibition that waits for a fact nobody knows is never passed over.

A rule that forbids waits where nothing known speaks against it and a fact of it is unknown. It makes no difference
which rule that is: whoever writes a new prohibition has it watched from the first day. What the person who sprays sees
to on the spot (`left_to_user` in the vocabulary) stands in the answer as a condition; anything else is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from service.questions.treatment.question import Waiting
from service.reasoning.conclusions import Judgement
from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Value

BARRING = ("forbid", "set_aside")


def waiting_prohibitions(judgement: Judgement, rulebook: Rulebook) -> tuple[Waiting, ...]:
    """The rules of the ruleset that would forbid if a fact were known that is not."""
    return tuple(_waiting(judgement, rulebook))


def _waiting(judgement: Judgement, rulebook: Rulebook) -> Iterator[Waiting]:
    facts = rulebook.vocabulary.facts
    for rule in rulebook.rulesets.get(judgement.ruleset, ()):
        if rule.outcome in BARRING:
            names = _unknown(rule, judgement.facts, judgement.concluded)
            if names:
                yield Waiting(rule, names, all(facts[name].left_to_user for name in names))


def _unknown(rule: Rule, facts: Mapping[str, Value], concluded: Mapping[str, Value]) -> tuple[str, ...]:
    """The unknown facts of a rule; none where it fires already or a known fact rules it out.

    A conclusion that is not drawn counts as known not to hold.
    """
    open_facts: dict[str, None] = {}
    for test in rule.when:
        if test.fact.startswith(CONCLUDED):
            if not holds(test, concluded.get(test.fact.removeprefix(CONCLUDED))):
                return ()
        elif facts.get(test.fact) is not None or not test.needs_known:
            if not holds(test, facts.get(test.fact)):
                return ()
        else:
            open_facts[test.fact] = None
    return tuple(open_facts)
