"""The answer to the variety question as plain data: what to plant first, then why, and what was left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from service.domain.month_day import season_day
from service.domain.units import Language, feet_to_metres
from service.present.advice import About, Advice
from service.present.sentences import Sentences
from service.questions.suggestion import Candidate, PlantingChoice, PlantingPlan, RootChoice, SuggestionAnswer
from service.questions.suggestion.gaps import unknown_of_candidate
from service.questions.suggestion.planting import partners_needed
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_SETS_ASIDE = ("forbid", "set_aside")
_REASONS_AGAINST = 2


def suggestion_advice(
    answer: SuggestionAnswer, *, rulebook: Rulebook, language: Language = "en", set_aside_limit: int | None = None
) -> dict[str, Any]:
    """The envelope with the answer in it."""
    return _Writer(answer, rulebook, language).envelope(set_aside_limit)


class _Writer:
    def __init__(self, answer: SuggestionAnswer, rulebook: Rulebook, language: Language) -> None:
        self.answer, self.rulebook = answer, rulebook
        self.southern = answer.site.southern
        self.sentences = Sentences(rulebook, language=language, southern=self.southern)
        self.advice = Advice(rulebook, self.sentences)
        self.root_reasons: dict[int, list[dict[str, Any]]] = {}

    def envelope(self, set_aside_limit: int | None) -> dict[str, Any]:
        limit = set_aside_limit
        if limit is None:
            limit = int(self.rulebook.limits["suggestion.answer.set_aside"].value)
        told = {
            "suggestions": [self.suggestion(one) for one in self.answer.suggestions],
            "planting_set": self.planting(self.answer.planting),
            "considered": [self.suggestion(one) for one in self.answer.considered],
            "crops": self.crops(),
            "set_aside": [self.left_out(one) for one in self.answer.set_aside[:limit]],
            "set_aside_more": max(0, len(self.answer.set_aside) - limit),
        }
        return self.advice.envelope(told, concluded=list(self.concluded()), not_judged=self.answer.not_judged)

    def concluded(self) -> Iterable[About]:
        """The conclusions on the whole first, then those on each cultivar that is shown in full."""
        yield from (About(one) for one in self.answer.site_judgement.conclusions)
        shown = {one.cultivar.id: one for one in (*self.answer.suggestions, *self.answer.considered)}
        for cultivar, candidate in shown.items():
            yield from (About(one, cultivar) for one in _conclusions(candidate))

    def suggestion(self, one: Candidate) -> dict[str, Any]:
        """One cultivar with all that a customer asks about it."""
        return {
            **self.named(one),
            "fit": one.fit,
            "fits": one.fits,
            "rootstock": self.root(one),
            "other_rootstocks": [self.other_root(root) for root in self.answer.other_roots[one.cultivar.id]],
            "training": one.judgement.concluded.get("training"),
            **self.size(one),
            "pollination": self.pollination(one),
            "harvest": self.harvest(one),
            "reasons": self.advice.reasons(_conclusions(one)),
            "not_judged": self.advice.not_judged(unknown_of_candidate(one, self.rulebook)),
            "recalled_share": one.facts.get("cultivar.recalled_share"),
            "crop_wide": [name for name in _BASES if one.facts.get(name) == "crop"],
        }

    def named(self, one: Candidate) -> dict[str, Any]:
        return {
            "cultivar": one.cultivar.id,
            "name": one.cultivar.denomination,
            "crop": one.crop.id,
            "crop_name": self.sentences.crop(one.crop.id),
        }

    def root(self, one: Candidate) -> dict[str, Any] | None:
        root = one.root.rootstock
        if root is None:
            return None
        return {"id": root.id, "name": root.name, "reasons": self.reasons_of(one.root)}

    def reasons_of(self, choice: RootChoice) -> list[dict[str, Any]]:
        """What speaks for a root here and against it; many cultivars of a crop stand on the same few roots."""
        told = self.root_reasons.get(id(choice))
        if told is None:
            told = self.root_reasons[id(choice)] = self.advice.reasons(choice.judgement.conclusions)
        return told

    def other_root(self, choice: RootChoice) -> dict[str, Any]:
        spacing, low, high = _size(choice.facts)
        return {
            "id": None if choice.rootstock is None else choice.rootstock.id,
            "name": None if choice.rootstock is None else choice.rootstock.name,
            "spacing_ft": spacing,
            "mature_height_ft": {"low": low, "high": high, "basis": choice.facts.get("tree.height_basis")},
            "reasons": self.reasons_of(choice),
        }

    def size(self, one: Candidate) -> dict[str, Any]:
        facts = one.facts
        spacing, low, high = _size(facts)
        return {
            "spacing_ft": spacing,
            "spacing_m": _metres(spacing),
            "spacing_basis": facts.get("tree.spacing_basis"),
            "mature_height_ft": {"low": low, "high": high, "basis": facts.get("tree.height_basis")},
            "mature_height_m": {"low": _metres(low), "high": _metres(high)},
            "trees_that_fit": facts.get("tree.fits_count"),
            "years_to_bear": facts.get("tree.years_to_bear"),
        }

    def pollination(self, one: Candidate) -> dict[str, Any]:
        partners = self.answer.partners[one.cultivar.id]
        proven = [self.partner(cultivar, "proven") for cultivar in partners.proven]
        usual = [self.partner(cultivar, "usual") for cultivar in partners.likely]
        return {
            "self_fertility": one.facts.get("pollination.self_fertility"),
            "basis": one.facts.get("pollination.basis"),
            "partners_needed": partners_needed(one),
            "partners": proven or usual,
            "standing": [self.partner(cultivar, "proven") for cultivar in partners.standing],
        }

    def partner(self, cultivar: str, shown_by: str) -> dict[str, str]:
        name = self.rulebook.catalogue.cultivars[cultivar].denomination
        return {"cultivar": cultivar, "name": name, "shown_by": shown_by}

    def harvest(self, one: Candidate) -> dict[str, Any] | None:
        window = one.harvest
        if window is None:
            return None
        first, last = (season_day(day, southern=self.southern).text for day in (window.from_day, window.to_day))
        return {
            "from": first,
            "to": last,
            "basis": window.basis,
            "place": window.place,
            "sources": list(window.sources),
            "from_memory": window.from_memory,
        }

    def left_out(self, one: Candidate) -> dict[str, Any]:
        """A cultivar that does not fit, with what speaks against it."""
        against = [conclusion for conclusion in _conclusions(one) if conclusion.outcome in _SETS_ASIDE]
        return {**self.named(one), "reasons": self.advice.reasons(against[:_REASONS_AGAINST])}

    def crops(self) -> list[dict[str, Any]]:
        return [
            {
                "crop": tally.crop.id,
                "crop_name": self.sentences.crop(tally.crop.id),
                "judged": tally.judged,
                "fitting": tally.fitting,
                "best": None if tally.best is None else self.named(tally.best) | {"fit": tally.best.fit},
            }
            for tally in self.answer.crops
        ]

    def planting(self, choice: PlantingChoice | None) -> dict[str, Any] | None:
        if choice is None:
            return None
        second = None
        if choice.second is not None and choice.given_up is not None:
            second = self.plan(choice.second) | {
                "gives_up": {
                    "points": choice.given_up.points,
                    "months": list(choice.given_up.months),
                    "trees": list(choice.given_up.trees),
                    "instead": list(choice.given_up.instead),
                }
            }
        return {"best": self.plan(choice.best), "second": second}

    def plan(self, plan: PlantingPlan) -> dict[str, Any]:
        return {
            "trees": [self.planted(tree, plan) for tree in plan.trees],
            "months": list(plan.months),
            "points": round(plan.points, 1),
        }

    def planted(self, tree: Candidate, plan: PlantingPlan) -> dict[str, Any]:
        root = tree.root.rootstock
        return {
            **self.named(tree),
            "fit": tree.fit,
            "rootstock": None if root is None else {"id": root.id, "name": root.name},
            "spacing_ft": tree.facts.get("tree.spacing_ft"),
            "harvest": self.harvest(tree),
            "partners": list(plan.partners[tree.cultivar.id]),
            "partners_shown_by": "usual" if tree.cultivar.id in plan.unproven else "proven",
        }


_BASES = ("chill.basis", "zone.basis", "pollination.basis")


def _conclusions(one: Candidate) -> Iterable[Conclusion]:
    """What rules say of the cultivar; where no root serves here, what sets the best of them aside as well."""
    if one.root.fits:
        return one.judgement.conclusions
    against = [conclusion for conclusion in one.root.judgement.conclusions if conclusion.outcome in _SETS_ASIDE]
    return (*against, *one.judgement.conclusions)


def _size(facts: Mapping[str, Value]) -> tuple[Value | None, Value | None, Value | None]:
    return facts.get("tree.spacing_ft"), facts.get("tree.height_low_ft"), facts.get("tree.height_high_ft")


def _metres(feet: Value | None) -> float | None:
    return None if feet is None else feet_to_metres(float(feet))  # type: ignore[arg-type]
