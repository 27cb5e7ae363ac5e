"""Every disorder on every host in every stage: its typical signs bring it to the top, or let only look-alikes pass."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from service.domain.disorder import Disorder
from service.domain.sick_tree import Seen, SickTree
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT
from tests.questions.counter import Counter

BOOK = load_rulebook(CHECKOUT / "rules")
COUNTER = Counter(BOOK)
DISORDERS = BOOK.catalogue.disorders
FOUND_IN = {"european_cherry_fruit_fly": "NY"}  # what officials fight comes after what is common in any other state


def taken_for(one: Disorder, other: str, book: Rulebook = BOOK) -> bool:
    return one.like(other) is not None or book.catalogue.disorders[other].like(one.id) is not None


@pytest.mark.parametrize("disorder", DISORDERS.values(), ids=lambda disorder: disorder.id)
def test_its_typical_signs_bring_a_disorder_to_the_top(disorder: Disorder) -> None:
    strange = []
    for crop in disorder.hosts:
        for stage in disorder.stages:
            tree = SickTree(crop, stage=stage, seen=Seen(disorder.typical))
            ranked = [name for name, _ in COUNTER.ask(tree).likelihoods.ranked]
            before = ranked[: ranked.index(disorder.id)] if disorder.id in ranked else ["it is ruled out"]
            strange += [(crop, stage, one) for one in before if one not in DISORDERS or not taken_for(disorder, one)]
    assert strange == []


def sets_of_signs(disorder: Disorder) -> Iterator[Seen]:
    """Its typical signs, and all that may go with it; with and without a look at what it is taken for."""
    for seen in (disorder.typical, (*disorder.typical, *disorder.sometimes)):
        of_others = {sign for pair in disorder.look_alikes for sign in DISORDERS[pair.disorder].typical}
        yield Seen(seen)
        yield Seen(seen, tuple(sorted(of_others - set(seen))))


@pytest.mark.parametrize("disorder", DISORDERS.values(), ids=lambda disorder: disorder.id)
def test_some_set_of_signs_brings_a_disorder_to_the_top_on_each_common_host(disorder: Disorder) -> None:
    """No other cause is likelier then; two that show the very same signs may stand level."""
    below = []
    for crop in (crop for crop, level in disorder.hosts.items() if level == "common"):
        answers = (COUNTER.ask(SickTree(crop, stage=stage, seen=seen), state=FOUND_IN.get(disorder.id))
                   for stage in disorder.stages for seen in sets_of_signs(disorder))  # fmt: skip
        ranks = (dict(answer.likelihoods.ranked) for answer in answers)
        if not any(disorder.id in shares and shares[disorder.id] >= max(shares.values()) - 1e-9 for shares in ranks):
            below.append(crop)
    assert below == []


@pytest.mark.parametrize("crop", sorted({crop for disorder in DISORDERS.values() for crop in disorder.hosts}))
def test_a_disorder_of_other_crops_is_never_weighed(crop: str) -> None:
    strangers = {name for name, disorder in DISORDERS.items() if disorder.standing(crop) == "not_host"}
    for name in strangers:
        answer = COUNTER.ask(SickTree(crop, seen=Seen(DISORDERS[name].typical)), suspected=(name,))
        assert strangers.isdisjoint(weighed for weighed, _ in answer.likelihoods.ranked)
        assert answer.ruled_out[0].disorder.id == name
