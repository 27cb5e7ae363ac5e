"""The `then` of a rule: what it concludes, its outcome, and the sentence that is read out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from service.knowledge import strict_yaml
from service.reasoning.entry import Entry
from service.reasoning.known import Known, is_limit, names_in, whole_value
from service.reasoning.rule import OUTCOMES, FromFact, Outcome, Test
from service.reasoning.templates import LIMIT
from service.reasoning.vocabulary import CONCLUDED, Fact, Value
from service.reasoning.words import instead

_WITH_SAY: tuple[Outcome, ...] = ("prefer", "mark_down", "point_to")
POINTS = "points"


@dataclass(frozen=True, slots=True)
class Then:
    """What follows."""

    outcome: Outcome
    text: str
    placeholders: tuple[str, ...]
    points: int = 0
    point_to: tuple[str, ...] = ()
    conclude: Mapping[str, Value | FromFact] = field(default_factory=dict)
    limits: Mapping[str, float] = field(default_factory=dict)


@dataclass(slots=True)
class ThenReader:
    """Reads `then` of one rule; `tests` are those of its `when`."""

    entry: Entry
    ruleset: str
    known: Known
    tests: tuple[Test, ...]
    limits: dict[str, float] = field(default_factory=dict)

    def read(self) -> Then:
        """The whole of `then`."""
        then = self.entry.inner("then")
        then.only("conclude", *OUTCOMES)
        outcome, text_key = self._outcome(then)
        conclude = self._conclude(then.inner("conclude")) if "conclude" in then else {}
        names = names_in(then, text_key)
        for name in names:
            self._placeholder(then, name, conclude=conclude, key=text_key)
        return Then(
            outcome=outcome,
            text=then.text(text_key),
            placeholders=names,
            points=self._points(then, outcome),
            point_to=then.words("point_to") if outcome == "point_to" else (),
            conclude=conclude,
            limits=self.limits,
        )

    def _outcome(self, then: Entry) -> tuple[Outcome, str]:
        given = [outcome for outcome in OUTCOMES if outcome in then and outcome != "say"]
        if len(given) > 1:
            raise then.fault(f"a rule has one outcome, and this one has {' and '.join(given)}; write two rules")
        if not given and "say" not in then:
            raise then.fault(f"a rule has an outcome with a sentence; write one of: {', '.join(OUTCOMES)}")
        outcome = given[0] if given else "say"
        if outcome in _WITH_SAY and "say" not in then:
            raise then.fault(f"'{outcome}' needs a sentence beside it; write say: and what to read out")
        if given and outcome not in _WITH_SAY and "say" in then:
            raise then.fault(f"the sentence stands under '{outcome}' itself; take 'say' away", key="say")
        return outcome, "say" if outcome in _WITH_SAY else outcome

    def _points(self, then: Entry, outcome: Outcome) -> int:
        if outcome not in ("prefer", "mark_down"):
            return 0
        raw: Any = then.data[outcome]
        if isinstance(raw, strict_yaml.Mapping):
            raw = self._limit(then.inner(outcome), unit=POINTS)
        whole = isinstance(raw, int | float) and not isinstance(raw, bool) and raw == int(raw)
        if not whole or not 1 <= raw <= 100:
            raise then.fault(f"'{outcome}' takes whole points from 1 to 100, not {raw!r}", key=outcome)
        return int(raw) if outcome == "prefer" else -int(raw)

    def _limit(self, entry: Entry, *, unit: str | None) -> float:
        entry.only("limit")
        limit = self.known.limit(entry, entry.data.get("limit"), unit=unit)
        self.limits[limit.name] = limit.value
        return limit.value

    def _conclude(self, lines: Entry) -> Mapping[str, Value | FromFact]:
        allowed = self.known.vocabulary.concludable(self.ruleset)
        concluded: dict[str, Value | FromFact] = {}
        for name, raw in lines.data.items():
            if name not in allowed:
                what = f"there is no conclusion '{name}' for {self.ruleset} in vocabulary.yaml{instead(name, allowed)}"
                raise lines.fault(what, key=name)
            concluded[name] = self._concluded(lines, name, raw=raw, fact=allowed[name])
        return concluded

    def _concluded(self, lines: Entry, name: str, *, raw: Any, fact: Fact) -> Value | FromFact:
        if not isinstance(raw, strict_yaml.Mapping):
            return whole_value(lines, name, fact=fact)
        inner = lines.inner(name)
        if "fact" in raw:
            return self._from_fact(inner, fact)
        value = self._limit(inner, unit=fact.unit)
        if not fact.low <= value <= fact.high:
            raise inner.fault(f"{value} lies outside the range of '{name}', [{fact.low}, {fact.high}]", key="limit")
        return value

    def _from_fact(self, inner: Entry, target: Fact) -> FromFact:
        inner.only("fact")
        source = self.known.testable_fact(inner, inner.text("fact"), ruleset=self.ruleset)
        if source.name.startswith(CONCLUDED):
            raise inner.fault("a conclusion takes the value of a fact, not of another conclusion", key="fact")
        alike = (source.type, source.unit) == (target.type, target.unit) and source.value_set <= target.value_set
        if not alike or source.low < target.low or source.high > target.high:
            raise inner.fault(f"'{source.name}' can be what '{target.name}' cannot (type, unit, values or range)",
                              key="fact")  # fmt: skip
        if not (source.always or self._tested(source.name)):
            raise inner.fault(f"'{source.name}' may be unknown here; test it in `when`", key="fact")
        return FromFact(source.name)

    def _tested(self, name: str) -> bool:
        return any(test.fact == name and test.needs_known for test in self.tests)

    def _placeholder(self, then: Entry, name: str, *, conclude: Mapping[str, Any], key: str) -> None:
        if is_limit(name):
            limit = name.removeprefix(LIMIT)
            if limit not in self.known.limits:
                hint = instead(limit, self.known.limits)
                raise then.fault(f"the sentence names the limit '{limit}', which limits.yaml has not{hint}", key=key)
            self.limits[limit] = self.known.limits[limit].value
            return
        testable = self.known.vocabulary.testable(self.ruleset)
        if name in testable and not name.startswith(CONCLUDED):
            if not (testable[name].always or self._tested(name)):
                raise then.fault(f"{{{name}}} may be unknown here; test it in `when` or leave it out", key=key)
        elif name not in conclude and not self._tested(CONCLUDED + name):
            raise then.fault(f"{{{name}}} is {self._unread(name, testable, conclude)}", key=key)

    def _unread(self, name: str, testable: Mapping[str, Fact], conclude: Mapping[str, Any]) -> str:
        if name.startswith(CONCLUDED):
            return f"written without 'concluded.': {{{name.removeprefix(CONCLUDED)}}}"
        if CONCLUDED + name in testable:
            return f"neither concluded here nor tested in `when` as concluded.{name}"
        facts = [fact for fact in testable if not fact.startswith(CONCLUDED)]
        return f"no fact of {self.ruleset}, conclusion or limit{instead(name, [*facts, *conclude])}"
