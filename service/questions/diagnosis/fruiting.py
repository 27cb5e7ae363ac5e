"""What bears on whether a tree fruits: chill against its need, whose pollen stands near, frost on bloom, its age.

Each group is left out where what it rests on is unknown. The winter that counts is the one before the season of the
day that is asked about.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta

from service.compute.phenology import season_of
from service.domain.climate import ClimateSummary, Winter
from service.domain.crop import Crop
from service.domain.month_day import MonthDay, day_of_season
from service.domain.provenance import Span
from service.domain.season import StageSpan
from service.domain.sick_tree import SickTree
from service.domain.site import StandingTree
from service.questions.diagnosis.days import between, daily_f
from service.questions.diagnosis.question import DiagnosisQuestion
from service.questions.suggestion.chill import chill_facts
from service.questions.suggestion.known import crop_chill_claims
from service.questions.suggestion.place import WinterChill
from service.questions.suggestion.prepared import prepare as prepare_varieties
from service.questions.suggestion.standing import Standing
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]
Open = dict[str, Value | None]
_TENDER = ("bloom", "petal_fall", "fruit_set", "shuck_split")
_LARGEST_SHARE = 4000.0


def fruiting_facts(question: DiagnosisQuestion, place: Facts, rulebook: Rulebook) -> Open:
    """Everything that bears on fruiting."""
    tree, winters = question.tree, WinterChill(question.climate)
    crop = rulebook.catalogue.crops[tree.crop]
    facts: Open
    if tree.cultivar is None:
        facts = {**chill_facts(crop_chill_claims(crop), place, winters), **_crop_facts(crop, question.existing_trees)}
    else:
        grown = prepare_varieties(rulebook).cultivars[tree.cultivar]
        facts = {**grown.facts, **chill_facts(grown.chill, place, winters)}
        facts |= _partner_facts(tree.cultivar, crop, question.existing_trees, rulebook=rulebook)
    facts["chill.last_winter_over_low_need"] = _last_winter_over_need(facts, question)
    facts["zone.margin"] = _zone_margin(facts, place)
    return {**facts, **bearing_facts(tree, crop)}


def _crop_facts(crop: Crop, trees: tuple[StandingTree, ...] | None) -> Open:
    """What holds of a tree whose cultivar nobody knows: with no other tree near, no partner is near."""
    facts: Open = {"pollination.self_fertility": None if crop.self_fertility is None else crop.self_fertility.value}
    if crop.hardiness_zone is not None:
        facts["zone.coldest"] = crop.hardiness_zone.value.low
    serving = {crop.id, *(crop.partner_crops.value if crop.partner_crops else ())}
    if trees is not None and not any(tree.crop in serving for tree in trees):
        facts |= {"pollination.best_standing": "none", "pollination.partners_standing": 0}
        facts["pollination.partner_near"] = False
    return facts


def _partner_facts(
    cultivar: str, crop: Crop, trees: tuple[StandingTree, ...] | None, *, rulebook: Rulebook
) -> Open:
    table = prepare_varieties(rulebook).table
    facts: Open = {**Standing(trees, crops={crop.id: crop}, table=table).facts(cultivar, crop.id)}
    if trees is not None:
        reach = crop.pollination_distance_ft
        near = tuple(tree for tree in trees if _within(tree, None if reach is None else reach.value))
        there = Standing(near, crops={crop.id: crop}, table=table).facts(cultivar, crop.id)
        facts["pollination.partner_near"] = _is_near(there)
    return facts


def _within(tree: StandingTree, reach_ft: float | None) -> bool:
    return reach_ft is None or tree.distance_ft is None or tree.distance_ft <= reach_ft


def _is_near(there: Facts) -> bool | None:
    """Whether one of the trees within reach serves; a tree of an unnamed cultivar may, so nothing is said of it."""
    if there["pollination.partners_standing"]:
        return True
    return None if there["pollination.best_standing"] == "unknown" else False


def _last_winter_over_need(facts: Open, question: DiagnosisQuestion) -> float | None:
    """The chill of last winter over the lower end of the need, in the count in which the place is compared."""
    measure = facts.get("chill.measure")
    need = facts.get(f"chill.need_low_{measure}")
    winter = None if question.climate is None else last_winter(question, question.climate)
    if winter is None or not isinstance(need, int | float):
        return None
    supply = winter.chill_portions if measure == "portions" else winter.chill_hours
    return min(supply / max(need, 1), _LARGEST_SHARE)


def last_winter(question: DiagnosisQuestion, climate: ClimateSummary) -> Winter | None:
    """The recorded winter before the season of the day that is asked about."""
    if question.date is None:
        return None
    southern = climate.latitude < 0
    year = season_of(question.date, southern=southern)
    label = str(year) if southern else f"{year - 1}-{year % 100:02d}"
    return next((winter for winter in climate.counted_winters if winter.label == label), None)


def _zone_margin(facts: Open, place: Facts) -> float | None:
    zone, coldest = place.get("site.hardiness_zone"), facts.get("zone.coldest")
    known = isinstance(zone, int | float) and isinstance(coldest, int | float)
    return zone - coldest if known else None  # type: ignore[operator]


def bearing_facts(tree: SickTree, crop: Crop) -> Open:
    """How the age stands to the years to first fruit, of its size where that is told, otherwise of all sizes."""
    of_size = crop.years_to_bear.get(tree.size) if tree.size is not None else None
    stated = tuple(crop.years_to_bear.values()) if of_size is None else (of_size,)
    years = [span for one in stated for span in (one.value, *(other.value for other in one.others))]
    return _bearing(tree.age_years, years)


def _bearing(age_years: float | None, years: list[Span]) -> Open:
    lows = [span.low for span in years if span.low is not None]
    highs = [span.high for span in years if span.high is not None]
    if not lows or not highs:
        return {}
    earliest, latest = min(lows), max(highs)
    facts: Open = {"tree.years_to_first_fruit": earliest}
    if age_years is not None:
        stood = age_years - 1  # the first summer ends the year of planting
        word = "too_young" if stood < earliest else "old_enough" if stood >= latest else "may_be_too_young"
        facts["tree.bearing_age"] = word
    return facts


def bloom_frost_facts(question: DiagnosisQuestion, place: Facts, rulebook: Rulebook) -> Open:
    """Full bloom against the usual last frost, and the lowest temperature on open bloom where nobody told it."""
    bloom, frost = question.tree.bloom, place.get("site.last_spring_frost_day")
    facts: Open = {}
    if bloom.full_bloom is not None and isinstance(frost, int):
        southern = question.climate.latitude < 0 if question.climate is not None else question.site.southern
        day = day_of_season(MonthDay(bloom.full_bloom.month, bloom.full_bloom.day), southern=southern)
        facts["bloom.days_before_last_frost"] = frost - day
    if bloom.low_f is None:
        spans = rulebook.catalogue.season.stages.get(question.tree.crop, ())
        low = _lowest_f_in_bloom(question, spans)
        if low is not None:
            facts["bloom.low_f"] = low
    return facts


def _lowest_f_in_bloom(question: DiagnosisQuestion, spans: tuple[StageSpan, ...]) -> float | None:
    day, climate = question.tree.bloom.full_bloom, question.climate
    days = None if climate is None else daily_f(climate.reading.series)
    tender = [span for span in spans if span.stage in _TENDER and span.from_days is not None]
    if day is None or days is None or not tender:
        return None
    first = day + timedelta(days=round(min(span.from_days for span in tender if span.from_days is not None)))
    last = day + timedelta(days=round(max(span.to_days for span in tender if span.to_days is not None)))
    until = last if question.date is None else min(last, question.date)
    lows = between(days[0], days[1], since=first, until=until + timedelta(days=1)) if until >= first else None
    return None if lows is None else round(float(lows.min()), 1)
