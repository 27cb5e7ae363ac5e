"""A need of which only the upper end is known: it can clear a cultivar, and it never counts against one."""

from __future__ import annotations

from service.questions.suggestion.chill import chill_facts
from service.questions.suggestion.known import ChillClaim
from service.questions.suggestion.place import WinterChill

NO_SERIES = WinterChill(None)
THRIVES_ON_310 = ChillClaim("hours", None, 310, "cultivar", recalled=False)
CROP_WIDE = ChillClaim("hours", 600, 1500, "crop", recalled=False)


def test_a_place_with_as_much_chill_as_the_tree_thrives_on_meets_its_own_need() -> None:
    facts = chill_facts((THRIVES_ON_310, CROP_WIDE), {"site.chill_hours": 310}, NO_SERIES)
    assert (facts["chill.basis"], facts["chill.supply_over_high_need"]) == ("cultivar", 1)
    assert "chill.supply_over_low_need" not in facts


def test_a_place_with_less_is_judged_by_the_figure_for_the_crop() -> None:
    facts = chill_facts((THRIVES_ON_310, CROP_WIDE), {"site.chill_hours": 300}, NO_SERIES)
    assert (facts["chill.basis"], facts["chill.supply_over_low_need"]) == ("crop", 0.5)


def test_a_place_with_less_is_left_open_where_the_crop_has_no_figure() -> None:
    facts = chill_facts((THRIVES_ON_310,), {"site.chill_hours": 155}, NO_SERIES)
    assert (facts["chill.basis"], facts["chill.supply_over_high_need"]) == ("cultivar", 0.5)
    assert "chill.supply_over_low_need" not in facts


def test_a_need_with_both_ends_comes_before_a_one_sided_one() -> None:
    own = ChillClaim("hours", 250, 300, "cultivar", recalled=True)
    facts = chill_facts((own, THRIVES_ON_310, CROP_WIDE), {"site.chill_hours": 400}, NO_SERIES)
    assert (facts["chill.need_low_hours"], facts["chill.recalled"]) == (250, True)
