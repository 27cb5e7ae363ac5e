"""A rule as a person reads it and as data."""

from __future__ import annotations

from typing import Any

from service.domain.units import quantity_text
from service.reasoning.authority import Citation
from service.reasoning.rule import Example, FromFact, Op, Rule, Test
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Fact

_SAID: dict[Op, str] = {
    "is": "is {}",
    "one_of": "is one of {}",
    "none_of": "is known and none of {}",
    "at_least": "is {} or more",
    "above": "is more than {}",
    "at_most": "is {} or less",
    "below": "is less than {}",
    "between": "lies between {}",
    "has": "holds {}",
    "has_any": "holds any of {}",
    "has_none": "is known and holds none of {}",
}


def rule_in_short(rule: Rule) -> dict[str, Any]:
    """The line of a rule in a list."""
    return {
        "id": rule.id,
        "title": rule.title,
        "ruleset": rule.ruleset,
        "outcome": rule.outcome,
        "points": rule.points,
        "text": rule.text,
        "from_memory": any(citation.from_memory for citation in rule.sources),
    }


def rule_in_full(rule: Rule, rulebook: Rulebook) -> dict[str, Any]:
    """Everything that a rule's file says, with each test in words beside the data."""
    return {
        **rule_in_short(rule),
        "when": [_test(test, rulebook) for test in rule.when],
        "conclude": {name: _concluded(value) for name, value in rule.conclude.items()},
        "point_to": list(rule.point_to),
        "why": rule.why,
        "sources": [_citation(citation) for citation in rule.sources],
        "basis": rule.basis,
        "cautions": [{"id": name, "text": rulebook.cautions[name].text} for name in rule.cautions],
        "priority": rule.priority,
        "stratum": rule.stratum,
        "reviewed": {"last": rule.reviewed.last.isoformat(), "next": rule.reviewed.next.isoformat()},
        "examples": [_example(example) for example in rule.examples],
        "file": rule.file,
        "line": rule.line,
    }


def in_words(test: Test, fact: Fact) -> str:
    """A test as a sentence without a full stop."""
    if test.op == "known":
        return f"{fact.meaning}: {'known' if test.value else 'not known'}"
    values = test.value if isinstance(test.value, tuple) else (test.value,)
    joint = " and " if test.op == "between" else ", "
    return f"{fact.meaning}: {_SAID[test.op].format(joint.join(_value(value, fact) for value in values))}"


def _value(value: object, fact: Fact) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return quantity_text(value, fact.unit or "count")
    return str(value).replace("_", " ")


def _test(test: Test, rulebook: Rulebook) -> dict[str, Any]:
    vocabulary = rulebook.vocabulary
    concluded = test.fact.startswith(CONCLUDED)
    fact = vocabulary.conclusions[test.fact.removeprefix(CONCLUDED)] if concluded else vocabulary.facts[test.fact]
    return {
        "fact": test.fact,
        "test": test.op,
        "value": list(test.value) if isinstance(test.value, tuple) else test.value,
        "unit": fact.unit,
        "limits": list(test.limit_names),
        "in_words": in_words(test, fact),
    }


def _concluded(value: object) -> object:
    return {"fact": value.fact} if isinstance(value, FromFact) else value


def _citation(citation: Citation) -> dict[str, Any]:
    return {"id": citation.ref, "where": citation.where, "from_memory": citation.from_memory}


def _example(example: Example) -> dict[str, Any]:
    given = {name: list(value) if isinstance(value, tuple) else value for name, value in example.given.items()}
    return {"name": example.name, "given": given, "expect": "fires" if example.fires else "silent"}
