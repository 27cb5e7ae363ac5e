"""What trees that stand there already can do for a new one."""

from __future__ import annotations

import pytest

from service.domain.site import StandingTree
from service.questions.pollination import partner_table
from service.questions.suggestion.standing import Standing
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_nursery import nursery


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return nursery(tmp_path_factory.mktemp("nursery"))


def standing(book: Rulebook, *trees: StandingTree, said: bool = True) -> Standing:
    crops = book.catalogue.crops
    return Standing(trees if said else None, crops=crops, table=partner_table(book))


def test_where_nobody_said_what_stands_there_nothing_is_known(book: Rulebook) -> None:
    assert standing(book, said=False).facts("apple.august", "apple") == {}


def test_where_nothing_stands_there_the_best_is_none(book: Rulebook) -> None:
    facts = standing(book).facts("apple.august", "apple")
    assert facts == {"pollination.best_standing": "none", "pollination.partners_standing": 0}


def test_a_tree_of_which_only_the_crop_is_known_may_or_may_not_serve(book: Rulebook) -> None:
    facts = standing(book, StandingTree("apple", distance_ft=5)).facts("apple.august", "apple")
    assert facts == {"pollination.best_standing": "unknown", "pollination.partners_standing": 0}


def test_a_grafted_tree_counts_with_every_cultivar_on_it(book: Rulebook) -> None:
    grafted = StandingTree("apple", ("apple.fussy", "apple.october"), distance_ft=12)
    facts = standing(book, grafted).facts("apple.august", "apple")
    assert (facts["pollination.best_standing"], facts["pollination.partners_standing"]) == ("compatible", 1)
    assert (facts["pollination.nearest_partner_ft"], facts["pollination.bloom_gap_classes"]) == (12, 0)


def test_two_trees_of_one_cultivar_are_one_partner_at_the_nearer_distance(book: Rulebook) -> None:
    pair = (StandingTree("apple", ("apple.october",), 40), StandingTree("apple", ("apple.october",), 25))
    facts = standing(book, *pair).facts("apple.august", "apple")
    assert (facts["pollination.partners_standing"], facts["pollination.nearest_partner_ft"]) == (1, 25)


def test_the_same_cultivar_is_no_partner_of_itself(book: Rulebook) -> None:
    facts = standing(book, StandingTree("apple", ("apple.august",), 5)).facts("apple.august", "apple")
    assert facts == {"pollination.best_standing": "none", "pollination.partners_standing": 0}


def test_a_crop_that_people_take_for_a_partner_is_called_incompatible(book: Rulebook) -> None:
    facts = standing(book, StandingTree("peach", ("peach.mild",), 5)).facts("apple.august", "apple")
    assert facts["pollination.best_standing"] == "incompatible"
    assert standing(book, StandingTree("peach", ("peach.mild",), 5)).partners("apple.august", "apple") == ()
