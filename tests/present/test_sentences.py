"""Sentences filled from a judgement, with units and in the reader's language."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.present.choice_words import choice_text
from service.present.sentences import Sentences, listed
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, load_rulebook
from tests.questions.made_up_nursery import nursery

RULES = Path(__file__).parents[2] / "rules"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return nursery(tmp_path_factory.mktemp("nursery"))


def said(book: Rulebook, language: str, **facts: object) -> list[str]:
    judgement = PlainMatcher(book).judge("suggestion.cultivar", facts)  # type: ignore[arg-type]
    sentences = Sentences(book, language=language)  # type: ignore[arg-type]
    return [sentences.text(conclusion) for conclusion in judgement.conclusions]


FACTS = {"crop": "apple", "cultivar": "August", "chill.supply_over_low_need": 1.256}


def test_a_placeholder_becomes_the_value_with_its_unit(book: Rulebook) -> None:
    assert said(book, "en", **FACTS) == ["August gets enough chill: 126%."]


def test_a_rule_worded_in_spanish_speaks_spanish(book: Rulebook) -> None:
    assert said(book, "es", **FACTS) == ["August recibe suficiente frío: 126%."]


def test_a_rule_without_spanish_wording_speaks_english_with_spanish_values(book: Rulebook) -> None:
    told = said(book, "es", crop="apple", cultivar="August", **{"pollination.self_fertility": "self_sterile"})
    assert told == ["Plant another manzana near August."]


def test_the_reason_comes_in_the_language_that_has_it(book: Rulebook) -> None:
    (conclusion,) = PlainMatcher(book).judge("suggestion.cultivar", FACTS).conclusions
    assert Sentences(book, language="es").why(conclusion) == "Es inventado."
    assert Sentences(book, language="en").why(conclusion) == "It is made up."


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("harvest.in_wished_months", True, "yes"),
        ("site.drainage", "poor", "poor"),
        ("pollination.self_fertility", "partly_self_fertile", "partly self-fertile"),
        ("cultivar.id", "apple.august", "August"),
        ("cultivar", "Fire_Blight", "Fire_Blight"),
        ("site.last_spring_frost_day", 100, "April 10"),
        ("concluded.chill_verdict", "too_little", "too little"),
        ("chill.basis", None, "unknown"),
    ],
)
def test_every_kind_of_value_reads_as_people_say_it(book: Rulebook, name: str, value: object, text: str) -> None:
    assert Sentences(book).value(name, value) == text  # type: ignore[arg-type]


def test_days_in_the_south_are_named_by_the_southern_calendar(book: Rulebook) -> None:
    assert Sentences(book, southern=True).value("site.last_spring_frost_day", 100) == "October 8"


def test_lists_read_as_people_list(book: Rulebook) -> None:
    assert listed(()) == ""
    assert listed(("scab",)) == "scab"
    assert listed(("scab", "rust")) == "scab and rust"


def test_every_word_of_the_variety_question_has_a_spanish_word() -> None:
    real = load_rulebook(RULES)
    named = {*real.catalogue.crops, *real.catalogue.cultivars, *real.catalogue.rootstocks}
    facts = (*real.vocabulary.facts.values(), *real.vocabulary.conclusions.values())
    asked = (fact for fact in facts if any(name.startswith("suggestion.") for name in fact.rulesets))
    words = {word for fact in asked for word in fact.values} - named
    unchanged = {word for word in words if choice_text(word, language="es") == choice_text(word)}
    assert unchanged == {"compatible", "incompatible", "susceptible"}
