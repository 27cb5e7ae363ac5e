"""Pairs whose outcome is published, against the catalogue as it stands.

Sources are named at each table by their id in rules/sources.yaml; values marked so are from memory.
"""

from __future__ import annotations

import pytest

from service.compute.pollination import PartnerTable
from service.compute.pollination.alleles import share_accepted
from service.domain.cultivar import SGenotype
from service.questions.pollination import partner_table
from service.reasoning.rulebook import Rulebook


@pytest.fixture(scope="module")
def table(rulebook: Rulebook) -> PartnerTable:
    """Who can set whom, over the catalogue."""
    return partner_table(rulebook)


# Oregon sweet cherry chart (osu-cherry-chart): seed parent, pollen parent, outcome.
CHERRIES = [
    ("bing", "lambert", "incompatible"),
    ("van", "cristalina", "incompatible"),
    ("chelan", "burlat", "incompatible"),
    ("chelan", "tieton", "incompatible"),
    ("rainier", "black_republican", "incompatible"),
    ("bing", "black_tartarian", "compatible"),
    ("rainier", "burlat", "compatible"),
    ("van", "royalton", "compatible"),
    ("sam", "regina", "compatible"),
    ("sam", "kordia", "compatible"),
    ("bing", "lapins", "compatible"),
    ("regina", "ny_13791", "compatible"),
    ("royalton", "0900_ziraat", "compatible"),
]


@pytest.mark.parametrize(("seed", "pollen", "outcome"), CHERRIES)
def test_sweet_cherries_of_the_oregon_chart(table: PartnerTable, seed: str, pollen: str, outcome: str) -> None:
    assert table.verdict(f"sweet_cherry.{seed}", f"sweet_cherry.{pollen}").compatibility == outcome


@pytest.mark.parametrize("pair", [(seed, pollen) for seed, pollen, outcome in CHERRIES if outcome == "incompatible"])
def test_full_sharing_blocks_both_directions(table: PartnerTable, pair: tuple[str, str]) -> None:
    seed, pollen = pair
    assert table.verdict(f"sweet_cherry.{pollen}", f"sweet_cherry.{seed}").compatibility == "incompatible"


def test_every_cherry_with_a_working_mutant_serves_every_diploid_cherry(table: PartnerTable) -> None:
    """The chart's universal donors (osu-cherry-chart)."""
    cherries = [one for one in table.cultivars.values() if one.crop == "sweet_cherry"]
    donors = [
        one
        for one in cherries
        if (one.incompatibility_group and one.incompatibility_group.value == "SC")
        or (one.s_genotype and "S4'" in one.s_genotype.value.alleles)
    ]
    assert len(donors) >= 15
    for donor in donors:
        others = (one for one in cherries if one is not donor)
        assert {table.verdict(one.id, donor.id).compatibility for one in others} == {"compatible"}


@pytest.mark.parametrize(
    ("seed", "pollen"),
    [  # egea-burgos-1996: these crosses set under 2 % of their flowers
        ("apricot.goldrich", "apricot.hargrand"),
        ("apricot.goldrich", "apricot.lambertin_1"),
        ("apricot.hargrand", "apricot.lambertin_1"),
        # moriya-2005; claessen-2019, from memory
        ("european_pear.flemish_beauty", "european_pear.kalle"),
        ("european_pear.bartlett", "european_pear.seckel"),
        # hortnz-nashi
        ("asian_pear.kosui", "asian_pear.shinsui"),
        ("asian_pear.nijisseiki", "asian_pear.kikusui"),
        # uc-sacvalley-almond: members of one group
        ("almond.carmel", "almond.livingston"),
        ("almond.solano", "almond.sonora"),
        ("almond.merced", "almond.price"),
        ("almond.ne_plus_ultra", "almond.price"),
        ("almond.durango", "almond.wood_colony"),
    ],
)
def test_pairs_that_fail(table: PartnerTable, seed: str, pollen: str) -> None:
    assert table.verdict(seed, pollen).compatibility == "incompatible"
    assert table.verdict(pollen, seed).compatibility == "incompatible"


@pytest.mark.parametrize(
    ("seed", "pollen"),
    [  # hortnz-nashi
        ("asian_pear.nijisseiki", "asian_pear.hosui"),
        ("asian_pear.nijisseiki", "asian_pear.shinsui"),
        ("asian_pear.kosui", "asian_pear.hosui"),
        ("asian_pear.kosui", "asian_pear.chojuro"),
        ("asian_pear.kosui", "asian_pear.nijisseiki"),
        # fshs-plums: fruitful in every combination
        ("japanese_plum.gulfruby", "japanese_plum.gulfbeauty"),
        ("japanese_plum.gulfblaze", "japanese_plum.gulfrose"),
        # umn-stone
        ("japanese_plum.superior", "japanese_plum.toka"),
        ("japanese_plum.alderman", "japanese_plum.south_dakota"),
        # umn-mg-crowwing, umn-maes-hardy
        ("apricot.moongold", "apricot.sungold"),
        # aps-1977-peach: to be planted among peaches with good pollen
        ("peach.j_h_hale", "peach.redhaven"),
    ],
)
def test_pairs_that_work(table: PartnerTable, seed: str, pollen: str) -> None:
    assert table.verdict(seed, pollen).compatibility == "compatible"


def test_triploid_apples_give_no_pollen(table: PartnerTable) -> None:
    """ext-apples-poll: Mutsu, Jonagold; ramirez-2013, from memory: Gravenstein, Baldwin, Bramley's Seedling."""
    for triploid in ("mutsu", "jonagold", "gravenstein", "baldwin", "bramleys_seedling"):
        for other in ("gala", "idared", "honeycrisp", "liberty"):
            assert table.verdict(f"apple.{other}", f"apple.{triploid}").compatibility == "incompatible"


def test_a_triploid_takes_pollen_that_shares_no_allele(table: PartnerTable) -> None:
    """Genotypes of broothaerts-2004, from memory: Jonagold S2S3S9 stops Golden Delicious S2S3, not Idared S3S7."""
    assert table.verdict("apple.jonagold", "apple.golden_delicious").compatibility == "incompatible"
    assert table.verdict("apple.jonagold", "apple.idared").compatibility == "partly_compatible"
    assert table.verdict("apple.jonagold", "apple.akane").compatibility == "compatible"


@pytest.mark.parametrize(
    ("seed", "pollen", "outcome"),
    [  # usu-hort, from memory
        ("european_plum.stanley", "japanese_plum.methley", "incompatible"),
        ("japanese_plum.methley", "european_plum.stanley", "incompatible"),
        ("sweet_cherry.bing", "tart_cherry.montmorency", "incompatible"),
        ("apple.gala", "european_pear.bartlett", "incompatible"),
        ("peach.redhaven", "nectarine.fantasia", "compatible"),
        ("nectarine.fantasia", "peach.redhaven", "compatible"),
    ],
)
def test_crops_that_cross_and_crops_that_do_not(table: PartnerTable, seed: str, pollen: str, outcome: str) -> None:
    assert table.verdict(seed, pollen).compatibility == outcome


def test_apricot_pollen_mutant_and_its_parent_set_each_other_one_way(table: PartnerTable) -> None:
    """apricot-s8-sc: Cegledi orias (S8S9) takes Cegledi arany (ScS9) well; the other way round the cross fails."""
    changed = {allele: one for (crop, allele), one in table.grounds.pollen.changed.items() if crop == "apricot"}
    orias, arany = SGenotype(("S8", "S9")), SGenotype(("Sc", "S9"))
    assert share_accepted(orias, arany, changed) == 0.5
    assert share_accepted(arany, orias, changed) == 0.0


def test_the_style_mutant_of_nijisseiki_is_compatible_one_way(table: PartnerTable) -> None:
    """asian-pear-s4sm: Osa-Nijisseiki takes Kikusui (S2S4); Kikusui does not take Osa-Nijisseiki."""
    osa, kikusui = "asian_pear.osa_nijisseiki", "asian_pear.kikusui"
    assert table.verdict(osa, kikusui).compatibility == "partly_compatible"
    assert table.verdict(kikusui, osa).compatibility == "incompatible"


def test_almond_letters_and_numbers_are_not_compared(table: PartnerTable) -> None:
    """kester-1994 lettered the alleles that later work numbered; lopez-2006, from memory."""
    told = table.verdict("almond.nonpareil", "almond.butte")
    assert told.compatibility == "unknown"
    assert told.likely


def test_a_smyrna_fig_needs_the_wasp(table: PartnerTable) -> None:
    """uc-circ424."""
    assert table.verdict("fig.sari_lop", "fig.celeste").reasons[0].code == "needs_fig_wasp"


def test_bloom_classes_of_the_cherry_chart_overlap_when_they_adjoin(table: PartnerTable) -> None:
    """osu-cherry-chart: five bloom periods; pair the same or an adjoining one."""
    assert table.verdict("sweet_cherry.bing", "sweet_cherry.lapins").bloom_together is True
    assert table.verdict("sweet_cherry.bing", "sweet_cherry.lambert").bloom_together is True
    assert table.verdict("sweet_cherry.lapins", "sweet_cherry.lambert").bloom_together is False
    assert table.verdict("sweet_cherry.bing", "sweet_cherry.regina").bloom_together is False
