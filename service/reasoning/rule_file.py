"""One file of rules, read strictly: the heads, their order, and a sentence of its own for each that is missing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from service.reasoning.authority import read_authority
from service.reasoning.entry import Entry, read_entry
from service.reasoning.example_part import check_coverage, read_examples
from service.reasoning.faults import Faults
from service.reasoning.known import Known, refuse_braces
from service.reasoning.rule import Example, Reviewed, Rule, Test
from service.reasoning.then_part import Then, ThenReader
from service.reasoning.when_part import read_when
from service.reasoning.words import instead

HEADS = ("id", "title", "when", "then", "why", "source", "basis", "cautions", "priority", "reviewed", "examples")
MISSING = {
    "id": "the rule has no id; write id: and a short name in small letters and hyphens, such as thin-early-peaches",
    "title": "the rule has no title; write title: and one line that a colleague would recognise it by",
    "when": "the rule does not say when it applies; write when: and at least one line, such as crop: {is: peach}",
    "then": "the rule does not say what follows; write then: with an outcome and a sentence",
    "why": "the rule gives no reason; write why: and one or two sentences that a grower would accept",
    "reviewed": "the rule does not say when it was looked through; write reviewed: {last: a date, next: a date}",
    "examples": "the rule has no examples; write examples: with one that fires and one that is silent",
}
DEFAULT_PRIORITY = 100
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*\Z")
_LONGEST_ID = 80


def read_rules(path: Path, *, root: Path, ruleset: str, known: Known) -> list[Rule]:
    """The rules of a file, each with its place; raises every fault found in it together."""
    top = read_entry(path, root=root)
    top.only("rules")
    faults, rules = Faults(), list[Rule]()
    for entry in top.each("rules"):
        with faults.kept():
            rules.append(_RuleReader(entry, ruleset, known).read())
    faults.stop_if_any()
    return rules


@dataclass(slots=True)
class _RuleReader:
    entry: Entry
    ruleset: str
    known: Known

    def read(self) -> Rule:
        self.entry = Entry(self.entry.file, self.entry.data, self._id())
        self._heads()
        faults = Faults()
        for part in (self._rest, self._tests, self._examples, self._coverage, self._then):
            with faults.kept():
                part()
        faults.stop_if_any()
        return self._rule(self._tests(), self._then(), self._examples())

    def _tests(self) -> tuple[Test, ...]:
        return read_when(self.entry, ruleset=self.ruleset, known=self.known)

    def _then(self) -> Then:
        return ThenReader(self.entry, self.ruleset, self.known, self._tests()).read()

    def _coverage(self) -> None:
        check_coverage(self.entry, tests=self._tests(), examples=self._examples())

    def _examples(self) -> tuple[Example, ...]:
        return read_examples(self.entry, ruleset=self.ruleset, known=self.known)

    def _id(self) -> str:
        if "id" not in self.entry:
            raise self.entry.fault(MISSING["id"])
        name = self.entry.text("id")
        if not _ID.match(name) or len(name) > _LONGEST_ID:
            raise self.entry.fault(f"the id '{name}' must be small letters, digits and single hyphens", key="id")
        return name

    def _heads(self) -> None:
        self.entry.only(*HEADS)
        for head, sentence in MISSING.items():
            if head not in self.entry:
                raise self.entry.fault(sentence)
        given = list(self.entry.data)
        right = [head for head in HEADS if head in given]
        for head, expected in zip(given, right, strict=True):
            if head != expected:
                raise self.entry.fault(f"'{head}' stands too early; the order is: {', '.join(HEADS)}", key=head)

    def _rest(self) -> None:
        refuse_braces(self.entry, "title")
        refuse_braces(self.entry, "why")
        read_authority(self.entry, sources=self.known.sources)
        self._reviewed()
        self._cautions()
        self._priority()

    def _reviewed(self) -> Reviewed:
        inner = self.entry.inner("reviewed")
        inner.only("last", "next")
        reviewed = Reviewed(inner.date("last"), inner.date("next"))
        if reviewed.next <= reviewed.last:
            raise inner.fault("the next review must come after the last", key="next")
        return reviewed

    def _cautions(self) -> tuple[str, ...]:
        if "cautions" not in self.entry:
            return ()
        names = self.entry.words("cautions")
        for name in names:
            if name not in self.known.cautions:
                hint = instead(name, self.known.cautions)
                raise self.entry.fault(f"there is no caution '{name}' in cautions.yaml{hint}", key="cautions")
        return names

    def _priority(self) -> int:
        priority = self.entry.number("priority") if "priority" in self.entry else DEFAULT_PRIORITY
        if not isinstance(priority, int) or not 0 <= priority <= 10_000:
            raise self.entry.fault("'priority' is a whole number from 0 to 10000; lower comes first", key="priority")
        return priority

    def _rule(self, tests: tuple[Test, ...], then: Then, examples: tuple[Example, ...]) -> Rule:
        authority = read_authority(self.entry, sources=self.known.sources)
        tested_limits = {name: self.known.limits[name].value for test in tests for name in test.limit_names}
        return Rule(
            id=str(self.entry.name),
            title=self.entry.text("title"),
            when=tests,
            outcome=then.outcome,
            text=then.text,
            points=then.points,
            conclude=then.conclude,
            why=self.entry.text("why"),
            sources=authority.sources,
            basis=authority.basis,
            cautions=self._cautions(),
            priority=self._priority(),
            reviewed=self._reviewed(),
            examples=examples,
            file=self.entry.file,
            line=self.entry.line(),
            ruleset=self.ruleset,
            point_to=then.point_to,
            limits={**tested_limits, **then.limits},
            placeholders=then.placeholders,
        )
