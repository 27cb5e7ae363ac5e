"""Properties of weighing: what any table of causes and signs must obey."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.evidence import (
    EvidenceTable,
    Likelihoods,
    SignWeight,
    Weights,
    best_splits,
    evidence_table,
    weigh,
)

WEIGHTS = Weights(typical=3, sometimes=1, rules_out=-4, unlisted=-1, background=0.04)
SIGNS = ("curl", "spots", "web", "ooze", "holes")
KINDS: tuple[SignWeight, ...] = ("typical", "sometimes", "rules_out")
SHOWN = st.dictionaries(st.sampled_from(SIGNS), st.sampled_from(KINDS))
Causes = Mapping[str, Mapping[str, SignWeight]]
CAUSES = st.dictionaries(st.sampled_from(("scab", "aphid", "mite", "frost")), SHOWN, min_size=1)
ANSWERS = st.dictionaries(st.sampled_from(SIGNS), st.booleans())


def table_of(causes: Causes) -> EvidenceTable:
    return evidence_table(causes, SIGNS, WEIGHTS)


def weighed(causes: Causes, answers: Mapping[str, bool]) -> Likelihoods:
    return weigh(table_of(causes), dict.fromkeys(causes, 0.0), something_else=0.0, answers=answers)


@given(CAUSES, ANSWERS)
def test_likelihoods_are_shares_of_one(causes: Causes, answers: dict[str, bool]) -> None:
    shares = weighed(causes, answers).shares
    assert shares.sum() == pytest.approx(1)
    assert (shares >= 0).all()


@given(CAUSES, ANSWERS)
def test_the_order_in_which_causes_and_answers_are_told_changes_nothing(
    causes: Causes, answers: dict[str, bool]
) -> None:
    turned = weighed(dict(reversed(causes.items())), dict(reversed(answers.items())))
    assert dict(turned.ranked) == pytest.approx(dict(weighed(causes, answers).ranked))


@given(CAUSES, ANSWERS, st.sampled_from(SIGNS))
def test_a_typical_sign_makes_its_cause_likelier_and_its_absence_less_likely(
    causes: dict[str, dict[str, SignWeight]], answers: dict[str, bool], sign: str
) -> None:
    causes = {**causes, "scab": {**causes.get("scab", {}), sign: "typical"}}
    others = {name: answer for name, answer in answers.items() if name != sign}
    before, seen, missed = (
        dict(weighed(causes, {**others, **more}).ranked)["scab"] for more in ({}, {sign: True}, {sign: False})
    )
    assert missed <= before * (1 + 1e-9)
    assert seen >= before * (1 - 1e-9)


@given(CAUSES, ANSWERS)
def test_an_answer_is_expected_to_change_nothing_on_average(
    causes: Causes, answers: dict[str, bool]
) -> None:
    """The law of total probability; and no question is expected to make us know less."""
    now = weighed(causes, answers)
    for split in best_splits(now, SIGNS, most=len(SIGNS)):
        mean = split.yes * split.after_yes + (1 - split.yes) * split.after_no
        assert mean == pytest.approx(now.shares)
        assert split.gain >= -1e-9


@given(CAUSES, ANSWERS, st.sampled_from(SIGNS), st.booleans())
def test_after_an_answer_stands_what_was_foretold(
    causes: Causes, answers: dict[str, bool], sign: str, answer: bool
) -> None:
    others = {name: said for name, said in answers.items() if name != sign}
    (split,) = best_splits(weighed(causes, others), [sign], most=1)
    after = weighed(causes, {**others, sign: answer}).shares
    assert (split.after_yes if answer else split.after_no) == pytest.approx(after, rel=1e-6, abs=1e-12)


def test_the_odds_of_two_causes_are_the_weights_of_the_signs() -> None:
    """Three natural units apart from the one that lists the sign, and one more that the other does not explain it."""
    shares = dict(weighed({"scab": {"spots": "typical"}, "aphid": {}}, {"spots": True}).ranked)
    assert shares["scab"] / shares["aphid"] == pytest.approx(math.exp(3 - -1))


def test_the_most_telling_question_comes_first_and_one_that_tells_nothing_last() -> None:
    causes: dict[str, dict[str, SignWeight]] = {
        "scab": {"spots": "typical"}, "aphid": {"curl": "typical"}, "mite": {"spots": "typical", "web": "sometimes"},
    }  # fmt: skip
    table = table_of(causes)
    now = weigh(table, dict.fromkeys(causes, 0.0), something_else=-50.0, answers={})
    order = [split.sign for split in best_splits(now, ("ooze", "web", "spots", "curl"), most=4)]
    assert order[:2] in (["spots", "curl"], ["curl", "spots"])
    assert order[2:] == ["web", "ooze"]


def test_nothing_to_ask_is_no_question() -> None:
    assert best_splits(weighed({"scab": {}}, {}), (), most=5) == ()


def test_a_background_that_would_put_a_sign_on_more_than_every_tree_is_refused() -> None:
    weights = Weights(typical=3, sometimes=1, rules_out=-4, unlisted=-1, background=0.06)
    with pytest.raises(ValueError, match="more than every tree"):
        evidence_table({"scab": {"spots": "typical"}}, ["spots"], weights)


def test_a_cause_outside_the_question_has_no_share() -> None:
    table = table_of({"scab": {"spots": "typical"}, "aphid": {"spots": "typical"}})
    found = weigh(table, {"aphid": 0.0}, something_else=0.0, answers={"spots": True})
    assert [name for name, _ in found.ranked] == ["aphid"]
    assert np.isclose(found.something_else + found.ranked[0][1], 1)
