"""What the rules say of one tree holds together: one verdict on pollen, one on height, one form, whatever is known."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

import pytest

from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

Facts = dict[str, Value | None]
ALWAYS: Facts = {
    "cultivar": "a tree", "cultivar.id": "apple.liberty", "cultivar.recalled_share": 0.0, "cultivar.asked_about": False,
    "cultivar.already_there": False, "rootstock.named_incompatible": False, "pollination.triploid": False,
}  # fmt: skip
STANDING = ("compatible", "partly_compatible", "incompatible", "unknown", "none", None)
NEEDS_A_PARTNER = ("self_sterile", "pollen_sterile")
WANTED_FT = 10.0


@dataclass(frozen=True)
class Counter:
    """The rulebook of the project with the fast matcher over it."""

    rulebook: Rulebook
    matcher: PlainMatcher

    def crops(self) -> tuple[str, ...]:
        """The crops of the catalogue."""
        return tuple(self.rulebook.catalogue.crops)

    def tree(self, crop: str, facts: Mapping[str, Value | None]) -> Judgement:
        """What follows for a tree of a crop."""
        kind = self.rulebook.catalogue.crops[crop].kind
        return self.case("suggestion.cultivar", {**ALWAYS, "crop": crop, "crop.kind": kind, **facts})

    def case(self, ruleset: str, facts: Mapping[str, Value | None]) -> Judgement:
        """What follows from the facts that are known."""
        return self.matcher.judge(ruleset, {name: value for name, value in facts.items() if value is not None})


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    """Where the question is asked."""
    return Counter(rulebook, PlainMatcher(rulebook))


def standing_trees() -> Iterator[Facts]:
    """Every state of the trees that stand there, as far as the rules tell them apart."""
    for best, distance_ft, gap in product(STANDING, (None, 20.0, 5000.0), (None, 1, 4)):
        facts: Facts = {"pollination.best_standing": best}
        if best in ("compatible", "partly_compatible"):
            facts |= {"pollination.nearest_partner_ft": distance_ft, "pollination.bloom_gap_classes": gap}
        yield facts


@pytest.mark.parametrize("crop", ["apple", "sweet_cherry", "peach", "european_pear", "european_plum", "pawpaw", "fig"])
def test_a_tree_gets_one_verdict_on_pollen_whatever_stands_there(counter: Counter, crop: str) -> None:
    fertilities = ("self_fertile", "partly_self_fertile", *NEEDS_A_PARTNER, "needs_caprification")
    for fertility, basis, trees in product(fertilities, ("cultivar", "crop"), standing_trees()):
        facts: Facts = {"pollination.self_fertility": fertility, "pollination.basis": basis, **trees}
        judgement = counter.tree(crop, facts)
        assert "pollination_verdict" in judgement.concluded, facts
        assert not judgement.conflicts, facts


def test_a_tree_of_unknown_fertility_gets_no_verdict_but_advice(counter: Counter) -> None:
    for crop in counter.crops():
        judgement = counter.tree(crop, {"pollination.best_standing": "none"})
        assert "pollination_verdict" not in judgement.concluded
        assert any(c.outcome == "advise" and "Nothing is published" in c.rule.text for c in judgement.conclusions)


def test_a_partner_counts_only_within_reach_and_in_bloom(counter: Counter) -> None:
    verdicts = {}
    for distance_ft, gap in product((20.0, 5000.0), (0, 4)):
        trees: Facts = {"pollination.best_standing": "compatible", "pollination.nearest_partner_ft": distance_ft}
        facts: Facts = {"pollination.self_fertility": "self_sterile", **trees, "pollination.bloom_gap_classes": gap}
        verdicts[distance_ft, gap] = counter.tree("sweet_cherry", facts).concluded["pollination_verdict"]
    assert verdicts.pop((20.0, 0)) == "partner_standing"
    assert set(verdicts.values()) == {"partner_needed"}


@pytest.mark.parametrize("standing", [None, 0, 1, 2, 5])
def test_a_triploid_needs_two_partners_however_many_stand(counter: Counter, standing: int | None) -> None:
    best = "compatible" if standing else "none"
    trees: Facts = {"pollination.partners_standing": standing, "pollination.best_standing": best}
    facts: Facts = {"pollination.triploid": True, "pollination.self_fertility": "self_sterile", **trees}
    judgement = counter.tree("apple", facts)
    assert judgement.concluded["partners_needed"] == 2
    served = standing is not None and standing >= 2
    assert judgement.concluded["pollination_verdict"] == ("partner_standing" if served else "two_partners_needed")
    assert not judgement.conflicts


def test_a_standing_partner_never_makes_a_tree_worse(counter: Counter) -> None:
    for fertility in ("self_fertile", "partly_self_fertile", *NEEDS_A_PARTNER):
        facts: Facts = {"pollination.self_fertility": fertility, "pollination.basis": "cultivar"}
        alone = counter.tree("apple", {**facts, "pollination.best_standing": "none"})
        beside = counter.tree("apple", {**facts, "pollination.best_standing": "compatible"})
        assert beside.points >= alone.points, fertility


def heights() -> Iterator[tuple[float, float]]:
    """Low and high ends of mature heights, with the wanted height and the limits of the rules among them."""
    ends_ft = (4.0, 9.9, 10.0, 10.1, 12.5, 13.0, 20.0, 20.1, 30.0, 30.1, 60.0)
    return ((low, high) for low, high in product(ends_ft, ends_ft) if low <= high)


def of_height(low_ft: float, high_ft: float) -> Facts:
    """The facts of a tree that grows to such a height where WANTED_FT is wished."""
    return {
        "site.max_height_ft": WANTED_FT, "tree.height_low_ft": low_ft, "tree.height_high_ft": high_ft,
        "tree.height_over_wanted": low_ft / WANTED_FT, "tree.height_high_over_wanted": high_ft / WANTED_FT,
    }  # fmt: skip


@pytest.mark.parametrize("ruleset", ["suggestion.cultivar", "suggestion.rootstock"])
def test_every_height_has_one_means_to_keep_it(counter: Counter, ruleset: str) -> None:
    for low_ft, high_ft in heights():
        facts: Facts = {"crop": "apple", "crop.kind": "pome", "rootstock": "a root", **of_height(low_ft, high_ft)}
        needed = {**ALWAYS, **facts} if ruleset == "suggestion.cultivar" else facts
        judgement = counter.case(ruleset, needed)
        assert "height_means" in judgement.concluded, (low_ft, high_ft)
        assert not judgement.conflicts, (low_ft, high_ft)


def test_a_taller_tree_never_suits_a_low_wish_better(counter: Counter) -> None:
    for low_ft, high_ft in heights():
        shorter, taller = (counter.tree("peach", of_height(low, high_ft + 40)) for low in (low_ft, low_ft + 5))
        assert taller.points <= shorter.points or taller.set_aside, (low_ft, high_ft)


def test_each_crop_has_one_form_in_the_open_and_one_on_wires_or_kept_low(counter: Counter) -> None:
    untrained = {"jujube", "loquat", "pawpaw"}  # no source describes a form for them, save that loquats are kept low
    room: Facts = {"tree.spacing_ft": 15.0, "tree.fits_count": 3}
    tight, low = {**room, "tree.fits_count": 0}, of_height(20.0, 25.0)
    for crop in counter.crops():
        for place in (room, tight, low, {**tight, **low}, of_height(9.0, 25.0)):
            judgement = counter.tree(crop, place)
            kept_low = judgement.concluded.get("training") == "small_tree_kept_low"
            trained = crop not in untrained or (crop == "loquat" and kept_low)
            assert ("training" in judgement.concluded) == trained, (crop, place)
            assert not judgement.conflicts, (crop, place)


def test_a_root_that_the_place_harms_is_never_called_suited(counter: Counter) -> None:
    root: Facts = {"rootstock": "a root", "rootstock.wet_soil": "dislikes", "rootstock.cold_hardiness": "very_hardy"}
    place: Facts = {"crop": "peach", "crop.kind": "stone", "site.drainage": "poor", "site.hardiness_zone": 4.0}
    judgement = counter.case("suggestion.rootstock", {**root, **place})
    assert judgement.concluded["root_fit"] == "unsuited"
    assert judgement.points < 0


@pytest.mark.parametrize(("zone", "hours"), [(4.0, 150), (10.0, 1500)])
def test_a_place_whose_figures_contradict_is_answered_with_a_caution(counter: Counter, zone: float, hours: int) -> None:
    place: Facts = {"site.hardiness_zone": zone, "site.chill_hours": hours, "answer.candidates": 9, "answer.fitting": 9}
    judgement = counter.case("suggestion.site", place)
    assert any(c.outcome == "caution" and "go together" in c.rule.text for c in judgement.conclusions)
    assert not judgement.set_aside
    assert not judgement.forbidden
