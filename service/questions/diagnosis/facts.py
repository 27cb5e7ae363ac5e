"""A diagnosis question as facts, by the names of the vocabulary; what is unknown is left out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields

from service.compute.evidence import Likelihoods
from service.compute.infection import infected_by
from service.compute.pruning_window import day_number, days_until
from service.domain.disorder import Disorder
from service.domain.sick_tree import BloomTold, Care, RecentWeather, Seen, SickTree
from service.domain.site import Site
from service.questions.diagnosis.fruiting import bloom_frost_facts, fruiting_facts
from service.questions.diagnosis.prepared import Prepared
from service.questions.diagnosis.question import DiagnosisQuestion, Facts, JudgedDisorder, SignsFor
from service.questions.suggestion.place import site_facts
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_RECKONED_WITH = ("wet_periods", "insect_heat", "full_bloom")
_OF_TREE = ("age_years", "vigour", "last_crop", "bearing")
Open = Mapping[str, Value | None]


def known(facts: Open) -> dict[str, Value]:
    """The facts that are known."""
    return {name: value for name, value in facts.items() if value is not None}


def case_facts(question: DiagnosisQuestion, site: Site, rulebook: Rulebook) -> dict[str, Value]:
    """All that is told of the tree, the place, the season and the care, and what follows from it by reckoning."""
    tree = question.tree
    crop = rulebook.catalogue.crops[tree.crop]
    place = site_facts(site)
    facts: dict[str, Value | None] = {"crop": crop.id, "crop.kind": crop.kind, **place}
    facts.update({f"tree.{name}": getattr(tree, name) for name in _OF_TREE})
    facts.update({"complaint": question.complaint, "season.stage": tree.stage, "state": question.state})
    facts.update(_seen_facts(tree.seen))
    facts.update(_told("recent", tree.weather))
    facts.update(_told("bloom", tree.bloom))
    facts.update(_told("care", tree.care))
    facts["recent.infection"] = _infection(tree, rulebook)
    facts.update(_day_facts(question, site, place))
    facts.update(fruiting_facts(question, place, rulebook))
    facts.update(bloom_frost_facts(question, place, rulebook))
    return known(facts)


def _seen_facts(seen: Seen) -> dict[str, Value | None]:
    nothing_told = not seen.answers
    return {
        "signs.present": None if nothing_told else seen.present,
        "signs.absent": None if nothing_told else seen.absent,
    }


def _told(group: str, told: RecentWeather | BloomTold | Care) -> Iterator[tuple[str, Value]]:
    for field in fields(told):
        if field.name not in _RECKONED_WITH:
            yield f"{group}.{field.name}", getattr(told, field.name)


def _infection(tree: SickTree, rulebook: Rulebook) -> tuple[str, ...] | None:
    periods = tree.weather.wet_periods
    conditions = rulebook.catalogue.diagnosis.infection.values()
    met = (one.disorder for one in conditions if any(infected_by(period, one) for period in periods))
    return tuple(dict.fromkeys(met)) if periods else None


def _day_facts(question: DiagnosisQuestion, site: Site, place: Facts) -> dict[str, Value | None]:
    if question.date is None:
        return {}
    today = day_number(question.date, southern=site.southern)
    frost = place.get("site.last_spring_frost_day")
    ahead = days_until(frost, today=today) if isinstance(frost, int) else None
    return {"date.day": today, "date.days_to_last_frost": ahead}


def signs_for(disorder: Disorder, seen: Seen) -> SignsFor:
    """The signs that were told, as a disorder sees them."""
    return SignsFor(
        typical_seen=tuple(sign for sign in seen.present if sign in disorder.typical),
        sometimes_seen=tuple(sign for sign in seen.present if sign in disorder.sometimes),
        against_seen=tuple(sign for sign in seen.present if sign in disorder.rules_out),
        typical_missing=tuple(sign for sign in seen.absent if sign in disorder.typical),
    )


def disorder_facts(
    disorder: Disorder, signs: SignsFor, *, tree: SickTree, prepared: Prepared
) -> dict[str, Value]:
    """One disorder on this tree, without what the heat of the season says."""
    facts: dict[str, Value | None] = {
        "disorder": disorder.id,
        "disorder.kind": disorder.kind,
        "disorder.host": disorder.standing(tree.crop),
        "disorder.often_confused": tree.crop in disorder.confused_on,
        "disorder.season": season_of(disorder, tree.stage, prepared),
        "disorder.regulated": disorder.regulated,
        "disorder.do_not_move": disorder.do_not_move,
        "disorder.urgency": disorder.urgency,
        "disorder.signs_for": len(signs.speaking_for),
        "disorder.typical_seen": len(signs.typical_seen),
        "disorder.typical_missing": len(signs.typical_missing),
        "disorder.signs_against": len(signs.against_seen),
    }
    return known(facts)


def season_of(disorder: Disorder, stage: str | None, prepared: Prepared) -> str | None:
    """Whether a stage of growth is one in which the disorder shows, near one, or out of its season."""
    if stage is None or not disorder.stages:
        return None
    off = prepared.stages_off(disorder, stage)
    return "in_season" if off == 0 else "near" if off <= prepared.points("season.near_stages") else "out"


def suspect_facts(likelihoods: Likelihoods, place: int, causes: Mapping[str, JudgedDisorder]) -> dict[str, Value]:
    """Where one of the ranked causes stands among the others."""
    ranked = likelihoods.ranked
    name, share = ranked[place]
    rival = max((other for at, (_, other) in enumerate(ranked) if at != place), default=0.0)
    disorder = causes[name].disorder
    like = next((other for other, _ in ranked if other != name and disorder.like(other) is not None), None)
    return known(
        {
            **causes[name].facts,
            "suspect.likelihood": share,
            "suspect.rank": place + 1,
            "suspect.lead": share - rival,
            "suspect.looks_like": like,
        }
    )


def answer_facts(
    likelihoods: Likelihoods, causes: Mapping[str, JudgedDisorder], seen: Seen, *, likelier: Sequence[Disorder]
) -> dict[str, Value]:
    """The answer as a whole; `likelier` are the suspects likely enough to be pointed out where they are regulated."""
    ranked = likelihoods.ranked
    (top, share), (second, next_share) = (*ranked, (None, 0.0), (None, 0.0))[:2]
    first = None if top is None else causes[top].disorder
    regulated = tuple(one.id for one in likelier if one.regulated != "none")
    return known(
        {
            "answer.top": top,
            "answer.top_kind": None if first is None else first.kind,
            "answer.top_urgency": None if first is None else first.urgency,
            "answer.second": second,
            "answer.top_likelihood": share,
            "answer.lead": share - next_share,
            "answer.unexplained": likelihoods.something_else,
            "answer.signs_told": len(seen.answers),
            "answer.regulated": regulated or None,
            "answer.not_to_be_moved": tuple(one.id for one in likelier if one.do_not_move) or None,
            "answer.top_sample": None if first is None else first.sample,
            "answer.look_alikes": taken_for_one_another(first, None if second is None else causes[second].disorder),
        }
    )


def taken_for_one_another(first: Disorder | None, second: Disorder | None) -> bool:
    """Whether either of two disorders names the other among those that it is taken for."""
    if first is None or second is None:
        return False
    return first.like(second.id) is not None or second.like(first.id) is not None
