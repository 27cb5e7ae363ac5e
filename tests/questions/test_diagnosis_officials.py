"""Officials are asked where the state regulates a suspect, and what they keep out comes after what is common."""

from __future__ import annotations

import pytest

from service.domain.sick_tree import Seen, SickTree
from service.questions.diagnosis import DiagnosisAnswer
from service.reasoning.rulebook import Rulebook
from tests.questions.counter import Counter, suspects

MAGGOTY_APPLE = SickTree("apple", stage="ripening", seen=Seen(("fr_trails", "fr_maggots")))
MAGGOTY_CHERRY = SickTree("sweet_cherry", stage="harvest", seen=Seen(("fr_maggots",)))
BLIGHTED_PEAR = SickTree("european_pear", stage="shoot_growth", seen=Seen(("sh_crook", "sh_ooze")))


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    return Counter(rulebook)


def sent_to(answer: DiagnosisAnswer) -> set[object]:
    """To whom the answer or its likeliest suspect sends."""
    judgements = (answer.judgement, answer.suspects[0].judgement)
    return {judgement.concluded.get("refer_to") for judgement in judgements} - {None}


@pytest.mark.parametrize(
    ("state", "to"), [("WA", {"agriculture_office"}), ("NY", set()), (None, set())]
)  # fmt: skip
def test_apple_maggot_is_a_matter_for_officials_where_the_state_regulates_it(
    counter: Counter, state: str | None, to: set[str]
) -> None:
    assert sent_to(counter.ask(MAGGOTY_APPLE, state=state)) == to


@pytest.mark.parametrize("state", ["OR", "NY", None])
def test_fire_blight_sends_nobody_to_the_agriculture_office(counter: Counter, state: str | None) -> None:
    assert "agriculture_office" not in sent_to(counter.ask(BLIGHTED_PEAR, state=state))


def test_the_common_flies_come_before_the_one_that_officials_keep_out(counter: Counter) -> None:
    ranked = suspects(counter.ask(MAGGOTY_CHERRY))
    assert {"cherry_fruit_fly", "spotted_wing_drosophila"} == set(ranked[:2])
    assert "european_cherry_fruit_fly" in ranked
    assert "european_cherry_fruit_fly" not in suspects(counter.ask(MAGGOTY_CHERRY, state="OR"))
