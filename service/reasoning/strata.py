"""The order of inference: a rule that reads `concluded.x` runs after all rules that conclude x."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from service.domain.errors import KnowledgeFault
from service.reasoning.faults import Faults
from service.reasoning.rule import Rule
from service.reasoning.vocabulary import CONCLUDED


def stratify(rules: Sequence[Rule]) -> tuple[Rule, ...]:
    """The rules of one ruleset with their strata, in the order of every answer: stratum, priority, id.

    Refuses a rule that reads what nobody concludes, and a circle of rules that wait for one another.
    """
    makers: dict[str, list[Rule]] = {}
    for rule in rules:
        for name in rule.conclude:
            makers.setdefault(name, []).append(rule)
    _refuse_unmade(rules, makers)
    strata: dict[str, int] = {}
    for rule in rules:
        _place(rule, makers, strata=strata, waiting=())
    placed = [replace(rule, stratum=strata[rule.id]) for rule in rules]
    return tuple(sorted(placed, key=lambda rule: (rule.stratum, rule.priority, rule.id)))


def _refuse_unmade(rules: Sequence[Rule], makers: Mapping[str, Sequence[Rule]]) -> None:
    faults = Faults()
    for rule in rules:
        for name in sorted(rule.reads - makers.keys()):
            what = f"no rule of {rule.ruleset} concludes '{name}', so {CONCLUDED}{name} is never known"
            faults.add(KnowledgeFault(rule.file, rule.line, what, entry=rule.id))
    faults.stop_if_any()


def _place(
    rule: Rule, makers: Mapping[str, Sequence[Rule]], *, strata: dict[str, int], waiting: tuple[Rule, ...]
) -> int:
    if rule.id in strata:
        return strata[rule.id]
    if rule in waiting:
        circle = " waits for ".join(other.id for other in (*waiting[waiting.index(rule):], rule))
        raise KnowledgeFault(rule.file, rule.line, f"the rules wait for one another: {circle}", entry=rule.id)
    below = [
        _place(maker, makers, strata=strata, waiting=(*waiting, rule))
        for name in sorted(rule.reads)
        for maker in makers[name]
    ]
    strata[rule.id] = max(below, default=-1) + 1
    return strata[rule.id]
