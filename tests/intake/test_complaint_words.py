"""What customers say, read as complaints and signs: offered, the best first, in English and Spanish."""

from __future__ import annotations

import pytest

from service.intake.complaint_words import ComplaintWords, Reading, content
from service.reasoning.rulebook import Rulebook


@pytest.fixture(scope="module")
def words(rulebook: Rulebook) -> ComplaintWords:
    """The reader of the real catalogue."""
    return ComplaintWords(rulebook.catalogue)


def read(words: ComplaintWords, rulebook: Rulebook, text: str, crop: str) -> Reading:
    return words.read(text, crop=crop, signs=tuple(rulebook.catalogue.signs))


def test_every_name_of_a_sign_is_read_as_that_sign(words: ComplaintWords, rulebook: Rulebook) -> None:
    missed = []
    for sign in rulebook.catalogue.signs.values():
        for name in (sign.name, sign.name_es):
            found = [one.id for one in read(words, rulebook, name, "apple").signs]
            if sign.id not in found:
                missed.append((sign.id, name, found))
    assert missed == []


def test_what_customers_are_known_to_say_is_read_as_their_complaint(words: ComplaintWords, rulebook: Rulebook) -> None:
    missed = []
    for complaint in rulebook.catalogue.complaints.values():
        crop = complaint.crops[0] if complaint.crops else "apple"
        for phrase in (*complaint.says, *complaint.says_es):
            if complaint.id not in [one.id for one in read(words, rulebook, phrase, crop).complaints]:
                missed.append((complaint.id, phrase))
    assert missed == []


def test_a_complaint_of_other_crops_is_not_offered(words: ComplaintWords, rulebook: Rulebook) -> None:
    for complaint in rulebook.catalogue.complaints.values():
        if complaint.crops and "pawpaw" not in complaint.crops:
            found = read(words, rulebook, complaint.says[0], "pawpaw").complaints
            assert complaint.id not in [one.id for one in found]


def test_signs_that_cannot_be_seen_on_the_crop_are_not_offered(words: ComplaintWords) -> None:
    assert words.read("leaves curled and sticky", crop="apple", signs=()).signs == ()


@pytest.mark.parametrize("nothing", ["", "   ", "the of and", "?!"])
def test_words_that_say_nothing_are_read_as_nothing(words: ComplaintWords, rulebook: Rulebook, nothing: str) -> None:
    found = read(words, rulebook, nothing, "apple")
    assert (found.complaints, found.signs) == ((), ())


def test_likeness_falls_from_the_first_to_the_last(words: ComplaintWords, rulebook: Rulebook) -> None:
    found = read(words, rulebook, "sticky curled leaves with little bugs and black soot", "apple").signs
    assert len(found) > 1
    assert [one.score for one in found] == sorted((one.score for one in found), reverse=True)


def test_no_is_a_word_that_counts() -> None:
    assert content("no fruit") != content("fruit")
