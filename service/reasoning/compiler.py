"""Rules turned into what the engine underneath can hold safely.

The engine (a Rete network in C) is quick and has sharp edges: wrong shapes end the process. So it is given one shape
only: flat facts, and rules that are conjunctions over one fact.

- A stratum is cut into slices, each a ruleset of its own: rules for few crops go to slices of these crops, the others
  to general slices, so a case meets only rules that can apply to it. Slices do not share rules of one stratum, and
  what is concluded travels to the next stratum as plain properties. Hence no joins, no retraction, no negation.
- Within a slice, rules lie in chunks behind a guard (a property that is always sent), which keeps the number of
  conditions that wait at one time, and the length of the engine's lists, far from where they overflow.
- Tests that the engine is known to do right (equality of words and flags, comparison of numbers, one of few words) it
  does; every other test is done here by its meaning and sent as a flag, only when it holds.
- The engine tells property names apart by a 32-bit hash, so names are handed out that do not share one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count
from typing import Any

from service.reasoning.rule import Op, Rule, Test
from service.reasoning.vocabulary import Fact

PARTITION = "crop"
CHUNK = 28  # rules behind one guard
MOST_CHUNKS = 16  # 28 conditions of a chunk and 16 guards stay below the 64 that the engine lets wait at one time
MOST_PROPERTIES = 200  # of one fact; the engine holds 254
MOST_WORDS = 12  # of a `one_of` that the engine itself tests
FEW_CROPS = 4  # a rule for more crops than this lies in the general slices
RESERVED = ("id", "sid", "$s", "$i", "$forward", "_boot")

_COMPARISONS: Mapping[Op, str] = {"at_least": "$gte", "above": "$gt", "at_most": "$lte", "below": "$lt"}


@dataclass(frozen=True, slots=True, eq=False)
class Slice:
    """One ruleset of the engine: its definition, the properties that a case must send, and whose rules fired."""

    definition: Mapping[str, Any]
    plain: tuple[tuple[str, str], ...]  # (fact, property) sent as they are
    computed: tuple[tuple[Test, str], ...]  # (test, property) sent when the test holds
    guards: str
    rule_of: Mapping[str, int]  # the engine's rule name → the rule's place in its ruleset


@dataclass(frozen=True, slots=True)
class Stratum:
    """The slices of one stratum: those that every case meets, and those of each crop."""

    general: tuple[Slice, ...]
    of_crop: Mapping[str, tuple[Slice, ...]]


def compile_ruleset(rules: Sequence[Rule], facts: Mapping[str, Fact]) -> tuple[Stratum, ...]:
    """The strata of one ruleset, whose rules come in their fixed order."""
    numbers = sorted({rule.stratum for rule in rules})
    placed = list(enumerate(rules))
    return tuple(_stratum([pair for pair in placed if pair[1].stratum == number], facts) for number in numbers)


def _stratum(rules: Sequence[tuple[int, Rule]], facts: Mapping[str, Fact]) -> Stratum:
    general: list[tuple[int, Rule]] = []
    by_crop: dict[str, list[tuple[int, Rule]]] = {}
    for pair in rules:
        crops = crops_of(pair[1])
        if crops is None:
            general.append(pair)
        for crop in crops or ():
            by_crop.setdefault(crop, []).append(pair)
    return Stratum(
        tuple(_slices(general, facts, without_crop=False)),
        {crop: tuple(_slices(own, facts, without_crop=True)) for crop, own in sorted(by_crop.items())},
    )


def crops_of(rule: Rule) -> tuple[str, ...] | None:
    """The crops whose slices a rule lies in; None when it lies in the general ones."""
    tests = [test for test in rule.when if test.fact == PARTITION]
    if len(tests) != 1 or tests[0].op not in ("is", "one_of"):
        return None
    value = tests[0].value
    crops = tuple(str(crop) for crop in value) if isinstance(value, tuple) else (str(value),)
    return crops if len(crops) <= FEW_CROPS else None


def _slices(rules: Sequence[tuple[int, Rule]], facts: Mapping[str, Fact], *, without_crop: bool) -> Iterator[Slice]:
    writer = _Writer(facts)
    for place, rule in rules:
        tests = [test for test in rule.when if not (without_crop and test.fact == PARTITION)]
        if not writer.has_room(tests):
            yield writer.slice()
            writer = _Writer(facts)
        writer.add(place, tests)
    if writer.rule_of:
        yield writer.slice()


@dataclass(slots=True)
class _Writer:
    facts: Mapping[str, Fact]
    names: _Names = field(default_factory=lambda: _Names(RESERVED))
    definition: dict[str, Any] = field(default_factory=lambda: {"boot": {"all": [{"m": {"_boot": 1}}]}})
    guards: list[str] = field(default_factory=list)
    plain: dict[str, str] = field(default_factory=dict)
    computed: dict[Test, str] = field(default_factory=dict)
    rule_of: dict[str, int] = field(default_factory=dict)

    def has_room(self, tests: Sequence[Test]) -> bool:
        properties = len(self.plain) + len(self.computed) + len(tests)
        return len(self.rule_of) < CHUNK * MOST_CHUNKS and properties + MOST_CHUNKS < MOST_PROPERTIES

    def add(self, place: int, tests: Sequence[Test]) -> None:
        if len(self.rule_of) % CHUNK == 0:
            self.guards.append(self.names.new("g"))
        words_first = sorted(tests, key=lambda test: (test.op != "is", test.op != "one_of", test.fact, test.op))
        conditions = [{self.guards[-1]: 1}, *(self.condition(test) for test in words_first)]
        name = self.names.new("r")
        self.rule_of[name] = place
        self.definition[name] = {"all": [{"m": {"$and": conditions} if len(conditions) > 1 else conditions[0]}]}

    def condition(self, test: Test) -> dict[str, Any]:
        if not is_native(test, self.facts[test.fact]):
            return {self.flag(test): True}
        name = self.plain.get(test.fact) or self.plain.setdefault(test.fact, self.names.new("f"))
        value: Any = test.value
        if test.op == "is":
            return {name: value}
        if test.op == "one_of":
            return {"$or": [{name: word} for word in sorted(value)]}
        if test.op == "between":
            return {"$and": [{"$gte": {name: value[0]}}, {"$lte": {name: value[1]}}]}
        return {_COMPARISONS[test.op]: {name: value}}

    def flag(self, test: Test) -> str:
        return self.computed.get(test) or self.computed.setdefault(test, self.names.new("t"))

    def slice(self) -> Slice:
        return Slice(
            definition=self.definition,
            plain=tuple(self.plain.items()),
            computed=tuple(self.computed.items()),
            guards="".join(f',"{guard}":1' for guard in self.guards),
            rule_of=self.rule_of,
        )


def is_native(test: Test, fact: Fact) -> bool:
    """Whether the engine itself does a test right."""
    if fact.type == "number":
        literals = test.value if isinstance(test.value, tuple) else (test.value,)
        known_ops = test.op in ("is", "between", *_COMPARISONS)
        return known_ops and all("e" not in repr(number) for number in literals)
    if fact.type == "choice":
        words = test.value if isinstance(test.value, tuple) else ()
        return test.op == "is" or (test.op == "one_of" and len(words) <= MOST_WORDS)
    return fact.type == "flag" and test.op == "is"


class _Names:
    """Hands out short names, no two of which the engine would take for one."""

    def __init__(self, taken: Sequence[str]) -> None:
        self._hashes = {fnv(name) for name in taken}
        self._numbers = count()

    def new(self, letter: str) -> str:
        for number in self._numbers:
            name = f"{letter}{number}"
            if fnv(name) not in self._hashes:
                self._hashes.add(fnv(name))
                return name
        raise AssertionError("an endless count ended")


def fnv(text: str) -> int:
    """The 32-bit FNV-1a hash by which the engine tells names apart (Fowler, Noll and Vo; ASCII text).

    >>> hex(fnv("a"))
    '0xe40c292c'
    """
    total = 0x811C9DC5
    for byte in text.encode("ascii"):
        total = ((total ^ byte) * 0x01000193) & 0xFFFFFFFF
    return total
