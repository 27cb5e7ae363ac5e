"""How values are read from the files: zones, dates, ranges, provenance."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from service.domain.cultivar import HarvestTime, Offset
from service.domain.provenance import Span, Stated
from service.knowledge.catalogue import Catalogue, read_catalogue

FILE = "cultivars/medlar.yaml"
Write = Callable[..., Path]


@pytest.fixture
def small(small_folder: Write) -> Catalogue:
    return read_catalogue(small_folder())


def test_a_whole_zone_reaches_from_its_colder_to_its_warmer_half(small: Catalogue) -> None:
    zone = small.cultivars["medlar.first"].hardiness_zone
    assert zone is not None
    assert zone.value == Span(5.0, 8.5)


@pytest.mark.parametrize(
    ("written", "span"),
    [
        ("coldest: 7b, warmest: 9a", Span(7.5, 9.0)),
        ("coldest: 5a", Span(5.0, None)),
        ("warmest: 10", Span(None, 10.5)),
    ],
)
def test_half_zones_and_open_ends_are_kept(small_folder: Write, written: str, span: Span) -> None:
    folder = small_folder(FILE, ("coldest: 5, warmest: 8", written))
    zone = read_catalogue(folder).cultivars["medlar.first"].hardiness_zone
    assert zone is not None
    assert zone.value == span


def test_a_single_figure_is_both_ends(small_folder: Write) -> None:
    folder = small_folder(FILE, ("low: 400, high: 500", "value: 450"))
    need = read_catalogue(folder).cultivars["medlar.first"].chill_hours
    assert need is not None
    assert need.value.amount == Span(450, 450)


def test_a_harvest_is_read_as_days_of_the_year(small: Catalogue) -> None:
    harvest = small.cultivars["medlar.first"].harvest
    assert harvest is not None
    assert harvest.value == HarvestTime(284, 293, "a garden", "mid October")


def test_an_offset_keeps_its_reference(small: Catalogue) -> None:
    offset = small.cultivars["medlar.second"].ripening_offset
    assert offset is not None
    assert offset.value == Offset(-3, "medlar.first")


def test_what_another_source_says_is_kept_beside_the_value(small: Catalogue) -> None:
    bloom = small.cultivars["medlar.first"].bloom
    assert bloom == Stated("mid", ("plain-book",), others=(Stated("late", ("other-book",), from_memory=True),))


def test_a_cultivar_names_all_its_sources_and_those_of_its_rivals(small: Catalogue) -> None:
    assert small.cultivars["medlar.first"].sources == ("other-book", "plain-book")


def test_what_nobody_says_is_unknown(small: Catalogue) -> None:
    second = small.cultivars["medlar.second"]
    assert second.chill_hours is None
    assert second.hardiness_zone is None
    assert second.uses is None
    assert second.resistance == {}


def test_a_crop_speaks_for_the_crop_and_a_root_for_the_root(small: Catalogue) -> None:
    fertility, size = small.crops["medlar"].self_fertility, small.rootstocks["strong_root"].size_percent
    assert fertility is not None
    assert fertility.basis == "crop"
    assert size is not None
    assert size.basis == "rootstock"


def test_what_was_read_cannot_be_changed(small: Catalogue) -> None:
    with pytest.raises(TypeError):
        small.cultivars["medlar.third"] = small.cultivars["medlar.first"]  # type: ignore[index]
    with pytest.raises(TypeError):
        small.cultivars["medlar.first"].resistance["brown_rot"] = None  # type: ignore[index]


def test_roots_and_cultivars_are_told_by_crop(small: Catalogue) -> None:
    assert [each.id for each in small.cultivars_of("medlar")] == ["medlar.first", "medlar.second"]
    assert [each.id for each in small.rootstocks_of("medlar")] == ["strong_root"]
    assert small.cultivars_of("quince") == ()
