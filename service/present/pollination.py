"""The answer on a pair of trees as plain data."""

from __future__ import annotations

from typing import Any

from service.domain.cultivar import Cultivar
from service.domain.units import Language
from service.present.advice import About, Advice
from service.present.sentences import Sentences
from service.questions.pollination import Direction, PairAnswer
from service.reasoning.rulebook import Rulebook


def pair_advice(answer: PairAnswer, *, rulebook: Rulebook, language: Language = "en") -> dict[str, Any]:
    """The whole answer on a pair, in its envelope; conclusions of both directions stand in it, the one asked first."""
    advice = Advice(rulebook, Sentences(rulebook, language=language))
    directions = (answer.asked, answer.returned)[: 1 if answer.asked.tree is answer.asked.partner else 2]
    concluded = [About(one, way.tree.id) for way in directions for one in way.judgement.conclusions]
    told = {
        "tree": _named(answer.asked.tree),
        "partner": _named(answer.asked.partner),
        **_direction(answer.asked, advice),
        "bloom": _bloom(answer.asked),
        "distance": _distance(answer, rulebook),
        "in_return": _direction(answer.returned, advice),
    }
    return advice.envelope(told, concluded=concluded, not_judged=answer.unknown)


def _named(cultivar: Cultivar) -> dict[str, str]:
    return {"cultivar": cultivar.id, "name": cultivar.denomination, "crop": cultivar.crop}


def _direction(way: Direction, advice: Advice) -> dict[str, Any]:
    verdict = way.verdict
    return {
        "compatibility": verdict.compatibility,
        "likely": verdict.likely,
        "reasons": advice.reasons(way.judgement.conclusions),
        "findings": [
            {
                "finding": reason.code,
                **dict.fromkeys(("tree_alleles", "partner_alleles")),
                **{_SEEN[name]: value for name, value in reason.values if name in _SEEN},
                "sources": list(reason.sources),
                "from_memory": reason.from_memory,
            }
            for reason in verdict.reasons
        ],
    }


_SEEN = {"seed_alleles": "tree_alleles", "pollen_alleles": "partner_alleles"}


def _bloom(way: Direction) -> dict[str, Any]:
    tree, partner, verdict = way.tree.bloom, way.partner.bloom, way.verdict
    return {
        "together": verdict.bloom_together,
        "gap_classes": verdict.bloom_gap_classes,
        "gap_days": verdict.bloom_gap_days,
        "tree": None if tree is None else tree.value,
        "partner": None if partner is None else partner.value,
    }


def _distance(answer: PairAnswer, rulebook: Rulebook) -> dict[str, Any]:
    reach = rulebook.catalogue.crops[answer.asked.tree.crop].pollination_distance_ft
    return {
        "given_ft": answer.distance_ft,
        "reach_ft": None if reach is None else reach.value,
        "within_reach": answer.asked.within_reach,
    }
