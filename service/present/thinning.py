"""A thinning plan as plain data: what stays and what comes off, on which branch, and the steps in order of work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from service.compute.crop_load import Bound
from service.domain.units import INCH_CM, Language
from service.present.advice import About, Advice
from service.present.sentences import Sentences
from service.questions.thinning import BranchPlan, ThinningAnswer, VarietyPlan
from service.reasoning.conclusions import Conclusion, Judgement
from service.reasoning.rule import Outcome
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_SHARE_DIGITS = 2


def thinning_advice(answer: ThinningAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The envelope with the plan in it."""
    return _Writer(answer, rulebook, language).envelope()


class _Writer:
    def __init__(self, answer: ThinningAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer = answer
        self.sentences = Sentences(rulebook, language=language)
        self.advice = Advice(rulebook, self.sentences)

    def envelope(self) -> dict[str, Any]:
        plans = self.answer.in_order_of_work
        whole = self.plan(plans[0]) if len(plans) == 1 else _together(plans)
        told = {
            "crop": self.answer.crop.id,
            "crop_name": self.sentences.crop(self.answer.crop.id),
            **whole,
            "varieties": [] if len(plans) == 1 else [self.named(plan) | self.plan(plan) for plan in plans],
        }
        return self.advice.envelope(told, concluded=list(self.concluded(plans)), not_judged=self.answer.not_judged)

    def concluded(self, plans: Sequence[VarietyPlan]) -> Iterator[About]:
        """What to do first, then the steps, the targets behind them, the measures, and each branch."""
        for plan in plans:
            subject = plan.variety.cultivar
            for judgement in (plan.plan, plan.steps, plan.target, plan.measured):
                yield from (About(one, subject) for one in judgement.conclusions)
            for place, branch in enumerate(plan.branches, start=1):
                yield from (About(one, _branch_name(subject, place)) for one in branch.judgement.conclusions)

    def named(self, plan: VarietyPlan) -> dict[str, Any]:
        cultivar = plan.cultivar
        return {
            "cultivar": None if cultivar is None else cultivar.id,
            "name": None if cultivar is None else cultivar.denomination,
        }

    def plan(self, plan: VarietyPlan) -> dict[str, Any]:
        """The plan for one variety."""
        return {
            "action": plan.action,
            "urgency": plan.urgency,
            "window": plan.plan.concluded.get("thinning_window"),
            "passes": plan.plan.concluded.get("thinning_passes"),
            **_distances(plan.target),
            "fruit": plan.variety.load.counted,
            "keep": plan.keep,
            "remove": plan.remove,
            "share_removed": _share(plan.share_removed),
            "usual_share_removed": _share(plan.target.concluded.get("removed_share")),
            "limited_by": plan.carried.bound_by,
            "bounds": [_bound(bound) for bound in plan.carried.bounds],
            "branches": [self.branch(branch, place) for place, branch in enumerate(plan.branches, start=1)],
            "reasons": self.advice.reasons(_in_order(plan.plan.conclusions)),
            "steps": self.said(plan.steps, "advise"),
            "doubts": self.said(plan.measured, "caution"),
            "assumed": self.said(plan.measured, "say"),
            "one_more_measurement": self.said(plan.measured, "advise"),
        }

    def branch(self, branch: BranchPlan, place: int) -> dict[str, Any]:
        carried, thirds = branch.carried, branch.thirds
        where = None if thirds is None else {"inner": thirds.inner, "middle": thirds.middle, "outer": thirds.outer}
        return {
            "branch": place,
            "fruit": carried.branch.fruit,
            "keep": branch.keep,
            "remove": branch.remove,
            "keep_by_third": where,
            "limited_by": carried.bound_by,
            "bounds": [_bound(bound) for bound in carried.bounds],
            "strain": _share(branch.facts.get("branch.strain")),
            "support": branch.judgement.concluded.get("limb_support"),
            "reasons": self.advice.reasons(branch.judgement.conclusions),
        }

    def said(self, judgement: Judgement, outcome: Outcome) -> list[dict[str, str]]:
        """The sentences of one outcome, in the order that their rules set."""
        chosen = (one for one in _in_order(judgement.conclusions) if one.outcome == outcome)
        return [{"rule": one.rule.id, "text": self.sentences.text(one)} for one in chosen]


def _in_order(conclusions: Iterable[Conclusion]) -> list[Conclusion]:
    """As their rules set it: a rule that waits for others need not be read after them."""
    return sorted(conclusions, key=lambda one: one.rule.priority)


def _branch_name(cultivar: str | None, place: int) -> str:
    return f"branch-{place}" if cultivar is None else f"{cultivar}/branch-{place}"


def _distances(target: Judgement) -> dict[str, Any]:
    told: dict[str, Any] = {}
    for name in ("spacing", "spacing_from", "spacing_to"):
        inches = target.concluded.get(f"{name}_in")
        told[f"{name}_in"] = inches
        told[f"{name}_cm"] = None if inches is None else round(float(inches) * INCH_CM, 1)  # type: ignore[arg-type]
    return told | {"fruit_per_cluster": target.concluded.get("fruit_per_cluster")}


def _bound(bound: Bound) -> dict[str, Any]:
    return {"by": bound.by, "fruit": bound.fruit}


def _share(value: Value | None) -> float | None:
    return None if value is None else round(float(value), _SHARE_DIGITS)  # type: ignore[arg-type]


def _together(plans: Sequence[VarietyPlan]) -> dict[str, Any]:
    """The whole of a tree with several varieties: what can be added up; all else stands with each variety."""
    keep, remove = _sum(plan.keep for plan in plans), _sum(plan.remove for plan in plans)
    fruit = _sum(plan.variety.load.counted for plan in plans)
    actions = {plan.action for plan in plans}
    single = dict.fromkeys((
        "window", "passes", "spacing_in", "spacing_cm", "spacing_from_in", "spacing_from_cm", "spacing_to_in",
        "spacing_to_cm", "fruit_per_cluster", "usual_share_removed", "limited_by",
    ))  # fmt: skip
    lists: dict[str, Any] = {
        name: []
        for name in ("bounds", "branches", "reasons", "steps", "doubts", "assumed", "one_more_measurement")
    }
    return single | lists | {
        "action": actions.pop() if len(actions) == 1 else None,
        "urgency": plans[0].urgency,
        "fruit": fruit,
        "keep": keep,
        "remove": remove,
        "share_removed": _share(remove / fruit) if fruit and remove is not None else None,
    }


def _sum(numbers: Iterable[int | None]) -> int | None:
    known = list(numbers)
    return None if None in known else sum(number for number in known if number is not None)
