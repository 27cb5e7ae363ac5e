"""Whose pollen sets whom, with made-up crops and cultivars; published pairs stand in tests/published."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.pollination.alleles import share_accepted
from service.domain.cultivar import SGenotype
from tests.compute.made_up_orchard import CROPS, GROUNDS, found, said, tree, verdict

# --- S-alleles --------------------------------------------------------------------------------------------------------


def test_trees_with_the_same_two_alleles_do_not_set_each_other() -> None:
    assert found(tree("a", "S1", "S2"), tree("b", "S2", "S1")) == ("incompatible", "all_alleles_shared")


def test_trees_that_share_one_allele_set_each_other_in_part() -> None:
    assert found(tree("a", "S1", "S2"), tree("b", "S2", "S3")) == ("partly_compatible", "one_allele_shared")


def test_trees_that_share_no_allele_set_each_other() -> None:
    assert found(tree("a", "S1", "S2"), tree("b", "S3", "S4")) == ("compatible", "no_allele_shared")


def test_letters_and_numbers_are_never_compared() -> None:
    lettered = tree("b", "Sa", "Sb", notation="lettered_1994")
    assert found(tree("a", "S1", "S2"), lettered) == ("unknown", "usual_partner")


def test_a_working_mutant_is_taken_by_every_tree_of_the_crop() -> None:
    donor = tree("donor", "S3", "S4'", self_fertility="self_fertile")
    assert found(tree("a", "S3", "S4"), donor) == ("compatible", "universal_donor")
    assert found(tree("untyped"), donor) == ("compatible", "universal_donor")


def test_the_style_of_a_pollen_mutant_still_stops_the_old_allele() -> None:
    donor = tree("donor", "S1", "S4'", self_fertility="self_fertile")
    assert found(donor, tree("a", "S1", "S4")) == ("incompatible", "all_alleles_shared")


def test_a_style_mutant_takes_pollen_that_does_not_take_its_own() -> None:
    mutant = tree("mutant", "S2", "S4sm", self_fertility="self_fertile")
    assert found(mutant, tree("parent", "S2", "S4")) == ("partly_compatible", "one_allele_shared")
    assert found(tree("parent", "S2", "S4"), mutant) == ("incompatible", "all_alleles_shared")


def test_matching_alleles_prove_nothing_of_a_tree_that_sets_itself_otherwise() -> None:
    odd = tree("odd", "S1", "S2", self_fertility="self_fertile")
    assert found(tree("a", "S1", "S2"), odd) == ("unknown", "sets_itself_otherwise")
    assert found(odd, tree("a", "S1", "S2")) == ("unknown", "sets_itself_otherwise")


def test_a_triploid_style_stops_all_three_of_its_alleles() -> None:
    triploid = tree("three", "S2", "S3", "S9", ploidy=3)
    assert found(triploid, tree("a", "S2", "S3")) == ("incompatible", "all_alleles_shared")
    assert found(triploid, tree("b", "S3", "S5")) == ("partly_compatible", "one_allele_shared")


ALLELES = st.sampled_from([f"S{number}" for number in range(1, 7)])
PAIRS = st.tuples(ALLELES, ALLELES).filter(lambda pair: pair[0] != pair[1])


@given(PAIRS, PAIRS)
def test_plain_diploids_accept_each_other_alike(one: tuple[str, str], other: tuple[str, str]) -> None:
    here, there = SGenotype(one), SGenotype(other)
    assert share_accepted(here, there, {}) == share_accepted(there, here, {})


@given(PAIRS, PAIRS)
def test_full_sharing_is_the_only_way_to_accept_nothing(one: tuple[str, str], other: tuple[str, str]) -> None:
    assert (share_accepted(SGenotype(one), SGenotype(other), {}) == 0) == (set(one) == set(other))


@given(PAIRS, PAIRS, st.integers(0, 1))
def test_an_allele_of_its_own_never_makes_pollen_less_welcome(
    style: tuple[str, str], pollen: tuple[str, str], place: int
) -> None:
    fresh = list(pollen)
    fresh[place] = "S99"
    before = share_accepted(SGenotype(style), SGenotype(pollen), {})
    after = share_accepted(SGenotype(style), SGenotype(tuple(fresh)), {})
    assert before is not None
    assert after is not None
    assert after >= before


# --- groups, named pairs, own pollen ----------------------------------------------------------------------------------


def test_members_of_one_group_do_not_set_each_other() -> None:
    one, other = tree("a", incompatibility_group="II"), tree("b", incompatibility_group="II")
    assert found(one, other) == ("incompatible", "same_group")
    assert found(one, tree("c", incompatibility_group="III")) == ("compatible", "other_group")


def test_a_group_of_self_fertile_trees_gives_to_all_and_is_no_group_as_a_taker() -> None:
    donor, other = tree("d", incompatibility_group="SC"), tree("a", incompatibility_group="II")
    assert found(other, donor) == ("compatible", "universal_donor")
    assert found(donor, tree("e", incompatibility_group="SC")) == ("compatible", "universal_donor")
    assert found(donor, other) == ("unknown", "usual_partner")


def test_alleles_weigh_more_than_groups() -> None:
    one = tree("a", "S1", "S2", incompatibility_group="II")
    assert found(one, tree("b", "S1", "S3", incompatibility_group="III"))[0] == "partly_compatible"


def test_a_named_pair_decides_and_the_alleles_are_told_beside() -> None:
    named = replace(CROPS["cherry"], good_pairs=(said(("cherry.a", "cherry.b"), "trial"),))
    grounds = replace(GROUNDS, crops=CROPS | {"cherry": named})
    told = verdict(tree("b", "S2", "S3"), tree("a", "S1", "S2"), grounds)
    assert told.compatibility == "compatible"
    assert [reason.code for reason in told.reasons] == ["named_good", "one_allele_shared"]
    assert told.reasons[0].sources == ("trial",)


def test_a_pair_named_as_failing_fails_both_ways() -> None:
    named = replace(CROPS["cherry"], incompatible_pairs=(said(("cherry.a", "cherry.b")),))
    grounds = replace(GROUNDS, crops=CROPS | {"cherry": named})
    for seed, pollen in (("a", "b"), ("b", "a")):
        assert found(tree(seed), tree(pollen), grounds) == ("incompatible", "named_incompatible")


@pytest.mark.parametrize(
    ("fertility", "expected"),
    [
        ("self_fertile", "compatible"),
        ("partly_self_fertile", "partly_compatible"),
        ("self_sterile", "incompatible"),
        ("pollen_sterile", "incompatible"),
        ("needs_caprification", "incompatible"),
    ],
)
def test_another_tree_of_the_same_cultivar_is_its_own_pollen(fertility: str, expected: str) -> None:
    assert verdict(tree("a", self_fertility=fertility), tree("a", self_fertility=fertility)).compatibility == expected


def test_own_pollen_is_unknown_where_nobody_speaks_of_cultivar_or_crop() -> None:
    assert found(tree("a", of="plum"), tree("a", of="plum")) == ("unknown", "own_pollen_not_known")


# --- trees without pollen, crops, figs --------------------------------------------------------------------------------


def test_a_triploid_gives_no_pollen_whatever_its_alleles() -> None:
    triploid = tree("three", "S7", "S8", "S9", ploidy=3)
    assert found(tree("a", "S1", "S2"), triploid) == ("incompatible", "triploid_pollen")


def test_a_pollen_sterile_tree_gives_no_pollen() -> None:
    assert found(tree("a"), tree("b", self_fertility="pollen_sterile")) == ("incompatible", "sterile_pollen")


def test_crops_that_are_said_not_to_cross_do_not_in_either_direction() -> None:
    cherry, sour = tree("a"), tree("s", of="sour")
    assert found(cherry, sour) == found(sour, cherry) == ("incompatible", "crops_do_not_cross")


def test_crops_that_cross_set_each_other_where_no_alleles_stand_in_the_way() -> None:
    peach, nectarine = tree("p", of="peach"), tree("n", of="nectarine")
    assert found(peach, nectarine) == ("compatible", "crop_without_barrier")


def test_a_tree_without_good_pollen_is_set_by_any_tree_that_has_some() -> None:
    sterile = tree("hale", of="peach", self_fertility="pollen_sterile")
    assert found(sterile, tree("p", of="peach")) == ("compatible", "crop_without_barrier")


def test_a_tree_that_refuses_its_own_pollen_may_refuse_other() -> None:
    refusing = tree("r", of="peach", self_fertility="self_sterile")
    assert found(refusing, tree("p", of="peach")) == ("unknown", "usual_partner")


def test_trees_of_different_genera_never_set_each_other() -> None:
    assert found(tree("a", of="apple"), tree("p", of="peach")) == ("incompatible", "other_genus")


def test_related_crops_of_which_nobody_speaks_stay_unknown() -> None:
    told = verdict(tree("p", of="plum"), tree("q", of="peach"))
    assert (told.compatibility, told.likely) == ("unknown", False)


def test_a_fig_that_needs_the_wasp_is_set_by_no_other_fig() -> None:
    smyrna = tree("s", of="fig", self_fertility="needs_caprification")
    assert found(smyrna, tree("f", of="fig")) == ("incompatible", "needs_fig_wasp")


def test_common_figs_are_not_partners_of_one_another() -> None:
    assert found(tree("e", of="fig"), tree("f", of="fig")) == ("unknown", "not_known")


# --- what nobody knows ------------------------------------------------------------------------------------------------


def test_an_untried_pair_is_unknown_but_likely_where_the_usual_advice_names_it() -> None:
    told = verdict(tree("a"), tree("b"))
    assert (told.compatibility, told.likely, told.reasons[0].sources) == ("unknown", True, ("usual",))


def test_reasons_carry_the_sources_of_both_genotypes() -> None:
    reason = verdict(tree("a", "S1", "S2"), tree("b", "S2", "S3")).reasons[0]
    assert reason.sources == ("a typed", "b typed")
    assert dict(reason.values)["seed_alleles"] == "S1S2"


def test_a_genotype_from_memory_marks_the_reason() -> None:
    recalled = replace(tree("b"), s_genotype=said(SGenotype(("S2", "S3")), from_memory=True))
    assert verdict(tree("a", "S1", "S2"), recalled).reasons[0].from_memory
    assert not verdict(tree("a", "S1", "S2"), tree("b", "S2", "S3")).reasons[0].from_memory
