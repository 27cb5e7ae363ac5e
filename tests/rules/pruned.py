"""Asks the pruning question of the shipped rules, as a clerk would, and reads the answer back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from service.domain.pruned_tree import PrunedTree
from service.domain.site import Site
from service.present.pruning import pruning_advice
from service.questions.pruning import JudgedCut, PruningAnswer, PruningQuestion, WeatherAhead, plan_pruning
from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook

MILD, COLD = Site(hardiness_zone=9.0), Site(hardiness_zone=6.0)


@dataclass(frozen=True)
class Clerk:
    """The shipped rulebook with the fast matcher over it."""

    rulebook: Rulebook
    matcher: PlainMatcher

    def plan(
        self,
        crop: str,
        day: date | None = None,
        *,
        site: Site = MILD,
        weather: WeatherAhead | None = None,
        **tree: object,
    ) -> PruningAnswer:
        """The plan for a tree; `tree` holds what else is known of it."""
        pruned = replace(PrunedTree(crop), **tree)  # type: ignore[arg-type]
        return self.ask(PruningQuestion(pruned, day, site, weather=weather or WeatherAhead()))

    def ask(self, question: PruningQuestion) -> PruningAnswer:
        """The answer to a whole question."""
        return plan_pruning(question, rulebook=self.rulebook, asking=self.matcher)

    def told(self, answer: PruningAnswer) -> dict[str, object]:
        """The answer as plain data."""
        told: dict[str, object] = pruning_advice(answer, rulebook=self.rulebook)["answer"]
        return told

    def when(self, answer: PruningAnswer) -> str:
        """What the customer is told of the day."""
        when = self.told(answer)["when"]
        assert isinstance(when, dict)
        return str(when["text"])


def made(answer: PruningAnswer, cut: str) -> JudgedCut:
    """One kind of cut of a plan."""
    return next(one for one in answer.cuts if one.cut.id == cut)


def amount(answer: PruningAnswer, cut: str, name: str = "share_percent") -> object:
    """An amount that a plan names for a kind of cut."""
    return made(answer, cut).judgement.concluded.get(name)


def sources(judgement: Judgement) -> set[str]:
    """The sources that stand behind a judgement."""
    return {one.ref for rule in judgement.rules for one in rule.sources}
