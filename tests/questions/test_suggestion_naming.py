"""Names in a request: found exactly, offered when near, pointed at when unknown."""

from __future__ import annotations

import pytest

from service.domain.errors import NotUnderstood
from service.domain.site import StandingTree
from service.knowledge.names import NameBook
from service.questions.suggestion import NamedTree, find_names
from tests.questions.made_up_nursery import catalogue

BOOK = NameBook(catalogue())


def faults(**names: object) -> dict[str, str]:
    with pytest.raises(NotUnderstood) as refused:
        find_names(BOOK, **{"crops": (), "consider": (), "trees": None, **names})  # type: ignore[arg-type]
    return dict(refused.value.faults)


def test_names_and_ids_are_found_once_each() -> None:
    found = find_names(BOOK, crops=["Apple", "manzana"], consider=["AUGUST", "apple.august", "Mild"], trees=None)
    assert (found.crops, found.consider, found.trees) == (("apple",), ("apple.august", "peach.mild"), None)


def test_an_unknown_cultivar_is_pointed_at_with_near_names() -> None:
    assert "August" in faults(consider=["Mild", "Augst"])["/consider/1"]


def test_every_unknown_name_of_a_request_is_told_at_once() -> None:
    told = faults(crops=["aple"], consider=["Zzzz"], trees=[NamedTree(crop="apple"), NamedTree(cultivar="Octobre")])
    assert set(told) == {"/wishes/crops/0", "/consider/0", "/existing_trees/1/cultivar"}


def test_a_tree_without_any_name_is_refused() -> None:
    assert "/existing_trees/0" in faults(trees=[NamedTree(distance_ft=3.0)])


def test_a_grafted_tree_holds_its_cultivars_in_the_order_given() -> None:
    tree = NamedTree(cultivar="October", grafted=("August", "October"), distance_ft=9.0)
    found = find_names(BOOK, crops=(), consider=(), trees=[tree])
    assert found.trees == (StandingTree("apple", ("apple.october", "apple.august"), 9.0),)


def test_a_cultivar_is_looked_for_in_the_crop_that_was_named() -> None:
    assert "/existing_trees/0/cultivar" in faults(trees=[NamedTree(crop="peach", cultivar="August")])
