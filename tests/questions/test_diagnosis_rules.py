"""What place, weather, care and neighbours change in a diagnosis, and what is told of crops that are no host."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

import pytest

from service.domain.disorder import STAGES
from service.domain.sick_tree import (
    BloomTold,
    Care,
    RecentWeather,
    Seen,
    SickTree,
    WetPeriod,
)
from service.domain.site import Site, StandingTree
from service.questions.diagnosis import DiagnosisAnswer
from service.reasoning.rulebook import Rulebook
from tests.questions.counter import Counter, suspects

FROST = BloomTold(frost=True, low_f=24, amount="full")
WARM_RAIN = (WetPeriod("bloom", hours=4, mean_f=66, rain_in=0.2),)
BLACK_PEAR = SickTree("european_pear", stage="petal_fall", seen=Seen(("bl_black_cluster",)))
NO_BLOOM = SickTree("apple", stage="bloom", bloom=BloomTold(amount="none"))
BARE_CHERRY = SickTree("sweet_cherry", stage="fruit_growth", age_years=9, bloom=BloomTold(amount="full"))
WILTED_PEACH = SickTree("peach", stage="fruit_growth", seen=Seen(("lf_wilt_hot", "wt_collapse")))


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    """A counter with the real rulebook."""
    return Counter(rulebook)


@pytest.mark.parametrize(
    ("tree", "told", "first"),
    [
        (BARE_CHERRY, {"complaint": "bloom_no_fruit", "existing_trees": ()}, "poor_pollination"),
        (replace(BARE_CHERRY, bloom=FROST), {"complaint": "bloom_no_fruit"}, "spring_frost"),
        (replace(NO_BLOOM, age_years=2, vigour="strong"), {"complaint": "no_bloom"}, "too_vigorous"),
        (replace(NO_BLOOM, age_years=12, last_crop="heavy"), {"complaint": "no_bloom"}, "biennial"),
        (replace(NO_BLOOM, age_years=12, vigour="moderate"), {"complaint": "no_bloom", "site": Site(chill_hours=100)},
         "low_chill"),
        (replace(BLACK_PEAR, weather=RecentWeather(wet_periods=WARM_RAIN)), {}, "fire_blight"),
        (replace(BLACK_PEAR, bloom=BloomTold(cold_or_wet=True, frost=True)), {}, "pseudomonas_blast"),
    ],
)  # fmt: skip
def test_what_is_known_of_the_tree_decides_between_causes(
    counter: Counter, tree: SickTree, told: dict[str, Any], first: str
) -> None:
    assert suspects(counter.ask(tree, **told))[0] == first


@pytest.mark.parametrize(
    ("tree", "told", "out"),
    [
        (BARE_CHERRY, {"complaint": "bloom_no_fruit"}, "too_vigorous"),
        (NO_BLOOM, {"suspected": ("poor_pollination",)}, "poor_pollination"),
        (replace(NO_BLOOM, age_years=2), {"suspected": ("biennial",)}, "biennial"),
        (SickTree("peach", bloom=BloomTold(low_f=40)), {"suspected": ("spring_frost",)}, "spring_frost"),
        (SickTree("apple", stage="dormant"), {"suspected": ("apple_scab",)}, "apple_scab"),
        (SickTree("apple", weather=RecentWeather(hail=False)), {"suspected": ("hail",)}, "hail"),
        (WILTED_PEACH, {"suspected": ("cotton_root_rot",), "site": Site(soil_ph=5.8)}, "cotton_root_rot"),
        (WILTED_PEACH, {"suspected": ("cotton_root_rot",), "site": Site(hardiness_zone=5)}, "cotton_root_rot"),
        (SickTree("peach", seen=Seen(("lf_aphids_in_curl",), ("lf_thick_pucker",))),
         {"suspected": ("peach_leaf_curl",)}, "peach_leaf_curl"),
        (SickTree("peach", seen=Seen(("br_gum_live_bark",), ("br_gum_dead_bark",))), {"complaint": "gummy_ooze"},
         "bacterial_canker"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_ruled_out_with_the_reason(
    counter: Counter, tree: SickTree, told: dict[str, Any], out: str
) -> None:
    answer = counter.ask(tree, **told)
    assert out in reasons_of_ruled_out(answer)
    assert out not in suspects(answer)


def test_last_years_fruit_and_leaves_are_believed_in_winter(counter: Counter) -> None:
    """A bitter pit in a stored apple is seen while the tree is bare."""
    tree = SickTree("apple", stage="dormant", seen=Seen(("fr_pits_calyx",)))
    assert suspects(counter.ask(tree))[0] == "bitter_pit"


@pytest.mark.parametrize(
    ("crop", "disorder", "look"),
    [
        ("japanese_plum", "peach_leaf_curl", "aphids"),
        ("peach", "fire_blight", "borer"),
        ("sweet_cherry", "codling_moth", "fruit fly"),
        ("european_pear", "cedar_apple_rust", "rust of pears"),
        ("apple", "pear_scab", "apple scab"),
        ("fig", "brown_rot", "souring"),
        ("peach", "bitter_pit", "stink bugs"),
    ],
)
def test_who_suspects_a_stranger_is_told_what_to_look_for(
    counter: Counter, crop: str, disorder: str, look: str
) -> None:
    answer = counter.ask(SickTree(crop), suspected=(disorder,))
    (said,) = answer.ruled_out[0].judgement.conclusions
    assert answer.ruled_out[0].disorder.id == disorder
    assert look in said.rule.text


def test_every_stranger_is_ruled_out_by_one_sentence(counter: Counter, rulebook: Rulebook) -> None:
    for crop in rulebook.catalogue.crops:
        for name, disorder in rulebook.catalogue.disorders.items():
            if disorder.standing(crop) == "not_host":
                judged = counter.ask(SickTree(crop), suspected=(name,)).ruled_out[0].judgement
                assert [one.outcome for one in judged.conclusions] == ["set_aside"], (crop, name)


def test_what_is_said_to_look_for_is_never_said_of_a_host(rulebook: Rulebook) -> None:
    """A rule that tells strangers apart names no crop that may have the disorder."""
    checked = 0
    for rule in rulebook.rulesets["diagnosis.exclusion"]:
        if "confusion_told" in rule.conclude:
            tests: dict[str, Any] = {test.fact: (test.value,) if test.op == "is" else test.value for test in rule.when}
            for name in tests["disorder"]:
                for crop in tests["crop"]:
                    assert rulebook.catalogue.disorders[name].standing(crop) == "not_host", (rule.id, name, crop)
                    checked += 1
    assert checked > 300


def test_a_complaint_in_summer_still_finds_the_cause_in_bloom(counter: Counter) -> None:
    tree = SickTree("apricot", stage="fruit_growth", bloom=FROST)
    assert suspects(counter.ask(tree, complaint="bloom_no_fruit"))[0] == "spring_frost"


def test_a_partner_near_speaks_against_want_of_pollen(counter: Counter) -> None:
    cherry = replace(BARE_CHERRY, cultivar="sweet_cherry.bing")
    van = (StandingTree("sweet_cherry", ("sweet_cherry.van",), 20),)
    alone, with_van = (counter.ask(cherry, complaint="bloom_no_fruit", existing_trees=trees) for trees in ((), van))
    assert share(with_van, "poor_pollination") < share(alone, "poor_pollination")


def test_no_two_rules_contradict_one_another_and_some_cause_is_always_left(
    counter: Counter, rulebook: Rulebook
) -> None:
    chance = random.Random(20261125)
    for _ in range(300):
        answer = counter.ask(some_tree(rulebook, chance), site=some_site(chance),
                             complaint=chance.choice((None, *rulebook.catalogue.complaints)))  # fmt: skip
        judged = [one.cause.judgement for one in answer.suspects] + [one.judgement for one in answer.ruled_out]
        assert [one.conflicts for one in judged if one.conflicts] == []
        assert answer.likelihoods.ranked


def some_tree(rulebook: Rulebook, chance: random.Random) -> SickTree:
    hosts = sorted({crop for one in rulebook.catalogue.disorders.values() for crop in one.hosts})
    signs = chance.sample(list(rulebook.catalogue.signs), 10)
    yes_no = (None, True, False)
    return SickTree(
        chance.choice(hosts),
        age_years=chance.choice((None, 1, 4, 30)),
        vigour=chance.choice((None, "weak", "strong")),
        stage=chance.choice((None, *STAGES)),
        seen=Seen(tuple(signs[:3]), tuple(signs[3:])),
        weather=RecentWeather(wet_spring=chance.choice(yes_no), hail=chance.choice(yes_no),
                              high_f=chance.choice((None, 70, 105)), winter_low_f=chance.choice((None, -30, 5, 30))),
        bloom=BloomTold(frost=chance.choice(yes_no), low_f=chance.choice((None, 20, 27, 40)),
                        amount=chance.choice((None, "none", "full"))),
        care=Care(watering=chance.choice((None, "little", "much")), sprayed=chance.choice(yes_no)),
    )  # fmt: skip


def some_site(chance: random.Random) -> Site:
    return Site(
        hardiness_zone=chance.choice((None, 5.0, 9.0)),
        chill_hours=chance.choice((None, 200, 1500)),
        soil_ph=chance.choice((None, 5.2, 8.0)),
        summer=chance.choice((None, "dry", "humid")),
    )


def reasons_of_ruled_out(answer: DiagnosisAnswer) -> set[str]:
    return {one.disorder.id for one in answer.ruled_out if one.judgement.set_aside}


def share(answer: DiagnosisAnswer, disorder: str) -> float:
    return dict(answer.likelihoods.ranked)[disorder]
