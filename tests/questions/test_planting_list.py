"""The list as a whole: pollen and its smallest addition, room, harvest, shared disease, law, order and repair."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from service.domain.month_day import MonthDay
from service.domain.site import Site, Spot, StandingTree, Wishes
from service.domain.store import StockItem
from service.questions.planting_list import CheckedList
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import GARDEN, ListCounter, facts


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


def whole(checked: CheckedList) -> dict[str, object]:
    return dict(checked.judgement.facts)


def test_two_cherries_of_one_incompatibility_group_leave_each_other_unserved(counter: ListCounter) -> None:
    """Bing and Lambert share S3S4 (published S-genotype tables of sweet cherry)."""
    checked = counter.check("Bing cherry\nLambert cherry", existing_trees=())
    assert [facts(line)["pollen.served"] for line in checked.lines] == [False, False]
    assert facts(checked.lines[0])["pollen.best"] == "incompatible"
    assert whole(checked)["pollen.unserved_trees"] == 2


def test_one_tree_is_added_for_two_cherries_that_lack_a_partner(counter: ListCounter) -> None:
    addition = counter.check("Bing cherry\nLambert cherry", existing_trees=()).addition
    assert addition is not None
    assert not addition.unserved
    assert [set(tree.serves) for tree in addition.trees] == [{"sweet_cherry.bing", "sweet_cherry.lambert"}]


def test_an_addition_is_served_itself(counter: ListCounter) -> None:
    checked = counter.check("Jonagold apple", existing_trees=())
    assert checked.addition is not None
    assert not checked.addition.unserved
    names = [counter.rulebook.catalogue.cultivars[tree.cultivar].denomination for tree in checked.addition.trees]
    after = counter.check("\n".join(["Jonagold apple", *(f"{name} apple" for name in names)]), existing_trees=())
    assert after.addition is None


def test_nothing_is_added_to_a_list_that_serves_itself(counter: ListCounter) -> None:
    checked = counter.check("Liberty apple\nGala apple\nElberta peach", existing_trees=())
    assert checked.addition is None
    assert whole(checked)["pollen.addition_trees"] == 0


def test_what_is_in_stock_is_added_before_what_is_not(counter: ListCounter) -> None:
    stock = (StockItem("s", "sweet_cherry.stella", None, 3), StockItem("b", "sweet_cherry.bing", None, 3))
    addition = counter.check("Bing cherry", existing_trees=(), stock=stock).addition
    assert addition is not None
    assert [(tree.cultivar, tree.in_stock) for tree in addition.trees] == [("sweet_cherry.stella", 3)]


def test_a_standing_tree_within_reach_serves_and_one_beyond_does_not(counter: ListCounter) -> None:
    reach = counter.rulebook.catalogue.crops["apple"].pollination_distance_ft
    assert reach is not None
    near, far = (
        counter.check("Honeycrisp", existing_trees=(StandingTree("apple", ("apple.gala",), distance_ft=distance),))
        for distance in (reach.value, reach.value + 1)
    )
    assert facts(near.lines[0])["pollen.served"] is True
    assert facts(far.lines[0])["pollen.served"] is False
    assert (near.addition, far.addition is None) == (None, False)


def test_it_stays_unknown_whether_a_tree_is_served_where_nobody_said_what_stands_near(counter: ListCounter) -> None:
    line = counter.line("Honeycrisp")
    assert "pollen.served" not in facts(line)
    assert facts(line)["pollen.partners_listed"] == 0


def test_cultivars_on_one_tree_serve_each_other(counter: ListCounter) -> None:
    line = counter.line("2-in-1: Honeycrisp / Freedom", existing_trees=())
    assert [facts(line, index)["pollen.on_same_tree"] for index in (0, 1)] == [True, True]
    assert [facts(line, index)["pollen.served"] for index in (0, 1)] == [True, True]


def test_sketched_trees_keep_their_distances_and_stay_on_the_plot(counter: ListCounter) -> None:
    checked = counter.check("3 Honeycrisp on M.9\n2 Elberta peach\nBrown Turkey fig")
    assert checked.sketch is not None
    trees = checked.sketch.trees
    assert len(trees) + sum(checked.sketch.left_over.values()) == 6
    for one, other in combinations(trees, 2):
        apart = math.dist((one.x_ft, one.y_ft), (other.x_ft, other.y_ft))
        assert apart >= (one.spread_ft + other.spread_ft) / 2 - 0.02
    assert all(0 <= tree.x_ft <= 60 and 0 <= tree.y_ft <= 40 for tree in trees)


def test_new_trees_keep_clear_of_one_that_stands_on_the_plot(counter: ListCounter) -> None:
    stands = StandingTree("cherry", spot=Spot(6, 6, spread_ft=12))
    sketch = counter.check("4 Honeycrisp on M.9", existing_trees=(stands, StandingTree("apple", distance_ft=90))).sketch
    assert sketch is not None
    assert [(one.crop, one.x_ft, one.spread_ft) for one in sketch.standing] == [("cherry", 6, 12)]
    assert len(sketch.trees) == 4
    assert all(math.dist((tree.x_ft, tree.y_ft), (6, 6)) >= (tree.spread_ft + 12) / 2 - 0.02 for tree in sketch.trees)


def test_trees_that_find_no_room_are_told_by_line(counter: ListCounter) -> None:
    tight = Site(hardiness_zone=7.0, chill_hours=900, width_ft=20, depth_ft=10)
    checked = counter.check("9 Honeycrisp on M.9\nGala apple on M.9", tight)
    assert checked.sketch is not None
    assert sum(checked.sketch.left_over.values()) == 10 - len(checked.sketch.trees) > 0
    assert whole(checked)["plot.left_over"] == sum(checked.sketch.left_over.values())
    assert whole(checked)["plot.area_share"] == pytest.approx(10 * 8**2 / 200)


def test_nothing_is_sketched_without_a_plot_or_of_more_trees_than_the_limit(counter: ListCounter) -> None:
    most = int(counter.rulebook.limits["planting_list.sketch.trees"].value)
    assert counter.check("Honeycrisp", Site(hardiness_zone=7.0)).sketch is None
    assert counter.check(f"{most + 1} Honeycrisp on M.9").sketch is None
    assert counter.check(f"{most} Honeycrisp on M.9").sketch is not None


def test_the_harvest_counts_the_trees_of_each_month(counter: ListCounter) -> None:
    checked = counter.check("2 Honeycrisp\nGala apple\nElberta peach")
    assert checked.harvest is not None
    assert {time.cultivar: time.trees for time in checked.harvest.times} == {"apple.honeycrisp": 2, "apple.gala": 1}
    assert checked.harvest.unknown_trees == 1
    assert (checked.harvest.months[8], checked.harvest.months[9]) == (1, 2)


def test_wished_months_without_a_tree_are_counted(counter: ListCounter) -> None:
    checked = counter.check("Gala apple", wishes=Wishes(harvest_months=(8, 10, 11)))
    assert whole(checked)["harvest.wished_missed"] == 2


def test_a_disease_that_most_trees_take_is_named(counter: ListCounter) -> None:
    checked = counter.check("8 Gala apple\n1 Liberty apple")
    shared, widest = whole(checked)["disease.shared"], whole(checked)["disease.widest"]
    assert isinstance(shared, tuple)
    assert widest in shared
    assert whole(checked)["disease.widest_trees"] == 8
    assert whole(checked)["disease.apple_resistant_share"] == pytest.approx(1 / 9)


def test_what_the_state_regulates_of_the_crops_is_named_where_the_state_is(counter: ListCounter) -> None:
    checked = counter.check("Gala apple", state="WA")
    assert "apple_maggot" in whole(checked)["quarantine.here"]  # type: ignore[operator]
    assert whole(checked)["quarantine.crops"] == ("apple",)
    assert "quarantine.here" not in whole(counter.check("Gala apple"))
    assert whole(counter.check("Gala apple", state="NH"))["quarantine.here"] == ()


def test_trees_picked_after_the_first_frost_are_counted(counter: ListCounter) -> None:
    early = Site(hardiness_zone=7.0, first_autumn_frost=MonthDay(9, 1))
    assert whole(counter.check("3 Honeycrisp\nGala apple", early))["harvest.after_frost_trees"] == 3


def test_the_order_of_planting_holds_what_goes_in_and_nothing_else(counter: ListCounter) -> None:
    checked = counter.check("Bartlett pear on Quince A\nHoneycrisp on M.9\nZzyxqv\nGala apple")
    assert set(checked.order) == {
        line.line.line for line in checked.lines if line.verdict in ("fits", "caution")
    }
    assert 1 not in checked.order


def test_a_root_on_which_the_tree_fails_is_changed_for_less_than_the_tree(counter: ListCounter) -> None:
    mended = counter.check("Bartlett pear on Quince A\nHarrow Sweet pear", Site(hardiness_zone=7.0)).mended
    assert mended is not None
    assert mended.repair is not None
    assert mended.after is not None
    assert [line.change for line in mended.repair.lines] == ["rootstock", "keep"]
    assert mended.repair.cost == counter.rulebook.limits["planting_list.cost.rootstock"].value
    assert all(line.verdict in ("fits", "caution") for line in mended.after.lines)


def test_a_repaired_list_has_partners_and_room(counter: ListCounter) -> None:
    checked = counter.check("2 Bing cherry\n5 Bartlett pear on Quince A\nHoneycrisp on M.9", existing_trees=())
    assert checked.mended is not None
    assert checked.mended.after is not None
    after = checked.mended.after
    assert after.addition is None
    assert after.sketch is not None
    assert not any(after.sketch.left_over.values())
    assert not [line for line in after.lines if line.verdict == "does_not_fit"]


def test_nothing_is_repaired_where_nothing_is_amiss(counter: ListCounter) -> None:
    assert counter.check("Liberty apple\nGala apple").mended is None


def test_lines_that_nobody_could_read_stay_as_they_are_in_a_repair(counter: ListCounter) -> None:
    mended = counter.check("Zzyxqv\nBartlett pear on Quince A\nHarrow Sweet pear", Site(hardiness_zone=7.0)).mended
    assert mended is not None
    assert mended.repair is not None
    assert mended.after is not None
    assert 1 not in [line.line for line in mended.repair.lines]
    assert mended.after.lines[0].line.written == "Zzyxqv"


def test_an_empty_list_is_answered(counter: ListCounter) -> None:
    checked = counter.check("", GARDEN)
    assert (checked.lines, checked.totals.all_trees, checked.mended, checked.harvest) == ((), 0, None, None)


def test_the_same_list_comes_to_the_same_answer(counter: ListCounter) -> None:
    text = "2 Bing cherry\nGalla apple\nElberta peach\n3-in-1: Liberty/Freedom/Enterprise"
    one, other = counter.check(text), counter.check(text)
    assert one.judgement.as_bytes() == other.judgement.as_bytes()
    assert (one.sketch, one.addition, one.order) == (other.sketch, other.addition, other.order)
