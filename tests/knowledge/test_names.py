"""Names as people write them: exact where nothing is doubtful, near misses offered and never assumed."""

from __future__ import annotations

import pytest

from service.knowledge.catalogue import Catalogue
from service.knowledge.names import NameBook


@pytest.fixture(scope="module")
def names(catalogue: Catalogue) -> NameBook:
    return NameBook(catalogue)


@pytest.mark.parametrize(
    "written",
    ["Golden Delicious", "golden delicious", "'GOLDEN DELICIOUS'", "“Golden  Delicious”", "Golden-Delicious"],
)
def test_case_quotes_and_hyphens_do_not_matter(names: NameBook, written: str) -> None:
    found = names.cultivar(written)
    assert (found.exact, found.how) == ("apple.golden_delicious", "denomination")


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("Red Haven", "peach.redhaven"),
        ("J H Hale", "peach.j_h_hale"),
        ("Doyenné du Comice", "european_pear.doyenne_du_comice"),
        ("Beurré d’Anjou", "european_pear.beurre_danjou"),
        ("Cox's Orange Pippin", "apple.coxs_orange_pippin"),
    ],
)
def test_accents_points_and_spaces_do_not_matter(names: NameBook, written: str, expected: str) -> None:
    assert names.cultivar(written).exact == expected


def test_a_synonym_is_exact_and_says_that_it_is_one(names: NameBook) -> None:
    found = names.cultivar("royal ann")
    assert (found.exact, found.how) == ("sweet_cherry.napoleon", "synonym")


def test_an_id_is_exact(names: NameBook) -> None:
    found = names.cultivar("apple.gala")
    assert (found.exact, found.how) == ("apple.gala", "id")


def test_a_near_miss_is_offered_and_not_assumed(names: NameBook) -> None:
    found = names.cultivar("Braebrun")
    assert found.exact is None
    assert found.near[0].id == "apple.braeburn"
    assert found.near[0].name == "Braeburn"


def test_near_misses_come_best_first_and_each_cultivar_once(names: NameBook) -> None:
    near = names.cultivar("Golden delicous").near
    assert near[0].id == "apple.golden_delicious"
    assert [one.score for one in near] == sorted((one.score for one in near), reverse=True)
    assert len({one.id for one in near}) == len(near)


def test_one_letter_is_never_enough(names: NameBook) -> None:
    assert names.cultivar("Galla", crop="apple").exact is None


def test_nonsense_finds_nothing(names: NameBook) -> None:
    found = names.cultivar("qqqqxzw")
    assert (found.exact, found.near, found.same_name_in) == (None, (), ())


@pytest.mark.parametrize("written", ["", "   ", "'", "–"])
def test_an_empty_name_finds_nothing(names: NameBook, written: str) -> None:
    assert names.cultivar(written).exact is None
    assert names.cultivar(written).near == ()


def test_a_name_in_two_crops_is_not_exact_until_the_crop_is_said(names: NameBook) -> None:
    found = names.cultivar("Gala")
    assert found.exact is None
    assert found.same_name_in == ("apple.gala", "peach.gala")
    assert names.cultivar("Gala", crop="peach").exact == "peach.gala"


@pytest.mark.parametrize("written", ["Gala apple", "apple Gala", "Apple 'Gala'", "manzana Gala"])
def test_the_crop_may_stand_beside_the_name(names: NameBook, written: str) -> None:
    assert names.cultivar(written).exact == "apple.gala"


@pytest.mark.parametrize(
    ("written", "expected"),
    [("Brooks cherry", "sweet_cherry.brooks"), ("Brooks plum", "european_plum.brooks")],
)
def test_a_general_crop_word_is_enough_where_it_leaves_one(names: NameBook, written: str, expected: str) -> None:
    assert names.cultivar(written).exact == expected


def test_the_crop_that_is_said_bars_the_others(names: NameBook) -> None:
    found = names.cultivar("Honeycrisp", crop="peach")
    assert found.exact is None
    assert all(near.id.startswith("peach.") for near in found.near)


@pytest.mark.parametrize(
    ("written", "crop"),
    [("pear", "european_pear"), ("Apples", "apple"), ("durazno", "peach"), ("NÍSPERO", "loquat")],
)
def test_crops_are_found_in_english_and_spanish(names: NameBook, written: str, crop: str) -> None:
    assert names.crop(written).exact == crop


@pytest.mark.parametrize(
    ("written", "crops"),
    [("plum", ("european_plum", "japanese_plum")), ("cherry", ("sweet_cherry", "tart_cherry"))],
)
def test_plum_and_cherry_name_two_crops(names: NameBook, written: str, crops: tuple[str, ...]) -> None:
    found = names.crop(written)
    assert found.exact is None
    assert found.same_name_in == crops


@pytest.mark.parametrize(
    ("written", "root"),
    [
        ("M9", "m_9"),
        ("mm 111", "mm_111"),
        ("OHxF 87", "ohxf_87"),
        ("Lovell", "lovell_seedling"),
        ("Saint Julien A", "st_julien_a"),
    ],
)
def test_rootstocks_are_found_as_they_are_written(names: NameBook, written: str, root: str) -> None:
    assert names.rootstock(written).exact == root


def test_every_cultivar_is_found_by_its_own_name(names: NameBook, catalogue: Catalogue) -> None:
    for cultivar in catalogue.cultivars.values():
        for name in (cultivar.denomination, *cultivar.synonyms):
            assert names.cultivar(name, crop=cultivar.crop).exact == cultivar.id
