"""The one way through the variety question: facts, then rules, then conclusions.

The whole catalogue is swept with the fast matcher. What the answer shows is judged again by the matcher that answers
questions. Both must say the same; where they do not, the answer holds what the second one says, and the difference is
counted and logged as a defect.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

from service.questions.suggestion.cases import KnownCultivar
from service.questions.suggestion.gaps import unknown_of_place
from service.questions.suggestion.here import CULTIVAR_RULES, VarietiesHere
from service.questions.suggestion.order import fitting, in_order, leading, scored, tallies
from service.questions.suggestion.planting import choose_planting
from service.questions.suggestion.prepared import Prepared, prepare
from service.questions.suggestion.question import (
    Candidate,
    Partners,
    PlantingChoice,
    PlantingPlan,
    RootChoice,
    SuggestionAnswer,
    SuggestionQuestion,
)
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

log = logging.getLogger(__name__)
SITE_RULES = "suggestion.site"


@dataclass(frozen=True, slots=True)
class Judges:
    """The matcher that sweeps the catalogue and the one that answers."""

    sweeping: Matcher
    asking: Matcher


class Disagreements:
    """Counts the cases on which the two matchers differed; any at all is a defect."""

    def __init__(self) -> None:
        self._counter = count()
        self.total = 0

    def note(self, case: str) -> None:
        """Count and log one case."""
        self.total = next(self._counter) + 1
        log.error("the two matchers disagree on %s", case)


disagreements = Disagreements()


def suggest(question: SuggestionQuestion, *, rulebook: Rulebook, judges: Judges) -> SuggestionAnswer:
    """What will fruit at this place."""
    return _Way(question, prepare(rulebook), judges).answer()


class _Way:
    """One question on its way to its answer."""

    def __init__(self, question: SuggestionQuestion, known: Prepared, judges: Judges) -> None:
        self.question, self.known, self.judges = question, known, judges
        self.start = known.number("suggestion.fit.start")
        self.here = VarietiesHere(question, known, judges.sweeping)
        self.site, self.place = self.here.place.site, self.here.place.facts
        self.asked, self.roots = self.here.asked, self.here.roots

    def answer(self) -> SuggestionAnswer:
        cultivars = self.cultivars()
        crops = dict.fromkeys(known.crop.id for known in cultivars)
        self.here.judge_roots(crops)
        swept = in_order([self.here.candidate(known) for known in cultivars])
        fit_here = [candidate for candidate in swept if candidate.fits]
        planting = choose_planting(fit_here, self.asked, site=self.site, prepared=self.known)
        first = self.first_of(fit_here)
        shown = self.shown_again(swept, first, planting)
        return SuggestionAnswer(
            question=self.question,
            site=self.site,
            site_facts=self.place,
            site_judgement=self.judges.asking.judge(SITE_RULES, self.whole_facts(swept, fit_here, planting)),
            suggestions=tuple(shown[candidate.cultivar.id] for candidate in first),
            set_aside=tuple(candidate for candidate in swept if not candidate.fits),
            considered=tuple(shown[cultivar] for cultivar in self.question.consider),
            partners={cultivar: self.partners(one, fit_here) for cultivar, one in shown.items()},
            other_roots={cultivar: self.other_roots(one) for cultivar, one in shown.items()},
            planting=None if planting is None else _with_shown(planting, shown),
            crops=tallies(swept),
            not_judged=unknown_of_place(self.place, self.known.rulebook),
        )

    def first_of(self, fitting: Sequence[Candidate]) -> list[Candidate]:
        """The suggestions: in order of fit, with the best of each wished crop and not too many of one crop."""
        limit = self.question.limit or int(self.known.number("suggestion.answer.length"))
        per_crop = int(self.known.number("suggestion.answer.per_crop"))
        return leading(fitting, self.question.wishes.crops, limit=limit, per_crop=per_crop)

    def cultivars(self) -> list[KnownCultivar]:
        """The cultivars to judge: those of the wished crops, or all, and those that were asked about."""
        wished = sorted(self.question.wishes.crops) or list(self.known.by_crop)
        chosen = [known for crop in wished for known in self.known.by_crop[crop]]
        there = {known.cultivar.id for known in chosen}
        extra = [self.known.cultivars[cultivar] for cultivar in self.question.consider if cultivar not in there]
        return chosen + extra

    def shown_again(
        self, swept: Sequence[Candidate], first: Sequence[Candidate], planting: PlantingChoice | None
    ) -> Mapping[str, Candidate]:
        """Everything that the answer shows in full, judged by the matcher that answers questions."""
        by_id = {candidate.cultivar.id: candidate for candidate in swept}
        wanted = [candidate.cultivar.id for candidate in first]
        wanted += [*self.question.consider, *_planted(planting)]
        return {cultivar: self.judged_again(by_id[cultivar]) for cultivar in dict.fromkeys(wanted)}

    def judged_again(self, candidate: Candidate) -> Candidate:
        judgement = self.judges.asking.judge(CULTIVAR_RULES, candidate.facts)
        audit.note(judgement)
        if not _agree(judgement, candidate.judgement):
            disagreements.note(candidate.cultivar.id)
        fit, fits = scored(self.start, judgement), fitting(candidate.root, judgement)
        return replace(candidate, judgement=judgement, fit=fit, fits=fits)

    def partners(self, candidate: Candidate, fitting: Sequence[Candidate]) -> Partners:
        """Who sets a cultivar: what stands there, and the fittest of those that are proven or usually advised."""
        cultivar, crop = candidate.cultivar.id, candidate.crop.id
        most = int(self.known.number("suggestion.answer.partners"))
        table = self.known.table
        named = [
            _first_of(fitting, links[cultivar] - self.asked.growing, most) for links in (table.proven, table.likely)
        ]
        return Partners(standing=self.asked.standing.partners(cultivar, crop), proven=named[0], likely=named[1])

    def other_roots(self, candidate: Candidate) -> tuple[RootChoice, ...]:
        """Further roots that suit the place, since a shop carries some roots and not others."""
        most = int(self.known.number("suggestion.answer.rootstocks"))
        return self.roots.others(candidate.crop.id, candidate.cultivar.id, most=most)

    def for_ruleset(self, ruleset: str) -> dict[str, Value]:
        testable = self.known.rulebook.vocabulary.testable(ruleset)
        return {name: value for name, value in self.place.items() if name in testable}

    def whole_facts(
        self, swept: Sequence[Candidate], fitting: Sequence[Candidate], planting: PlantingChoice | None
    ) -> dict[str, Value]:
        """The place again, with what the answer as a whole comes to."""
        wishes = self.question.wishes
        facts = self.for_ruleset(SITE_RULES)
        facts["answer.candidates"], facts["answer.fitting"] = len(swept), len(fitting)
        facts["answer.trees_placed"] = 0 if planting is None else len(planting.best.trees)
        if wishes.max_trees is not None:
            facts["answer.trees_wanted"] = wishes.max_trees
        if wishes.harvest_months:
            picked = (self.asked.months_of(self.known.cultivars[one.cultivar.id]) for one in fitting)
            facts["answer.months_uncovered"] = len(set(wishes.harvest_months).difference(*picked))
        return facts


def _agree(one: Judgement, other: Judgement) -> bool:
    """Whether two judgements of the same facts say the same; all else follows from the facts and the rules."""
    return (one.rules, one.concluded, one.conflicts) == (other.rules, other.concluded, other.conflicts)


def _first_of(fitting: Sequence[Candidate], wanted: frozenset[str], most: int) -> tuple[str, ...]:
    found = (candidate.cultivar.id for candidate in fitting if candidate.cultivar.id in wanted)
    return tuple(cultivar for cultivar, _ in zip(found, range(most), strict=False))


def _planted(planting: PlantingChoice | None) -> Iterable[str]:
    plans = () if planting is None else (planting.best, planting.second)
    return (tree.cultivar.id for plan in plans if plan is not None for tree in plan.trees)


def _with_shown(planting: PlantingChoice, shown: Mapping[str, Candidate]) -> PlantingChoice:
    def with_trees(plan: PlantingPlan) -> PlantingPlan:
        return replace(plan, trees=tuple(shown[tree.cultivar.id] for tree in plan.trees))

    second = None if planting.second is None else with_trees(planting.second)
    return replace(planting, best=with_trees(planting.best), second=second)
