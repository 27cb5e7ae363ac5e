"""Hours and portions of chill beside each other; all figures invented."""

from __future__ import annotations

import pytest

from service.questions.suggestion.chill import chill_facts
from service.questions.suggestion.known import ChillClaim
from service.questions.suggestion.place import WinterChill
from service.reasoning.vocabulary import Value

CLAIMS = (ChillClaim("portions", 40, 45, "cultivar", False), ChillClaim("hours", 700, 800, "cultivar", False))
NO_WINTERS = WinterChill(None)


@pytest.mark.parametrize(
    ("portions", "hours", "disagree"),
    [(50, 500, True), (30, 900, True), (50, 900, False), (30, 500, False), (40, 700, False), (40, 699, True)],
)
def test_counts_disagree_where_one_meets_the_need_and_the_other_does_not(
    portions: float, hours: float, disagree: bool
) -> None:
    place: dict[str, Value] = {"site.chill_portions": portions, "site.chill_hours": hours}
    facts = chill_facts(CLAIMS, place, NO_WINTERS)
    assert facts["chill.counts_disagree"] is disagree
    assert facts["chill.measure"] == "portions"


@pytest.mark.parametrize("place", [{"site.chill_portions": 50}, {"site.chill_hours": 900}, {}])
def test_one_count_alone_cannot_disagree(place: dict[str, Value]) -> None:
    assert "chill.counts_disagree" not in chill_facts(CLAIMS, place, NO_WINTERS)


def test_the_figure_of_the_crop_does_not_contradict_that_of_the_cultivar() -> None:
    claims = (CLAIMS[0], ChillClaim("hours", 700, 800, "crop", False))
    place: dict[str, Value] = {"site.chill_portions": 50, "site.chill_hours": 500}
    assert "chill.counts_disagree" not in chill_facts(claims, place, NO_WINTERS)
