"""When trees bloom together, and the table of who can set whom, with made-up cultivars."""

from __future__ import annotations

from itertools import product

import pytest

from service.compute.pollination import BloomLimits, PartnerTable
from service.compute.pollination.bloom import gap_in_days, together
from service.domain.cultivar import Cultivar, Offset
from tests.compute.made_up_orchard import GROUNDS, tree, verdict

# --- bloom ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "gap", "overlap"),
    [
        ("mid", "mid", 0, True),
        ("early", "mid", 1, True),
        ("early_to_mid", "late", 1.5, False),
        ("very_early", "very_late", 4, False),
        ("mid", None, None, None),
    ],
)
def test_the_same_or_an_adjoining_class_blooms_together(one: str, other: str | None, gap: float, overlap: bool) -> None:
    told = verdict(tree("a", bloom=one), tree("b", bloom=other))
    assert (told.bloom_gap_classes, told.bloom_together) == (gap, overlap)


def test_bloom_classes_of_different_crops_are_not_compared() -> None:
    told = verdict(tree("p", of="peach", bloom="mid"), tree("n", of="nectarine", bloom="mid"))
    assert told.bloom_gap_classes is None
    assert told.bloom_together is None


def test_days_are_compared_only_from_one_reference() -> None:
    dated = tree("a", bloom_offset=Offset(2, "Nonpareil"))
    assert gap_in_days(dated, tree("b", bloom_offset=Offset(-1, "Nonpareil"))) == 3
    assert gap_in_days(dated, tree("nonpareil")) == 2
    assert gap_in_days(dated, tree("b", bloom_offset=Offset(-1, "Mission"))) is None
    assert gap_in_days(tree("a"), tree("b")) is None


def test_ranges_of_days_are_compared_at_their_nearer_ends() -> None:
    ranged = tree("a", bloom_offset=Offset(2, "Nonpareil", to_days=5))
    assert gap_in_days(ranged, tree("b", bloom_offset=Offset(4, "Nonpareil"))) == 0
    assert gap_in_days(ranged, tree("b", bloom_offset=Offset(9, "Nonpareil"))) == 4


def test_days_decide_before_classes_where_a_limit_in_days_is_known() -> None:
    limits = BloomLimits(classes=1, days=4)
    assert together(3, 2, limits) is True
    assert together(0, 9, limits) is False
    assert together(0, 9, BloomLimits(classes=1)) is True


# --- the table --------------------------------------------------------------------------------------------------------

ORCHARD = [
    tree("bing", "S3", "S4", bloom="mid"),
    tree("lambert", "S3", "S4", bloom="mid"),
    tree("van", "S1", "S3", bloom="mid"),
    tree("tartarian", "S1", "S2", bloom="very_early"),
    tree("stella", "S3", "S4'", self_fertility="self_fertile"),
    tree("untyped"),
    tree("montmorency", of="sour"),
    tree("redhaven", of="peach"),
    tree("fantasia", of="nectarine"),
]
TABLE = PartnerTable(ORCHARD, GROUNDS)


@pytest.mark.parametrize(("seed", "pollen"), list(product(ORCHARD, ORCHARD)))
def test_the_table_says_what_the_verdict_says(seed: Cultivar, pollen: Cultivar) -> None:
    told = TABLE.verdict(seed.id, pollen.id)
    assert told == verdict(seed, pollen)
    sets = told.compatibility in ("compatible", "partly_compatible") and told.bloom_together is not False
    assert (pollen.id in TABLE.proven[seed.id]) == (sets and seed is not pollen)
    likely = told.likely and told.bloom_together is not False
    assert (pollen.id in TABLE.likely[seed.id]) == likely


def test_a_tree_known_to_bloom_apart_is_no_partner_in_the_table() -> None:
    assert TABLE.verdict("cherry.bing", "cherry.tartarian").compatibility == "compatible"
    assert "cherry.tartarian" not in TABLE.proven["cherry.bing"]
