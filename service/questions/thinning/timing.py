"""Where the season stands to the thinning window of the rules: by days after bloom, else by size, else by stage."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from service.questions.thinning.question import Moment
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_BASES = (
    ("days", "season.days_after_full_bloom", "day"),
    ("diameter", "fruit.diameter_mm", "mm"),
    ("stage", "season.stage_bbch", "stage"),
)
_HARDENING = (
    ("season.days_after_full_bloom", "pit_hardening_day"),
    ("season.stage_bbch", "pit_hardening_stage"),
)


class _Window(NamedTuple):
    basis: str
    now: float
    opens: float
    closes: float

    @property
    def share(self) -> float:
        return (self.now - self.opens) / max(1.0, self.closes - self.opens)


def moment_facts(moment: Moment, rulebook: Rulebook) -> dict[str, Value]:
    """What was said of the season; a stage also says whether the natural drop is over."""
    stage = None if moment.stage is None else _stage(moment.stage, rulebook)
    drop = moment.natural_drop
    if drop is None and stage is not None:
        at_drop = _stage("natural_drop", rulebook)
        drop = "before" if stage < at_drop else "over" if stage > at_drop else "during"
    facts: dict[str, Value | None] = {
        "season.days_after_full_bloom": moment.days_after_full_bloom,
        "season.stage_bbch": stage,
        "fruit.diameter_mm": moment.fruit_diameter_mm,
        "season.natural_drop": drop,
    }
    return {name: value for name, value in facts.items() if value is not None}


def _stage(word: str, rulebook: Rulebook) -> float:
    return rulebook.limits[f"thinning.stage.{word}"].value


def window_facts(facts: Mapping[str, Value], targets: Mapping[str, Value]) -> dict[str, Value]:
    """Where the moment lies in the window that `targets` (the conclusions of thinning.target) open and close."""
    window = _window(facts, targets)
    found: dict[str, Value] = {"season.timing_basis": "none" if window is None else window.basis}
    if window is not None:
        found["season.window_share"] = round(window.share, 3)
        if window.basis == "days":
            found["season.days_to_window"] = max(0.0, window.opens - window.now)
            found["season.days_left"] = max(0.0, window.closes - window.now)
    hardened = _past_pit_hardening(facts, targets)
    return found if hardened is None else found | {"season.past_pit_hardening": hardened}


def _window(facts: Mapping[str, Value], targets: Mapping[str, Value]) -> _Window | None:
    for basis, fact, unit in _BASES:
        now, opens, closes = facts.get(fact), targets.get(f"window_opens_{unit}"), targets.get(f"window_closes_{unit}")
        if now is not None and opens is not None and closes is not None:
            return _Window(basis, float(now), float(opens), float(closes))  # type: ignore[arg-type]
    return None


def _past_pit_hardening(facts: Mapping[str, Value], targets: Mapping[str, Value]) -> bool | None:
    for fact, begins in _HARDENING:
        if fact in facts and begins in targets:
            return facts[fact] >= targets[begins]  # type: ignore[operator]
    return None
