"""The answer to the variety question as plain data."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.domain.site import Site, StandingTree, Wishes
from service.present.suggestion import suggestion_advice
from service.questions.suggestion import SuggestionQuestion
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_nursery import answer, nursery


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return nursery(tmp_path_factory.mktemp("nursery"))


def told(book: Rulebook, question: SuggestionQuestion, **how: Any) -> dict[str, Any]:
    return suggestion_advice(answer(book, question), rulebook=book, **how)


WISHES = Wishes(harvest_months=(8, 10), max_trees=2)


def test_a_suggestion_says_what_a_customer_asks_about(book: Rulebook) -> None:
    site = Site(chill_hours=800, max_height_ft=12, width_ft=20, depth_ft=20)
    standing = (StandingTree("apple", ("apple.october",)),)
    question = SuggestionQuestion(site, Wishes(crops=("apple",)), standing)
    first = told(book, question)["answer"]["suggestions"][0]
    assert first["name"] == "August"
    assert first["rootstock"]["name"] == "Small"
    assert (first["spacing_ft"], first["spacing_m"], first["trees_that_fit"]) == (8, 2.44, 4)
    assert first["mature_height_ft"] == {"low": 7, "high": 12, "basis": "share_of_seedling"}
    assert first["harvest"] == {
        "from": "08-01", "to": "08-31", "basis": "cultivar_dates", "place": "a garden", "sources": ["a-book"],
        "from_memory": False,
    }  # fmt: skip
    assert first["pollination"]["standing"] == [
        {"cultivar": "apple.october", "name": "October", "shown_by": "proven"}
    ]
    assert first["pollination"]["partners"] == []


def test_what_to_do_stands_before_why(book: Rulebook) -> None:
    first = told(book, SuggestionQuestion(Site(chill_hours=1000)))["answer"]["suggestions"][0]
    assert [reason["outcome"] for reason in first["reasons"]] == ["advise", "prefer"]


def test_the_harvest_of_a_southern_place_falls_half_a_year_later(book: Rulebook) -> None:
    question = SuggestionQuestion(Site(latitude=-35.0), Wishes(harvest_months=(2,)))
    suggested = told(book, question)["answer"]["suggestions"]
    august = next(one for one in suggested if one["name"] == "August")
    assert (august["harvest"]["from"], august["harvest"]["to"]) == ("01-29", "02-28")
    assert "in-a-wished-month" in [reason["rule"] for reason in august["reasons"]]


def test_every_cultivar_set_aside_says_why_and_the_rest_is_counted(book: Rulebook) -> None:
    said = told(book, SuggestionQuestion(Site(chill_hours=300)), set_aside_limit=1)["answer"]
    assert len(said["set_aside"]) == 1
    assert said["set_aside_more"] == 3
    assert all(one["reasons"] for one in told(book, SuggestionQuestion(Site(chill_hours=300)))["answer"]["set_aside"])


def test_the_envelope_holds_each_conclusion_with_its_subject_its_facts_and_its_authority(book: Rulebook) -> None:
    said = told(book, SuggestionQuestion(Site(chill_hours=1000), WISHES, limit=1))
    assert said["rulebook"] == book.digest
    assert (said["conclusions"][0]["rule"], said["conclusions"][0]["about"]) == ("call-before-you-dig", None)
    chill = next(one for one in said["conclusions"] if one["rule"] == "enough-chill")
    assert chill["about"] == said["answer"]["suggestions"][0]["cultivar"]
    assert chill["facts"][0]["fact"] == "chill.supply_over_low_need"
    assert chill["basis"] == "common practice"


def test_a_caution_of_many_conclusions_is_shown_once_in_the_readers_language(book: Rulebook) -> None:
    question = SuggestionQuestion(Site(), Wishes(harvest_months=(7, 8, 10)))
    assert told(book, question)["cautions"] == [{"id": "ladder", "text": "Mind the ladder."}]
    assert told(book, question, language="es")["cautions"][0]["text"] == "Cuidado con la escalera."


def test_figures_known_only_of_the_crop_are_named(book: Rulebook) -> None:
    suggested = told(book, SuggestionQuestion(Site(chill_hours=1000)))["answer"]["suggestions"]
    crop_wide = {one["name"]: one["crop_wide"] for one in suggested}
    assert crop_wide["October"] == ["chill.basis", "zone.basis", "pollination.basis"]
    assert crop_wide["Mild"] == ["pollination.basis"]


def test_the_planting_set_names_partners_and_what_the_second_gives_up(book: Rulebook) -> None:
    planting = told(book, SuggestionQuestion(Site(), WISHES))["answer"]["planting_set"]
    by_name = {tree["name"]: tree for tree in planting["best"]["trees"]}
    assert by_name["August"]["partners"] == ["apple.october"]
    assert planting["best"]["months"] == [8, 10]
    assert set(planting["second"]["gives_up"]) == {"points", "months", "trees", "instead"}


def test_nothing_worth_planting_gives_no_set(book: Rulebook) -> None:
    question = SuggestionQuestion(Site(chill_hours=10), Wishes(crops=("apple",)))
    assert told(book, question)["answer"]["planting_set"] is None


def test_the_same_question_gives_the_same_bytes(book: Rulebook) -> None:
    question = SuggestionQuestion(Site(chill_hours=500, width_ft=40, depth_ft=40), WISHES, consider=("peach.wintry",))
    assert json.dumps(told(book, question)) == json.dumps(told(book, question))
