"""One question: can the pollen of this tree set fruit on that one, and do the two meet in time and place?

Whether pollen is accepted is computed; what follows from it, rules say. Both directions are judged, since a tree that
is served does not always serve in return.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from service.compute.pollination import BloomLimits, Grounds, PartnerTable, Verdict, profile_of
from service.domain.cultivar import Cultivar
from service.domain.errors import NotUnderstood
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

RULESET = "pollination"


@dataclass(frozen=True, slots=True)
class PairQuestion:
    """Two cultivars by id: the tree that is to set fruit and its partner, and how far apart they stand if known."""

    tree: str
    partner: str
    distance_ft: float | None = None

    def __post_init__(self) -> None:
        if self.distance_ft is not None and not (math.isfinite(self.distance_ft) and self.distance_ft >= 0):
            raise NotUnderstood(("/distance_ft", "a distance is a number of feet from zero up"))


@dataclass(frozen=True, slots=True)
class Direction:
    """Pollen of one tree on the flowers of another, judged."""

    tree: Cultivar
    partner: Cultivar
    verdict: Verdict
    within_reach: bool | None
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class PairAnswer:
    """The pair as it was asked, and the other way round."""

    asked: Direction
    returned: Direction
    distance_ft: float | None
    unknown: tuple[str, ...]


@lru_cache(maxsize=4)
def partner_table(rulebook: Rulebook) -> PartnerTable:
    """Who can set whom, over the whole catalogue of a rulebook."""
    catalogue = rulebook.catalogue
    bloom = BloomLimits(classes=rulebook.limits["pollination.bloom_gap_classes"].value)
    return PartnerTable(catalogue.cultivars.values(), Grounds(catalogue.crops, catalogue.pollen, bloom))


def judge_partners(question: PairQuestion, *, rulebook: Rulebook, matcher: Matcher) -> PairAnswer:
    """Can the partner set the tree, and the tree the partner?"""
    pair = _Pair(partner_table(rulebook), matcher, question.distance_ft)
    asked = pair.direction(question.tree, question.partner)
    facts = pair.facts(asked.tree, asked.partner, asked.verdict)
    return PairAnswer(
        asked=asked,
        returned=pair.direction(question.partner, question.tree),
        distance_ft=question.distance_ft,
        unknown=_unknown(facts, rulebook),
    )


class _Pair:
    def __init__(self, table: PartnerTable, matcher: Matcher, distance_ft: float | None) -> None:
        self._table, self._matcher, self._distance_ft = table, matcher, distance_ft

    def direction(self, tree: str, partner: str) -> Direction:
        verdict = self._table.verdict(tree, partner)
        one, other = self._table.cultivars[tree], self._table.cultivars[partner]
        facts = self.facts(one, other, verdict)
        share = facts.get("pair.distance_over_reach")
        return Direction(
            tree=one,
            partner=other,
            verdict=verdict,
            within_reach=None if share is None else float(share) <= 1,  # type: ignore[arg-type]
            judgement=self._matcher.judge(RULESET, facts),
        )

    def facts(self, tree: Cultivar, partner: Cultivar, verdict: Verdict) -> dict[str, Value]:
        """The facts that rules on pollination may test; what is unknown is left out."""
        profile = profile_of(tree, self._table.grounds)
        facts: dict[str, Value | None] = {
            "pair.tree": tree.denomination,
            "pair.partner": partner.denomination,
            "pair.finding": verdict.reasons[0].code,
            "pair.compatibility": verdict.compatibility,
            "pair.same_cultivar": tree.id == partner.id,
            "pair.tree_self_fertility": profile.self_fertility,
            "pair.tree_triploid": profile.triploid,
            "pair.bloom_together": verdict.bloom_together,
            "pair.bloom_gap_classes": verdict.bloom_gap_classes,
            **self._distances(tree),
        }
        return {name: value for name, value in facts.items() if value is not None}

    def _distances(self, tree: Cultivar) -> dict[str, Value | None]:
        reach = self._table.grounds.crops[tree.crop].pollination_distance_ft
        if reach is None or self._distance_ft is None:
            return {"pair.reach_ft": reach.value if reach else None, "pair.distance_ft": self._distance_ft}
        share = self._distance_ft / reach.value
        return {
            "pair.reach_ft": reach.value,
            "pair.distance_ft": self._distance_ft,
            "pair.distance_over_reach": share,
        }


def _unknown(facts: dict[str, Value], rulebook: Rulebook) -> tuple[str, ...]:
    """The facts of the pair that nobody knows and that would have been judged."""
    testable = rulebook.vocabulary.testable(RULESET)
    return tuple(name for name, fact in testable.items() if name not in facts and fact.needs is not None)
