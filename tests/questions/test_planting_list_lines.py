"""A line of a planting list: the root it is judged on, what it adds to the facts, stock and substitutes."""

from __future__ import annotations

import pytest

from service.domain.site import Site, StandingTree, Wishes
from service.domain.store import StockItem
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import GARDEN, ListCounter, facts

WARM = Site(hardiness_zone=9.5, chill_hours=200)


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


@pytest.mark.parametrize(
    ("written", "basis", "root"),
    [
        ("Honeycrisp on M.9", "listed", "m_9"),
        ("Honeycrisp M9", "listed", "m_9"),
        ("Honeycrisp apple", "best_here", None),
        ("Elberta peach on M.9", "best_here", None),
    ],
)
def test_a_line_is_judged_on_the_root_it_names_and_else_on_the_best_for_the_place(
    counter: ListCounter, written: str, basis: str, root: str | None
) -> None:
    tree = counter.line(written).names[0].tree
    assert tree is not None
    assert tree.basis == basis
    best = counter.checker().trees.candidate(tree.candidate.cultivar.id).root.rootstock
    assert best is not None
    assert tree.candidate.root.rootstock is not None
    assert tree.candidate.root.rootstock.id == (root or best.id)


def test_a_size_word_chooses_a_root_that_grows_to_that_size(counter: ListCounter) -> None:
    dwarf, standard = (counter.line(f"Jonagold apple, {word}") for word in ("dwarf", "standard"))
    assert facts(dwarf)["line.root_basis"] == facts(standard)["line.root_basis"] == "size_word"
    assert facts(dwarf)["rootstock.size_percent"] < facts(standard)["rootstock.size_percent"]


def test_a_size_that_no_root_of_the_crop_grows_to_is_told(counter: ListCounter) -> None:
    assert facts(counter.line("Hosui asian pear, dwarf"))["line.size_without_root"] is True
    assert facts(counter.line("Jonagold apple, dwarf"))["line.size_without_root"] is False
    assert "line.size_without_root" not in facts(counter.line("Brown Turkey fig, dwarf"))  # no root of figs is known


def test_a_size_other_than_that_of_the_listed_root_is_told(counter: ListCounter) -> None:
    assert facts(counter.line("Jonagold on M.9, standard"))["line.size_against_root"] is True
    assert facts(counter.line("Jonagold on M.9, dwarf"))["line.size_against_root"] is False


def test_a_rootstock_of_another_crop_is_told_and_the_tree_still_judged(counter: ListCounter) -> None:
    line = counter.line("Elberta peach on M.9")
    assert facts(line)["line.root_of_other_crop"] is True
    assert line.names[0].tree is not None


def test_bartlett_on_quince_fails_by_its_root_and_a_better_one_is_known(counter: ListCounter) -> None:
    """Bartlett is incompatible with quince roots (Oregon State University, rootstocks for pear)."""
    line = counter.line("Bartlett pear on Quince A")
    assert facts(line)["line.root_incompatible"] is True
    assert line.names[0].tree is not None
    assert not line.names[0].tree.fits
    assert line.verdict == "does_not_fit"


def test_what_stands_near_neither_raises_nor_lowers_the_fit_of_a_line(counter: ListCounter) -> None:
    near = (StandingTree("apple", ("apple.liberty",), distance_ft=20),)
    alone, partnered = counter.line("Honeycrisp", existing_trees=()), counter.line("Honeycrisp", existing_trees=near)
    assert facts(alone)["variety.fit"] == facts(partnered)["variety.fit"]
    assert facts(alone)["pollen.served"] is False
    assert facts(partnered)["pollen.served"] is True


def test_no_reason_of_a_line_speaks_of_trees_that_stand_near(counter: ListCounter) -> None:
    tree = counter.line("Honeycrisp").names[0].tree
    assert tree is not None
    tested = {name for one in tree.conclusions for name in one.rule.tested}
    assert "pollination.best_standing" not in tested
    assert {name for one in tree.candidate.judgement.conclusions for name in one.rule.tested} > tested


def test_a_name_that_nobody_knows_is_judged_all_the_same(counter: ListCounter) -> None:
    line = counter.line("Zzyxqv")
    assert line.names[0].tree is None
    assert facts(line)["line.how"] in ("not_recognised", "no_name")
    assert line.verdict == "not_recognised"


def test_a_tree_with_several_names_is_judged_by_each_and_takes_the_worst_verdict(counter: ListCounter) -> None:
    line = counter.line("3-in-1 apple: Liberty / Freedom / Zzyxqv")
    assert [facts(line, index)["line.names"] for index in range(len(line.names))] == [3, 3, 3]
    assert [name.verdict for name in line.names][-1] == "not_recognised" == line.verdict


def test_a_later_line_for_the_same_tree_names_the_earlier(counter: ListCounter) -> None:
    lines = counter.check("Honeycrisp on M.9\nHoneycrisp on M.9\nHoneycrisp on MM.106\nGala apple").lines
    assert [facts(line)["line.repeats"] for line in lines] == ["never", "same_tree", "other_root", "never"]
    assert [line.repeats for line in lines] == [None, 1, 1, None]


def test_wishes_and_standing_trees_are_told_to_the_rules(counter: ListCounter) -> None:
    there = (StandingTree("apple", ("apple.honeycrisp",)),)
    line = counter.line("Honeycrisp", wishes=Wishes(crops=("peach",)), existing_trees=there)
    assert facts(line)["line.crop_wished"] is False
    assert facts(line)["line.already_there"] is True
    assert "line.already_there" not in facts(counter.line("Honeycrisp"))


def test_a_cultivar_that_fails_here_gets_substitutes_of_its_crop_that_fit(counter: ListCounter) -> None:
    name = counter.line("Honeycrisp apple", WARM).names[0]
    assert name.tree is not None
    assert not name.tree.fits
    assert name.substitutes
    assert all(one.fits and one.crop.id == "apple" for one in name.substitutes)
    assert name.judgement.facts["line.substitute"] == name.substitutes[0].cultivar.denomination
    assert counter.line("Honeycrisp apple", GARDEN).names[0].substitutes == ()


def test_stock_is_counted_on_the_root_asked_for_over_all_lines(counter: ListCounter) -> None:
    stock = (
        StockItem("a", "apple.honeycrisp", "m_9", 2),
        StockItem("b", "apple.honeycrisp", "mm_106", 5),
        StockItem("c", "apple.gala", "m_9", 4),
    )
    lines = counter.check("2 Honeycrisp on M.9\n1 Honeycrisp on M.9\n1 Honeycrisp", stock=stock).lines
    assert [facts(line)["stock.quantity"] for line in lines] == [2, 2, 7]
    assert [facts(line)["stock.other_roots"] for line in lines] == [5, 5, 0]
    assert [line.names[0].short_by for line in lines] == [1, 1, 0]


def test_only_what_is_in_stock_is_offered_where_the_stock_is_known(counter: ListCounter) -> None:
    stock = (StockItem("c", "apple.gala", "m_9", 4),)
    name = counter.line("3 Honeycrisp on M.9", stock=stock).names[0]
    assert [one.cultivar.id for one in name.substitutes] == ["apple.gala"]
    assert counter.line("3 Honeycrisp on M.9", stock=()).names[0].substitutes == ()


def test_without_stock_told_nothing_is_said_of_it(counter: ListCounter) -> None:
    line = counter.line("Honeycrisp")
    assert line.names[0].short_by is None
    assert not [name for name in facts(line) if name.startswith("stock.")]


def test_figures_that_no_tree_has_do_not_stop_the_rules(counter: ListCounter) -> None:
    line = counter.line("99999999999 Honeycrisp on M.9, 5000000 gal")
    assert facts(line)["line.trees"] <= 1_000_000
    assert facts(line).get("line.container_gal", 0) <= 1000
