"""The envelope of every answer: its rulebook, the answer, the conclusions, the cautions, and what is unknown."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from service.present.sentences import Sentences
from service.reasoning.authority import Citation
from service.reasoning.conclusions import Conclusion
from service.reasoning.rule import Outcome, Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

ORDER: dict[Outcome, int] = {
    "forbid": 0,
    "set_aside": 1,
    "advise": 2,
    "caution": 3,
    "prefer": 4,
    "mark_down": 5,
    "say": 6,
    "point_to": 7,
}


@dataclass(frozen=True, slots=True)
class About:
    """A conclusion and what it is about: an id of the catalogue, or None for the answer as a whole."""

    conclusion: Conclusion
    subject: str | None = None


class Advice:
    """Writes the envelope of one answer."""

    def __init__(self, rulebook: Rulebook, sentences: Sentences) -> None:
        self._book = rulebook
        self._sentences = sentences
        self._of_rule: dict[str, dict[str, Any]] = {}
        self._of_fact: dict[tuple[str, type, Value | None], dict[str, Any]] = {}

    def envelope(
        self, answer: dict[str, Any], *, concluded: Sequence[About], not_judged: Iterable[str]
    ) -> dict[str, Any]:
        """The whole answer as plain data."""
        return {
            "rulebook": self._book.digest,
            "answer": answer,
            "conclusions": [self.conclusion(about) for about in concluded],
            "cautions": self.cautions(about.conclusion.rule for about in concluded),
            "not_judged": self.not_judged(not_judged),
        }

    def conclusion(self, about: About) -> dict[str, Any]:
        """One conclusion with its reason, the facts behind it and who says so."""
        conclusion = about.conclusion
        return {
            "rule": conclusion.rule.id,
            "about": about.subject,
            "outcome": conclusion.outcome,
            "points": conclusion.points,
            "text": self._sentences.text(conclusion),
            "facts": [self._fact(name, value) for name, value in conclusion.facts],
            **self._lasting(conclusion),
        }

    def cautions(self, rules: Iterable[Rule]) -> list[dict[str, str]]:
        """The cautions that rules bring along, each once, in the order in which they are met."""
        wanted = dict.fromkeys(caution for rule in rules for caution in rule.cautions)
        return [{"id": name, "text": self._sentences.caution(name)} for name in wanted]

    def not_judged(self, facts: Iterable[str]) -> list[dict[str, str | None]]:
        """What is not known, what it means, and what would have to be asked."""
        return [
            {"fact": name, "meaning": self._sentences.fact(name).meaning, "needs": self._sentences.fact(name).needs}
            for name in facts
        ]

    def reasons(self, conclusions: Iterable[Conclusion]) -> list[dict[str, Any]]:
        """Conclusions in short: what to do first, then why."""
        return [
            {"rule": one.rule.id, "outcome": one.outcome, "text": self._sentences.text(one)}
            for one in sorted(conclusions, key=_order)
        ]

    def _lasting(self, conclusion: Conclusion) -> dict[str, Any]:
        """What is the same whenever the rule speaks."""
        rule = conclusion.rule
        told = self._of_rule.get(rule.id)
        if told is None:
            told = self._of_rule[rule.id] = {
                "why": self._sentences.why(conclusion),
                "sources": [self._source(citation) for citation in rule.sources],
                "basis": rule.basis,
                "cautions": list(rule.cautions),
            }
        return told

    def _source(self, citation: Citation) -> dict[str, Any]:
        source = self._book.sources[citation.ref]
        return {
            "id": source.id,
            "title": source.title,
            "publisher": source.publisher,
            "year": source.year,
            "url": source.url,
            "where": citation.where,
            "from_memory": citation.from_memory,
        }

    def _fact(self, name: str, value: Value | None) -> dict[str, Any]:
        key = name, value.__class__, value  # the class, since 7 and 7.0 are equal and do not look alike
        told = self._of_fact.get(key)
        if told is None:
            told = self._of_fact[key] = self._fact_told(name, value)
        return told

    def _fact_told(self, name: str, value: Value | None) -> dict[str, Any]:
        fact = self._sentences.fact(name)
        return {
            "fact": name,
            "value": list(value) if isinstance(value, tuple) else value,
            "unit": fact.unit,
            "shown": self._sentences.value(name, value),
            "meaning": fact.meaning,
        }


def _order(conclusion: Conclusion) -> int:
    return ORDER[conclusion.outcome]
