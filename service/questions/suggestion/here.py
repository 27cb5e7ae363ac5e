"""The varieties of the catalogue as one place sees them: each judged on the root that suits it best, or on a named one.

What all cultivars on one root share at the place is looked at once. The variety question sweeps the catalogue with it;
other questions ask for single trees.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from service.domain.site import Site
from service.questions.suggestion.cases import Asked, KnownCultivar, growing_there
from service.questions.suggestion.chill import ChillHere
from service.questions.suggestion.order import fitting, scored
from service.questions.suggestion.place import WinterChill, refuse_impossible, site_facts, with_climate
from service.questions.suggestion.prepared import Prepared
from service.questions.suggestion.question import Candidate, Facts, RootChoice, SuggestionQuestion
from service.questions.suggestion.roots import PlaceFacts, RootChooser
from service.questions.suggestion.standing import Standing
from service.reasoning.matcher import JudgeOwn, Matcher

CULTIVAR_RULES = "suggestion.cultivar"
ROOT_RULES = "suggestion.rootstock"


@dataclass(frozen=True, slots=True)
class PlaceKnown:
    """The site with what its climate adds, as it is and as facts."""

    site: Site
    facts: Facts
    winters: WinterChill


def place_known(question: SuggestionQuestion, known: Prepared) -> PlaceKnown:
    """The place of a question; NotUnderstood for figures that no place has."""
    site = with_climate(question.site, question.climate)
    facts = site_facts(site)
    refuse_impossible(facts, known.rulebook.vocabulary)
    return PlaceKnown(site, facts, WinterChill(question.climate if site.chill_basis == "series" else None))


class VarietiesHere:
    """Judges cultivars for the place and the wishes of one question."""

    def __init__(self, question: SuggestionQuestion, known: Prepared, matcher: Matcher) -> None:
        self.place = place_known(question, known)
        self.asked = Asked(
            place=self._for_ruleset(CULTIVAR_RULES, known),
            southern=self.place.site.southern,
            chill=ChillHere(self.place.facts, self.place.winters),
            wishes=question.wishes,
            considered=frozenset(question.consider),
            growing=growing_there(question.existing_trees),
            standing=Standing(question.existing_trees, crops=known.rulebook.catalogue.crops, table=known.table),
        )
        carried = PlaceFacts(self._for_ruleset(ROOT_RULES, known), carried=known.looked_at)
        self.roots = RootChooser(known.roots, place=carried, site=self.place.site)
        self.known, self._matcher = known, matcher
        self._start = known.number("suggestion.fit.start")
        self._by_root: dict[int, JudgeOwn] = {}

    def judge_roots(self, crops: Iterable[str]) -> None:
        """Judge all roots of these crops, which comes before any of their cultivars."""
        self.roots.judge(crops, matcher=self._matcher, edge_share=self.known.number("spacing.edge_share"))

    def candidate(self, known: KnownCultivar) -> Candidate:
        """A cultivar on the root that suits it best here."""
        root, incompatible = self.roots.best(known.crop.id, known.cultivar.id)
        return self.on(known, root, incompatible=incompatible)

    def on(self, known: KnownCultivar, root: RootChoice, *, incompatible: bool) -> Candidate:
        """A cultivar on this root."""
        judgement = self._on_root(root)(known.facts, self.asked.own(known, incompatible=incompatible))
        return Candidate(
            cultivar=known.cultivar,
            crop=known.crop,
            root=root,
            harvest=known.harvest,
            judgement=judgement,
            fit=scored(self._start, judgement),
            fits=fitting(root, judgement),
        )

    def _on_root(self, root: RootChoice) -> JudgeOwn:
        """The matcher that has looked already at what all cultivars on this root share here."""
        if id(root) not in self._by_root:
            self._by_root[id(root)] = self._matcher.sharing(CULTIVAR_RULES, self.asked.shared(root))
        return self._by_root[id(root)]

    def _for_ruleset(self, ruleset: str, known: Prepared) -> Facts:
        testable = known.rulebook.vocabulary.testable(ruleset)
        return {name: value for name, value in self.place.facts.items() if name in testable}
