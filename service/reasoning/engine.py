"""The engine matcher: durable_rules answers the questions asked at the counter. The only module that touches it.

What keeps the C library safe stands here and in compiler.py:

- no host object, hence no timer threads: the C functions are driven directly, under one lock;
- each judging has a state of its own, named by a number that is never used again, and deletes it whatever happens; a
  state that never fired cannot be deleted safely, so a boot fact fires first;
- one flat fact a slice, whose numbers are written without exponents, which the C parser does not read;
- a loaded ruleset is never changed or built again: a new rulebook is for new workers.
"""

from __future__ import annotations

import json
import math
import threading
from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import count
from typing import Any

import durable_rules_engine

from service.domain.errors import FruitwrightError
from service.reasoning.compiler import PARTITION, Slice, Stratum, compile_ruleset
from service.reasoning.conclusions import Fired, Judgement, Settled, settle
from service.reasoning.facts import is_allowed, no_ruleset, refused, strange
from service.reasoning.matcher import Facts, JudgeOwn
from service.reasoning.meaning import holds, same_text
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Fact, Value

_UNUSED = 1  # the engine's code for a fact that no rule took; not an error


class EngineFault(FruitwrightError):
    """The engine refused what it must be able to take; the case is lost, the next one is not."""


class EngineMatcher:
    """Judges cases by durable_rules."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._lock, self._cases, self._names = threading.Lock(), count(1), count(1)
        self._rulesets = {name: _Ruleset(rulebook, name, self) for name in sorted(rulebook.vocabulary.rulesets)}

    def judge(self, ruleset: str, facts: Facts, *, given: Mapping[str, Value] | None = None) -> Judgement:
        """What the rules of a ruleset say of a case."""
        try:
            rules = self._rulesets[ruleset]
        except KeyError:
            raise no_ruleset(ruleset) from None
        return rules.judge(facts, given or {})

    def sharing(self, ruleset: str, shared: Facts) -> JudgeOwn:
        """Judges many cases that have these facts in common; to the engine each is a case like any other."""
        return lambda lasting, own: self.judge(ruleset, {**shared, **lasting, **own})

    def load(self, part: Slice) -> _Loaded:
        """Hands a slice to the engine, once."""
        definition = json.dumps(part.definition, ensure_ascii=False)
        handle = durable_rules_engine.create_ruleset(f"slice{next(self._names)}", definition)
        return _Loaded(handle, part, self)

    def drive(self, handle: int, text: str) -> list[str]:
        """The engine's names of the rules that fire for one fact, in a state that lives no longer than this call."""
        with self._lock:
            state, booted = str(next(self._cases)), False
            try:
                _, offset = durable_rules_engine.assert_fact(handle, f'{{"sid":"{state}","id":"boot","_boot":1}}')
                durable_rules_engine.start_action_for_state(handle, offset)
                booted = True
                durable_rules_engine.complete_and_start_action(handle, offset)
                code, offset = durable_rules_engine.assert_fact(handle, f'{{"sid":"{state}","id":"case"{text}}}')
                if code > _UNUSED:
                    raise EngineFault(f"the engine refused the facts of a case (code {code})")
                return list(_firings(handle, offset))
            finally:
                if booted:
                    durable_rules_engine.delete_state(handle, state)


def _firings(handle: int, offset: int) -> Iterator[str]:
    started = durable_rules_engine.start_action_for_state(handle, offset)
    message = started[1] if started else None
    while message is not None:
        yield message[2 : message.index('"', 2)]  # {"name":{…}}
        message = durable_rules_engine.complete_and_start_action(handle, offset)


class _Loaded:
    def __init__(self, handle: int, part: Slice, engine: EngineMatcher) -> None:
        self.handle, self.part, self.engine = handle, part, engine

    def fired(self, case: Mapping[str, Any]) -> set[int]:
        sent = [f',"{name}":{as_json(case[fact])}' for fact, name in self.part.plain if case.get(fact) is not None]
        sent += [f',"{name}":true' for test, name in self.part.computed if holds(test, case.get(test.fact))]
        names = self.engine.drive(self.handle, "".join(sent) + self.part.guards)
        return {self.part.rule_of[name] for name in names}


class _Ruleset:
    def __init__(self, rulebook: Rulebook, name: str, engine: EngineMatcher) -> None:
        self.name = name
        self.rules: tuple[Rule, ...] = rulebook.rulesets.get(name, ())
        self.facts: Mapping[str, Fact] = rulebook.vocabulary.testable(name)
        self.conclusions = rulebook.vocabulary.concludable(name)
        self.strata = [_LoadedStratum(stratum, engine) for stratum in compile_ruleset(self.rules, self.facts)]

    def judge(self, facts: Facts, given: Mapping[str, Value]) -> Judgement:
        case, given = self.checked(facts, ""), self.checked(given, CONCLUDED)
        sent = {name: same_text(value) if isinstance(value, str) else value for name, value in case.items()}
        fired: set[int] = set()
        for stratum in self.strata:
            concluded = {**self.settled(fired, case).concluded, **given}
            sent |= {CONCLUDED + name: value for name, value in concluded.items()}
            fired |= stratum.fired(sent)
        settled = self.settled(fired, case)
        if given:
            settled = Settled({**settled.concluded, **given}, settled.conflicts)
        return Judgement(self.name, (case,), fired=Fired.of(self.in_order(fired)), settled=settled)

    def checked(self, values: Mapping[str, Any], prefix: str) -> dict[str, Any]:
        for name, value in values.items():
            fact = None if prefix == "" and str(name).startswith(CONCLUDED) else self.facts.get(prefix + str(name))
            if fact is None:
                raise strange(f"{prefix}{name}", ruleset=self.name)
            if not is_allowed(fact, value):
                raise refused(fact, value)
        return dict(values)

    def settled(self, fired: set[int], case: Mapping[str, Any]) -> Settled:
        return settle(self.in_order(fired), case, conclusions=self.conclusions)

    def in_order(self, fired: set[int]) -> list[Rule]:
        return [self.rules[place] for place in sorted(fired)]


class _LoadedStratum:
    def __init__(self, stratum: Stratum, engine: EngineMatcher) -> None:
        self.general = [engine.load(part) for part in stratum.general]
        self.of_crop = {crop: [engine.load(part) for part in parts] for crop, parts in stratum.of_crop.items()}

    def fired(self, case: Mapping[str, Any]) -> set[int]:
        own = self.of_crop.get(case.get(PARTITION, ""), [])
        return {place for part in (*self.general, *own) for place in part.fired(case)}


def as_json(value: Any) -> str:
    """A value as the engine's parser reads it: numbers in full, without exponents.

    >>> as_json(1e-05), as_json(True), as_json(7), as_json('a"b')
    ('0.00001', 'true', '7', '"a\\\\"b"')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if not math.isfinite(value):
        raise EngineFault(f"{value} cannot be told to the engine")
    text = repr(float(value)) if isinstance(value, float) else repr(int(value))
    return format(Decimal(text), "f") if "e" in text else text
