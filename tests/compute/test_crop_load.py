"""Crop load: which measure decides, how a tree is shared out, and what must hold whatever is measured."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.crop_load import (
    Bound,
    Carried,
    Fruiting,
    Limb,
    Part,
    Reach,
    Targets,
    Thirds,
    branch_bounds,
    carry,
    in_thirds,
    lowest,
    safe_fruit,
    strain,
)
from service.compute.crop_load.placing import share_out
from service.domain.crop_load import Branch, Load, TreeSize
from service.domain.errors import NotUnderstood

REACH = Reach(branch_in=1.1, trunk_in=3)
APPLE = Targets(spacing_in=6, branch_density=6, trunk_density=6, fruit_per_cluster=1, leaves_per_fruit=40)
FRUITING = Fruiting(6, 8000)


def carried(*branches: Branch, fruit: int | None = None, targets: Targets = APPLE, **tree: float) -> Carried:
    (load,) = carry(TreeSize(**tree), [Part(Load(branches, fruit), targets)], REACH)  # type: ignore[arg-type]
    return load


# --- which measure decides --------------------------------------------------------------------------------------------


def test_the_lowest_measure_decides_and_all_are_told() -> None:
    branch = Branch(length_in=60, diameter_in=0.5, fruit=50, places=12, leaves=480)
    bounds = branch_bounds(branch, APPLE, REACH)
    assert {bound.by: bound.fruit for bound in bounds} == {
        "spacing": 10, "places": 12, "branch_section": 8, "leaves": 12
    }  # fmt: skip
    assert lowest(bounds) == Bound("branch_section", 8)
    assert carried(branch).bound_by == "branch_section"


def test_a_limb_beyond_the_gauge_is_not_bound_by_its_section() -> None:
    assert [b.by for b in branch_bounds(Branch(length_in=60, diameter_in=1.1), APPLE, REACH)] == [
        "spacing", "branch_section"
    ]  # fmt: skip
    assert [b.by for b in branch_bounds(Branch(length_in=60, diameter_in=1.2), APPLE, REACH)] == ["spacing"]


def test_a_trunk_beyond_the_table_allows_nothing_and_forbids_nothing() -> None:
    assert carried(fruit=500, trunk_girth_in=9).allowed == 250
    old = carried(fruit=500, trunk_girth_in=20)
    assert (old.allowed, old.keep, old.remove) == (None, None, None)


def test_a_young_tree_is_bound_by_the_density_of_its_age() -> None:
    young = Targets(trunk_density=6, young_density=2)
    assert carried(fruit=50, targets=young, trunk_girth_in=2.356).keep == 6


def test_a_cap_stands_whatever_the_branches_bear() -> None:
    load = carried(Branch(length_in=36, fruit=20), targets=Targets(spacing_in=6, tree_cap=0))
    assert (load.keep, load.remove, load.bound_by, load.branches[0].bound_by) == (0, 20, "tree_cap", "tree")


def test_a_weak_tree_carries_its_share_of_every_measure_and_of_no_cap() -> None:
    weak = Targets(spacing_in=6, trunk_density=6, tree_cap=100, load_share=0.5)
    load = carried(Branch(length_in=60, fruit=40), targets=weak, trunk_girth_in=6.283)
    assert load.keep == 5
    assert {bound.by: bound.fruit for bound in load.bounds} == {"trunk_section": 61, "tree_cap": 100}


def test_the_crown_counts_only_where_its_height_and_width_are_known() -> None:
    persimmon = Targets(canopy_density=10)
    assert carried(fruit=300, targets=persimmon, height_ft=10, lowest_branch_ft=2, spread_ft=8).keep == 104
    assert carried(fruit=300, targets=persimmon, height_ft=10, spread_ft=8).keep is None


# --- what is known ----------------------------------------------------------------------------------------------------


def test_branches_without_a_count_tell_what_may_stay_and_not_what_comes_off() -> None:
    load = carried(Branch(length_in=36), Branch(length_in=24))
    assert (load.allowed, load.keep, load.remove) == (10, 10, None)


def test_a_count_without_a_measure_tells_nothing() -> None:
    load = carried(Branch(fruit=40), targets=Targets(spacing_in=6))
    assert (load.allowed, load.keep, load.remove, load.bound_by) == (None, None, None, None)


def test_a_girth_alone_tells_what_the_tree_may_carry() -> None:
    load = carried(trunk_girth_in=6.283)
    assert (load.allowed, load.keep, load.remove, load.bound_by) == (122, 122, None, "trunk_section")


def test_branches_of_a_counted_tree_are_a_sample() -> None:
    sample = Branch(length_in=36, fruit=30)
    assert carried(sample, fruit=200).keep is None
    whole = carried(sample, fruit=200, trunk_girth_in=6.283)
    assert (whole.keep, whole.remove, whole.branches[0].remove) == (122, 78, 24)


def test_a_whole_count_that_is_all_on_the_branches_is_no_sample() -> None:
    assert carried(Branch(length_in=36, fruit=30), fruit=30).remove == 24


def test_branches_that_carry_more_than_the_whole_are_refused() -> None:
    with pytest.raises(NotUnderstood, match="more than the 20 of the whole"):
        Load((Branch(fruit=30),), fruit=20)


@pytest.mark.parametrize("branch", [{"length_in": -3}, {"diameter_in": 0}, {"fruit": -1}, {"length_in": float("nan")}])
def test_sizes_that_cannot_be_are_refused(branch: dict[str, float]) -> None:
    with pytest.raises(NotUnderstood):
        Branch(**branch)  # type: ignore[arg-type]


def test_fruit_sit_at_no_more_places_than_there_are_fruit() -> None:
    with pytest.raises(NotUnderstood, match="cannot sit at 9 places"):
        Branch(fruit=5, places=9)


def test_the_lowest_branch_stands_below_the_top() -> None:
    with pytest.raises(NotUnderstood, match="below the top"):
        TreeSize(height_ft=6, lowest_branch_ft=6)


# --- several varieties ------------------------------------------------------------------------------------------------


def two(first: Load, second: Load, *, girth_in: float, densities: tuple[float, float] = (6, 6)) -> list[int | None]:
    parts = [Part(load, Targets(trunk_density=density)) for load, density in zip((first, second), densities,
                                                                               strict=True)]  # fmt: skip
    return [load.keep for load in carry(TreeSize(trunk_girth_in=girth_in), parts, REACH)]


def test_varieties_share_what_the_trunk_allows() -> None:
    assert two(Load(fruit=122), Load(fruit=122), girth_in=6.283) == [61, 61]
    assert two(Load(fruit=183), Load(fruit=61), girth_in=6.283) == [91, 30]


def test_a_variety_under_its_share_keeps_all() -> None:
    assert two(Load(fruit=20), Load(fruit=90), girth_in=6.283) == [20, 90]


def test_each_variety_is_bound_by_its_own_density() -> None:
    assert two(Load(fruit=122), Load(fruit=81), girth_in=6.283, densities=(6, 4)) == [61, 40]


def test_varieties_without_a_count_are_taken_to_hold_equal_shares() -> None:
    assert two(Load(), Load(), girth_in=6.283) == [61, 61]


# --- properties -------------------------------------------------------------------------------------------------------

LENGTHS = st.floats(1, 120)
DIAMETERS = st.one_of(st.none(), st.floats(0.1, 2))
COUNTED = st.builds(
    Branch, length_in=LENGTHS, diameter_in=DIAMETERS, fruit=st.integers(0, 200),
    leaves=st.one_of(st.none(), st.integers(0, 2000)),
)  # fmt: skip
BRANCHES = st.lists(COUNTED, min_size=1, max_size=6).map(tuple)
GIRTHS = st.one_of(st.none(), st.floats(0.5, 15))


def with_fruit(branch: Branch, fruit: int) -> Branch:
    return Branch(branch.length_in, branch.diameter_in, fruit, branch.places, branch.leaves)


@given(BRANCHES, GIRTHS)
def test_what_stays_and_what_comes_off_are_what_was_there(branches: tuple[Branch, ...], girth: float | None) -> None:
    load = carried(*branches, **({} if girth is None else {"trunk_girth_in": girth}))
    assert load.keep is not None
    assert load.remove is not None
    assert load.keep + load.remove == sum(branch.fruit or 0 for branch in branches)
    assert load.keep == sum(one.keep or 0 for one in load.branches)
    assert all((one.keep or 0) >= 0 and (one.remove or 0) >= 0 for one in load.branches)


@given(BRANCHES, GIRTHS, st.data())
def test_more_fruit_never_lowers_what_is_removed(
    branches: tuple[Branch, ...], girth: float | None, data: st.DataObject
) -> None:
    tree = {} if girth is None else {"trunk_girth_in": girth}
    place = data.draw(st.integers(0, len(branches) - 1))
    more = list(branches)
    more[place] = with_fruit(branches[place], (branches[place].fruit or 0) + data.draw(st.integers(1, 20)))
    before, after = carried(*branches, **tree), carried(*more, **tree)
    assert (after.remove or 0) >= (before.remove or 0)
    assert all((new.remove or 0) >= (old.remove or 0)
               for new, old in zip(after.branches, before.branches, strict=True))  # fmt: skip


@given(st.floats(1, 120), st.floats(0.1, 2), st.floats(1, 3), st.integers(0, 200))
def test_a_thicker_branch_never_keeps_less(length: float, diameter: float, times: float, fruit: int) -> None:
    thin, thick = (carried(Branch(length, size, fruit)).keep or 0 for size in (diameter, diameter * times))
    assert thick >= thin


@given(st.floats(0.5, 9), st.floats(0, 3), st.integers(0, 500))
def test_a_thicker_trunk_never_keeps_less(girth: float, more: float, fruit: int) -> None:
    thin, thick = (carried(fruit=fruit, trunk_girth_in=size).keep for size in (girth, girth + more))
    assert thin is not None
    assert thick is None or thick >= thin


@given(BRANCHES, GIRTHS)
def test_a_plan_that_was_followed_takes_nothing_more(branches: tuple[Branch, ...], girth: float | None) -> None:
    tree = {} if girth is None else {"trunk_girth_in": girth}
    first = carried(*branches, **tree)
    done = [with_fruit(one.branch, one.keep or 0) for one in first.branches]
    assert carried(*done, **tree).remove == 0


@given(st.lists(st.integers(0, 60), min_size=1, max_size=8), st.integers(0, 300))
def test_a_crop_is_shared_out_whole_and_within_the_claims(claims: list[int], total: int) -> None:
    given_out = share_out(total, claims)
    assert sum(given_out) == min(total, sum(claims))
    assert all(0 <= part <= claim for part, claim in zip(given_out, claims, strict=True))


@given(st.lists(st.integers(1, 60), min_size=2, max_size=6), st.integers(0, 200))
def test_a_greater_claim_never_gets_less(claims: list[int], total: int) -> None:
    given_out = dict(sorted(zip(claims, share_out(total, claims), strict=True)))
    assert list(given_out.values()) == sorted(given_out.values())


@given(st.integers(0, 400))
def test_thirds_hold_every_fruit_and_no_more_toward_the_tip(fruit: int) -> None:
    thirds = in_thirds(fruit, Thirds(0.5, 0.35, 0.15))
    assert thirds.inner + thirds.middle + thirds.outer == fruit
    assert thirds.inner >= thirds.middle >= thirds.outer


@given(st.floats(6, 120), st.floats(0.2, 3), st.floats(0.1, 1))
def test_the_safe_number_is_the_last_below_the_limit(length: float, diameter: float, most: float) -> None:
    limb = Limb(length, diameter, lever=0.4)
    safe = safe_fruit(limb, FRUITING, most=most)
    under, over = (strain(limb, count, FRUITING) for count in (safe, safe + 1))
    assert under <= most * (1 + 1e-9)
    assert over > most * (1 - 1e-9)


def test_fruit_toward_the_tip_strain_a_limb_more() -> None:
    inner, outer = Thirds(1, 0, 0), Thirds(0, 0, 1)
    near, far = (strain(Limb(36, 0.6, each.lever), 6, FRUITING) for each in (inner, outer))
    assert far == pytest.approx(5 * near)
