"""The one way through the thinning question: targets, then the load they allow, then what to do, then the steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from service.compute.crop_load import Carried, Part, Targets, carry
from service.questions.thinning.branches import BranchJudge, decided
from service.questions.thinning.cases import carried_facts, said_facts, target_facts
from service.questions.thinning.gaps import unknown_of
from service.questions.thinning.measured import measured_facts, reach_of, refuse_impossible, sizes_that_matter
from service.questions.thinning.question import Facts, ThinningAnswer, ThinningQuestion, Variety, VarietyPlan, word
from service.questions.thinning.timing import window_facts
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_PLAN_NAMES: Mapping[str, str] = {
    "thinning_action": "plan.action",
    "thinning_window": "plan.window",
    "urgency": "plan.urgency",
    "thinning_passes": "plan.passes",
}


def plan_thinning(question: ThinningQuestion, *, rulebook: Rulebook, asking: Matcher) -> ThinningAnswer:
    """What to take off this tree, where, and when."""
    return _Way(question, rulebook, asking).answer()


class _Way:
    """One question on its way to its answer."""

    def __init__(self, question: ThinningQuestion, rulebook: Rulebook, asking: Matcher) -> None:
        self.question, self.rulebook, self.asking = question, rulebook, asking
        self.limits = rulebook.limits
        self.reach = reach_of(self.limits)
        for variety in question.varieties:
            refuse_impossible(variety, self.limits)

    def answer(self) -> ThinningAnswer:
        varieties = self.question.varieties
        said = [said_facts(self.question, variety, rulebook=self.rulebook) for variety in varieties]
        judged = [self.judge("thinning.target", facts) for facts in said]
        parts = [Part(variety.load, _targets(one)) for variety, one in zip(varieties, judged, strict=True)]
        carried = carry(self.question.tree, parts, self.reach)
        reckoned = [
            self.reckoned(facts, target.concluded, part=part, carried=load)
            for facts, target, part, load in zip(said, judged, parts, carried, strict=True)
        ]
        plans = tuple(
            self.plan(variety, facts, target=target, carried=load)
            for variety, facts, target, load in zip(varieties, reckoned, judged, carried, strict=True)
        )
        return ThinningAnswer(
            question=self.question,
            crop=self.rulebook.catalogue.crops[self.question.crop],
            plans=plans,
            not_judged=unknown_of(plans, self.rulebook),
        )

    def reckoned(
        self, said: Facts, targets: Mapping[str, Value], *, part: Part, carried: Carried
    ) -> dict[str, Value]:
        """What was said, with all that was reckoned from it."""
        tree = self.question.tree
        return {
            **said,
            **target_facts(targets),
            **window_facts(said, targets),
            **carried_facts(carried, part.load),
            **measured_facts(tree, part.load, self.limits),
            **sizes_that_matter(tree, part, carried=carried, reach=self.reach),
        }

    def plan(self, variety: Variety, facts: Facts, *, target: Judgement, carried: Carried) -> VarietyPlan:
        plan = self.judge("thinning.plan", facts)
        told = {**facts, **{_PLAN_NAMES[name]: value for name, value in plan.concluded.items() if name in _PLAN_NAMES}}
        action = word(plan.concluded.get("thinning_action"))
        keep, remove = decided(variety.load.counted, carried.keep, action)
        branches = BranchJudge(self.asking, self.limits, self.for_ruleset("thinning.branch", told))
        cultivar = variety.cultivar
        return VarietyPlan(
            variety=variety,
            cultivar=None if cultivar is None else self.rulebook.catalogue.cultivars[cultivar],
            facts=told,
            carried=carried,
            keep=keep,
            remove=remove,
            branches=tuple(branches.plan(one, action) for one in carried.branches),
            target=target,
            measured=self.judge("thinning.measured", told),
            plan=plan,
            steps=self.judge("thinning.steps", told),
        )

    def judge(self, ruleset: str, facts: Facts) -> Judgement:
        return self.asking.judge(ruleset, self.for_ruleset(ruleset, facts))

    def for_ruleset(self, ruleset: str, facts: Facts) -> dict[str, Value]:
        testable = self.rulebook.vocabulary.testable(ruleset)
        return {name: value for name, value in facts.items() if name in testable}


def _targets(judgement: Judgement) -> Targets:
    concluded = judgement.concluded
    return Targets(**{field.name: concluded.get(field.name) for field in fields(Targets)})  # type: ignore[arg-type]
