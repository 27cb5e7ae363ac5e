"""Names on lists: exact, by synonym, guessed, ambiguous or not recognised, and what tells two crops apart."""

from __future__ import annotations

import pytest

from service.domain.planting_list import ReadLine, ReadName
from service.intake.planting_list import ListReader


def only(reader: ListReader, text: str) -> ReadLine:
    (line,) = reader.read_text(text).lines
    return line


def name(reader: ListReader, text: str) -> ReadName:
    (read,) = only(reader, text).names
    return read


@pytest.mark.parametrize(
    ("text", "how", "cultivar"),
    [
        ("Honeycrisp", "exact", "apple.honeycrisp"),
        ("HONEY CRISP", "exact", "apple.honeycrisp"),
        ("‘Honeycrisp’™", "exact", "apple.honeycrisp"),
        ("20th Century", "synonym", "asian_pear.nijisseiki"),
        ("Honneycrisp", "guess", "apple.honeycrisp"),
        ("Gold. Del.", "guess", "apple.golden_delicious"),
    ],
)
def test_a_name_says_how_it_was_read(reader: ListReader, text: str, how: str, cultivar: str) -> None:
    read = name(reader, text)
    assert (read.how, read.cultivar) == (how, cultivar)


def test_an_unknown_name_stays_unknown_and_the_line_is_read_all_the_same(reader: ListReader) -> None:
    line = only(reader, "3 Wonderglow apple on M.9, 5 gal")
    assert line.names[0].how == "not_recognised"
    assert line.names[0].cultivar is None
    assert line.names[0].crop == "apple"
    assert line.quantity == 3
    assert line.rootstock is not None
    assert line.rootstock.rootstock == "m_9"


def test_a_name_as_near_to_one_as_to_another_is_not_guessed(reader: ListReader) -> None:
    read = name(reader, "Golden")
    assert read.how == "not_recognised"
    assert "apple.golden_delicious" in {near.id for near in read.alternatives}


def test_a_guess_keeps_what_else_it_may_be(reader: ListReader) -> None:
    read = name(reader, "Redhavn")
    assert read.how == "guess"
    assert [near.id for near in read.alternatives] == ["peach.cresthaven"]


def test_a_name_of_two_crops_alone_is_ambiguous(reader: ListReader) -> None:
    read = name(reader, "Gala")
    assert read.how == "ambiguous"
    assert {near.id for near in read.alternatives} == {"apple.gala", "peach.gala"}


@pytest.mark.parametrize(
    ("text", "cultivar"),
    [("Gala apple", "apple.gala"), ("durazno Gala", "peach.gala"), ("Gala on Lovell", "peach.gala"),
     ("Gala / M.26", "apple.gala"), ("Peaches:\nGala", "peach.gala"), ("manzanos\nGala", "apple.gala")],
)  # fmt: skip
def test_what_stands_around_tells_two_crops_apart(reader: ListReader, text: str, cultivar: str) -> None:
    assert name(reader, text).cultivar == cultivar


def test_what_the_list_is_mostly_made_of_is_only_a_guess(reader: ListReader) -> None:
    lines = reader.read_text("Nonpareil\nCarmel\nButte\nMission").lines
    read = lines[-1].names[0]
    assert (read.how, read.cultivar) == ("guess", "almond.mission")
    assert [near.id for near in read.alternatives] == ["fig.mission"]
    assert lines[-1].marks == ("crop_from_list",)


def test_a_list_of_both_crops_decides_nothing(reader: ListReader) -> None:
    lines = reader.read_text("Nonpareil\nCarmel\nCeleste fig\nKadota\nBrown Turkey\nMission").lines
    assert lines[-1].names[0].how == "ambiguous"


def test_a_crop_that_does_not_go_with_the_name_is_told(reader: ListReader) -> None:
    line = only(reader, "Elberta apple")
    assert line.names[0].how == "guess"
    assert line.names[0].cultivar == "peach.elberta"
    assert "crop_and_name_disagree" in line.marks


def test_pears_of_either_kind_go_under_the_word_pear(reader: ListReader) -> None:
    assert name(reader, "Shinseiki pear").how == "exact"
    assert only(reader, "Shinseiki pear").marks == ()


def test_this_or_that_is_a_choice_and_no_reading(reader: ListReader) -> None:
    read = name(reader, "2 Redhaven or Contender")
    assert read.how == "ambiguous"
    assert {near.id for near in read.alternatives} == {"peach.redhaven", "peach.contender"}


def test_several_cultivars_can_stand_on_one_tree(reader: ListReader) -> None:
    line = only(reader, "2 x 3-in-1: Honeycrisp/Gala/Liberty apple")
    assert [read.cultivar for read in line.names] == ["apple.honeycrisp", "apple.gala", "apple.liberty"]
    assert line.quantity == 2
    assert line.marks == ("several_on_one_tree",)


def test_one_sentence_can_ask_for_several_trees(reader: ListReader) -> None:
    lines = reader.read_text("I'd like 2 Honeycrisp on M.26 and 3 Bartlett pears.").lines
    assert [(line.names[0].cultivar, line.quantity) for line in lines] == [
        ("apple.honeycrisp", 2), ("european_pear.bartlett", 3),
    ]  # fmt: skip
    assert {line.row.number for line in lines} == {1}


def test_a_rootstock_of_another_crop_is_told(reader: ListReader) -> None:
    assert "rootstock_of_another_crop" in only(reader, "Redhaven on M.9").marks


def test_an_unknown_rootstock_is_no_part_of_the_name(reader: ListReader) -> None:
    line = only(reader, "Bing on Gisela 99")
    assert line.names[0].written == "Bing"
    assert line.rootstock is not None
    assert (line.rootstock.written, line.rootstock.how) == ("Gisela 99", "not_recognised")


def test_a_crop_without_a_name_is_kept_as_a_line(reader: ListReader) -> None:
    line = only(reader, "2 apple trees")
    assert (line.names[0].how, line.names[0].crop, line.marks) == ("not_recognised", "apple", ("crop_only",))


@pytest.mark.parametrize("text", ["2 weeks ago we bought a house in the valley with an old barn.", "Thanks, A1"])
def test_words_around_a_list_are_no_lines(reader: ListReader, text: str) -> None:
    read = reader.read_text(f"2 Liberty\n{text}")
    assert len(read.lines) == 1
    assert [skipped.why for skipped in read.skipped] == ["comment"]
