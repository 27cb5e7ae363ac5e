"""The one way through the season question: the place once, then each tree by itself."""

from __future__ import annotations

from service.domain.climate_models import ClimateModels
from service.domain.errors import NotUnderstood
from service.questions.season.blooming import seen_in_future
from service.questions.season.question import SeasonAnswer, SeasonQuestion, TreeYear
from service.questions.season.tree_year import SeasonCase, TreeWay
from service.questions.season.watering import reference_inches
from service.questions.suggestion.place import with_climate
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook


def plan_season(
    question: SeasonQuestion, *, rulebook: Rulebook, models: ClimateModels, asking: Matcher
) -> SeasonAnswer:
    """What is done to these trees in the next twelve months, and when."""
    _refuse_future(question)
    site = with_climate(question.site, question.climate)
    et0_in = reference_inches(question, question.climate, models.evapotranspiration)
    case = SeasonCase(question, site, rulebook, models, asking, et0_in)
    return SeasonAnswer(question, site, tuple(_year(case, place) for place in range(len(question.trees))))


def _year(case: SeasonCase, place: int) -> TreeYear:
    """The year of one tree; what cannot be is pointed at in the list of trees."""
    try:
        return TreeWay(case, case.question.trees[place]).year()
    except NotUnderstood as fault:
        raise NotUnderstood(*((f"/trees/{place}{at}", detail) for at, detail in fault.faults)) from fault


def _refuse_future(question: SeasonQuestion) -> None:
    faults = [
        (f"/trees/{place}{pointer}", detail)
        for place, tree in enumerate(question.trees)
        for pointer, detail in seen_in_future(tree, question.start)
    ]
    if faults:
        raise NotUnderstood(*faults)
