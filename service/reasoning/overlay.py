"""A store's own folder, laid over ours.

It holds rules in folders named as ours, wording under text/, and limits of its own. It may add, and replace a rule of
ours by id; a `forbid` (label, law, safety) it may neither replace nor write, and a limit of ours it may not change.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from service.domain.errors import KnowledgeFault
from service.reasoning.faults import Faults
from service.reasoning.limits import Limit
from service.reasoning.rule import Rule

_ALLOWED = ("limits.yaml",)


def refuse_strangers(overlay: Path, *, faults: Faults) -> None:
    """Refuses a file that a store cannot lay over ours."""
    if not overlay.is_dir():
        raise KnowledgeFault(str(overlay), 1, "there is no such folder of a store's own rules")
    for path in sorted(overlay.glob("*.y*ml")):
        if path.name not in _ALLOWED:
            what = "a store's folder holds rules in folders, text/ and limits.yaml; take this file away"
            faults.add(KnowledgeFault(f"{overlay.name}/{path.name}", 1, what))


def overlay_limits(
    ours: Mapping[str, Limit], theirs: Mapping[str, Limit], *, faults: Faults
) -> Mapping[str, Limit]:
    """Our limits and the store's; a name of ours keeps its value."""
    for name in sorted(ours.keys() & theirs.keys()):
        limit = theirs[name]
        what = "a store cannot change a limit of the service; give it another name and replace the rules that use it"
        faults.add(KnowledgeFault(limit.file, limit.line, what, entry=name))
    return {**theirs, **ours}


def lay_over(ours: Sequence[Rule], theirs: Sequence[Rule], *, faults: Faults) -> list[Rule]:
    """Our rules with the store's added and put in place by id."""
    merged = {rule.id: rule for rule in ours}
    for rule in theirs:
        fault = _refusal(rule, merged.get(rule.id))
        if fault:
            faults.add(KnowledgeFault(rule.file, rule.line, fault, entry=rule.id))
        else:
            merged[rule.id] = rule
    return list(merged.values())


def _refusal(rule: Rule, replaced: Rule | None) -> str | None:
    if rule.outcome == "forbid":
        return "a store's rule cannot forbid; write set_aside or caution"
    if replaced is None:
        return None
    if replaced.outcome == "forbid":
        return f"it would replace a rule that forbids ({replaced.file}:{replaced.line}); give it an id of its own"
    if replaced.ruleset != rule.ruleset:
        return f"it would replace a rule of {replaced.ruleset}; put it there or give it an id of its own"
    return None
