"""The catalogue that the project ships: whole, cited throughout, and honest about what was recalled."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.provenance import Stated
from service.domain.rootstock import Rootstock
from service.knowledge.audit import stated_values
from service.knowledge.catalogue import Catalogue, read_catalogue


def everything(catalogue: Catalogue) -> list[tuple[str, str, Stated[object]]]:
    things: list[Crop | Cultivar | Rootstock] = [
        *catalogue.crops.values(),
        *catalogue.cultivars.values(),
        *catalogue.rootstocks.values(),
    ]
    found = [(thing.id, name, value) for thing in things for name, value in stated_values(thing)]
    return found + [(thing, name, other) for thing, name, value in found for other in value.others]


def test_the_catalogue_holds_what_a_nursery_sells(catalogue: Catalogue) -> None:
    assert len(catalogue.crops) >= 19
    assert len(catalogue.cultivars) >= 534
    assert len(catalogue.rootstocks) >= 61


def test_every_source_that_is_cited_has_a_record(catalogue: Catalogue) -> None:
    cited = {source for _, _, value in everything(catalogue) for source in value.sources}
    cited |= {source for form in catalogue.training.values() for source in form.sources}
    assert cited <= set(catalogue.sources)
    assert len(cited) > 100


def test_a_figure_from_a_record_that_nobody_saw_is_marked_as_recalled(catalogue: Catalogue) -> None:
    unseen = {source.id for source in catalogue.sources.values() if source.confirmed is None}
    wrong = [
        (thing, name)
        for thing, name, value in everything(catalogue)
        if set(value.sources) <= unseen and not value.from_memory
    ]
    assert wrong == []


def test_every_crop_has_cultivars_and_every_cultivar_a_crop(catalogue: Catalogue) -> None:
    assert all(catalogue.cultivars_of(crop) for crop in catalogue.crops)
    assert sum(len(catalogue.cultivars_of(crop)) for crop in catalogue.crops) == len(catalogue.cultivars)


def test_a_grafted_crop_has_rootstocks(catalogue: Catalogue) -> None:
    grafted = {"apple", "european_pear", "asian_pear", "peach", "sweet_cherry", "tart_cherry", "almond", "apricot"}
    assert all(catalogue.rootstocks_of(crop) for crop in grafted)


def test_a_training_form_has_a_crop_and_every_crop_with_a_form_is_known(catalogue: Catalogue) -> None:
    assert all(form.crops for form in catalogue.training.values())
    assert {crop for form in catalogue.training.values() for crop in form.crops} <= set(catalogue.crops)


def test_a_triploid_sheds_no_working_pollen(catalogue: Catalogue) -> None:
    triploids = [each for each in catalogue.cultivars.values() if each.ploidy and each.ploidy.value == 3]
    assert len(triploids) >= 10
    assert {each.self_fertility.value for each in triploids if each.self_fertility} == {"pollen_sterile"}


def test_a_diploid_has_two_alleles_and_a_triploid_three(catalogue: Catalogue) -> None:
    for each in catalogue.cultivars.values():
        if each.s_genotype:
            expected = each.ploidy.value if each.ploidy else 2
            assert len(each.s_genotype.value.alleles) == expected, each.id


def test_a_working_mutant_makes_a_sweet_cherry_self_fertile(catalogue: Catalogue) -> None:
    mutants = [
        each
        for each in catalogue.cultivars_of("sweet_cherry")
        if each.s_genotype and any(allele.endswith("'") for allele in each.s_genotype.value.alleles)
    ]
    assert len(mutants) >= 10
    assert {each.self_fertility.value for each in mutants if each.self_fertility} == {"self_fertile"}


def test_lettered_almond_genotypes_are_not_mixed_with_numbers(catalogue: Catalogue) -> None:
    for each in catalogue.cultivars_of("almond"):
        if each.s_genotype and each.s_genotype.value.notation == "lettered_1994":
            assert all(allele[1:].isalpha() for allele in each.s_genotype.value.alleles), each.id


def test_no_chill_need_is_zero_for_a_cultivar(catalogue: Catalogue) -> None:
    for each in catalogue.cultivars.values():
        if each.chill_hours:
            assert each.chill_hours.value.amount.middle > 0, each.id


def test_an_offset_never_counts_from_the_cultivar_itself(catalogue: Catalogue) -> None:
    for each in catalogue.cultivars.values():
        for offset in (each.bloom_offset, each.ripening_offset):
            assert offset is None or offset.value.reference != each.id


def test_a_bound_is_kept_apart_from_the_limit(catalogue: Catalogue) -> None:
    state_fair = catalogue.cultivars["apple.state_fair"]
    assert state_fair.hardiness_zone is None
    assert state_fair.zone_bounds[0].value.low == 4


def test_a_seen_value_leads_and_the_recalled_one_steps_behind(catalogue: Catalogue) -> None:
    bloom = catalogue.cultivars["apple.gala"].bloom
    assert bloom is not None
    assert not bloom.from_memory
    assert bloom.others[0].from_memory


@pytest.mark.parametrize("crop", ["apple", "peach", "sweet_cherry"])
def test_a_class_of_harvest_dates_rests_on_at_least_three_dated_cultivars(catalogue: Catalogue, crop: str) -> None:
    dated = Counter(
        each.ripening.value for each in catalogue.cultivars_of(crop) if each.ripening and each.harvest is not None
    )
    assert set(catalogue.crops[crop].harvest_by_season) == {season for season, count in dated.items() if count >= 3}


def test_a_folder_reads_the_same_twice(small_folder: Callable[..., Path]) -> None:
    assert read_catalogue(small_folder()) == read_catalogue(small_folder())
