"""Made-up rulebooks for the tests of the reasoning room: small ones written out, large ones drawn by chance."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

from service.domain.source import Source
from service.knowledge.catalogue import Catalogue
from service.reasoning.authority import Citation
from service.reasoning.meaning import OPS_OF
from service.reasoning.rule import FromFact, Reviewed, Rule, Test
from service.reasoning.rulebook import Rulebook, assemble
from service.reasoning.strata import stratify
from service.reasoning.vocabulary import CONCLUDED, Fact, Vocabulary

RULESET = "orchard.tree"
CATALOGUE = Catalogue(
    crops={}, cultivars={}, rootstocks={}, diseases=frozenset(),
    sources={"a-guide": Source(id="a-guide", title="A guide", publisher="A university")},
)  # fmt: skip


def fact(name: str, kind: Any, **more: Any) -> Fact:
    values = tuple(more.pop("values", ()))
    return Fact(
        name, f"the {name}", kind, frozenset({RULESET}), values=values, value_set=frozenset(values),
        unit="ft" if kind == "number" else None, **more
    )  # fmt: skip


def vocabulary(facts: Iterable[Fact], conclusions: Iterable[Fact] = ()) -> Vocabulary:
    return Vocabulary(
        {one.name: one for one in facts},
        {one.name.removeprefix(CONCLUDED): one for one in conclusions},
        frozenset({RULESET}),
    )


FACTS = (
    fact("crop", "choice", values=("apple", "peach", "plum", "quince"), always=True),
    fact("soil", "choice", values=("clay", "cla", "sand", "a\"b", "a\\b", "pšenice", "é")),
    fact("ph", "number", low=-100.0, high=1000.0),
    fact("rain", "number", low=-1e6, high=1e6),
    fact("irrigated", "flag"),
    fact("pests", "list", values=("aphid", "moth", "scab")),
    fact("label", "name"),
)  # fmt: skip
CONCLUSIONS = (
    fact("concluded.verdict", "choice", values=("good", "fair", "bad"), more_cautious=("bad", "fair", "good")),
    fact("concluded.count", "number", low=0.0, high=100.0, more_cautious="highest"),
    fact("concluded.late", "flag"),
    fact("concluded.form", "choice", values=("bush", "fan")),
    fact("concluded.depth", "number", low=-100.0, high=1000.0, more_cautious="lowest"),
)
VOCABULARY = vocabulary(FACTS, CONCLUSIONS)


def rule(rule_id: str, *tests: Test, **more: Any) -> Rule:
    """A rule that says its id when all tests hold."""
    given: dict[str, Any] = {
        "title": rule_id, "outcome": "say", "text": f"This is {rule_id}.", "points": 0, "conclude": {},
        "why": "It is made up.", "sources": (Citation("a-guide", "page 1"),), "basis": None, "cautions": (),
        "priority": 100, "reviewed": Reviewed(date(2026, 1, 1), date(2027, 1, 1)), "examples": (),
        "file": "rules/orchard/tree/made_up.yaml", "line": 1, "ruleset": RULESET,
    }  # fmt: skip
    return Rule(id=rule_id, when=tests, **{**given, **more})


def rulebook(*rules: Rule, words: Vocabulary = VOCABULARY) -> Rulebook:
    placed = stratify(rules)
    return Rulebook(
        catalogue=CATALOGUE, vocabulary=words, limits={}, cautions={}, rules={one.id: one for one in placed},
        rulesets={RULESET: placed}, retired={}, wording={"es": {}}, digest="made up",
    )  # fmt: skip


def written(folder: Path, files: Mapping[str, str], *, overlay: Path | None = None) -> Rulebook:
    """The rulebook of files written out; a test gives what it is about and takes the rest from here."""
    write(folder, files)
    return assemble(folder, CATALOGUE, overlay=overlay)


def write(folder: Path, files: Mapping[str, str]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


class RuleMaker:
    """Draws rules by chance; the same seed draws the same rules."""

    def __init__(self, words: Vocabulary, *, seed: int) -> None:
        self.chance, self.words = Random(seed), words
        self.facts = sorted(words.facts.values(), key=lambda one: one.name)
        self.conclusions = sorted(words.conclusions)

    def rules(self, number: int, *, layers: int = 3) -> list[Rule]:
        """Rules in layers that read one another; one rule for each conclusion makes sure that somebody concludes it."""
        makers = [self.rule(f"m-{name}", layer=0, name=name) for name in self.conclusions]
        return makers + [self.rule(f"r{place}", layer=self.chance.randrange(layers)) for place in range(number)]

    def rule(self, rule_id: str, *, layer: int, name: str | None = None) -> Rule:
        chance = self.chance
        tests = [self.test(one) for one in chance.sample(self.facts, chance.randint(1, min(4, len(self.facts))))]
        if layer:
            tests.append(self.test(self.words.conclusions[self.layered(layer - 1)]))
        if name is None and chance.random() < 0.5:
            name = self.layered(layer)
        conclude = {name: self.concluded(name, tests)} if name else {}
        points = chance.choice((0, 0, 0, 5, -7))
        plain = chance.choice(("say", "advise", "set_aside"))
        outcome = "prefer" if points > 0 else "mark_down" if points < 0 else plain
        priority = chance.choice((50, 100))
        return rule(rule_id, *tests, outcome=outcome, points=points, conclude=conclude, priority=priority)

    def layered(self, layer: int) -> str:
        return self.chance.choice(self.conclusions[layer::3])

    def concluded(self, name: str, tests: Iterable[Test]) -> Any:
        target = self.words.conclusions[name]
        if target.name == "concluded.depth" and any(test.fact == "ph" and test.needs_known for test in tests):
            return FromFact("ph")
        return self.value(target)

    def test(self, one: Fact) -> Test:
        op = self.chance.choice([op for op in OPS_OF[one.type] if op != "known" or self.chance.random() < 0.4])
        if op == "known":
            return Test(one.name, op, self.chance.random() < 0.5)
        if op == "between":
            return Test(one.name, op, tuple(sorted((self.value(one), self.value(one)))))
        if op in ("one_of", "none_of", "has_any", "has_none"):
            return Test(one.name, op, tuple(dict.fromkeys(self.value(one) for _ in range(self.chance.randint(1, 14)))))
        return Test(one.name, op, self.value(one))

    def value(self, one: Fact) -> Any:
        if one.type == "number":
            number = self.chance.uniform(one.low, one.high)
            return self.chance.choice((round(number), round(number, 1), number, one.low, 0, 1e-05))
        if one.type == "flag":
            return self.chance.random() < 0.5
        return self.chance.choice(("some name", "é", "x") if one.type == "name" else one.values)
