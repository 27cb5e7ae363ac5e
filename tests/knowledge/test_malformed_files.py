"""A malformed file stops the start: the fault names the file, the line, the entry and what to write instead."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from service.domain.errors import KnowledgeFault
from service.knowledge.catalogue import read_catalogue

Write = Callable[..., Path]
CULTIVARS, CROP, ROOTS = "cultivars/medlar.yaml", "crops/medlar.yaml", "rootstocks.yaml"


class Case(NamedTuple):
    file: str
    old: str
    new: str
    line: int
    says: str


CASES = {
    "an unknown key": Case(CULTIVARS, "bloom:", "bloem:", 9, "“bloem” is not a known key; did you mean “bloom”?"),
    "an unknown key of a value": Case(CULTIVARS, "from_memory: true", "from_memry: true", 9, "“from_memory”"),
    "a word outside its set": Case(CULTIVARS, "value: mid", "value: midd", 9, "“midd” is not one of .*“mid”"),
    "a text where a number belongs": Case(CULTIVARS, "low: 400", "low: many", 6, "“low” must be a number, not 'many'"),
    "a number where a text belongs": Case(CULTIVARS, "denomination: First", "denomination: 1", 4, "must be text"),
    "a value where a mapping belongs": Case(CULTIVARS, "uses: {value: [fresh, preserves], sources: [plain-book]}",
                                            "uses: fresh", 11, "“uses” must be a mapping"),
    "a value where a list belongs": Case(CULTIVARS, "[Old First]", "Old First", 5, "“synonyms” must be a list"),
    "an empty key": Case(CULTIVARS, "synonyms: [Old First]", "synonyms:", 5, "leave the key out"),
    "a missing denomination": Case(CULTIVARS, "    denomination: Second\n", "", 13, "“denomination” is missing"),
    "an unknown source": Case(CULTIVARS, "[fresh, preserves], sources: [plain-book]",
                              "[fresh, preserves], sources: [plain-bok]", 11, "did you mean “plain-book”?"),
    "a value without a source": Case(CULTIVARS, "value: [fresh, preserves], sources: [plain-book]",
                                     "value: [fresh, preserves]", 11, "at least one id under “sources”"),
    "an unknown use": Case(CULTIVARS, "preserves]", "preservs]", 11, "did you mean “preserves”?"),
    "an unknown disease": Case(CULTIVARS, "fire_blight:", "fireblight:", 12, "did you mean “fire_blight”?"),
    "a range that runs backwards": Case(CULTIVARS, "low: 400", "low: 600", 6, "from low to high"),
    "a value and a range at once": Case(CULTIVARS, "low: 400", "value: 400", 6, "not both"),
    "a zone that is none": Case(CULTIVARS, "coldest: 5", "coldest: cold", 7, "is not a hardiness zone"),
    "an allele that is none": Case(CULTIVARS, "[S3,", "[3S,", 8, "is not an S-allele"),
    "a day that is none": Case(CULTIVARS, "to: 10-20", "to: 10-32", 10, "month 10 has no day 32"),
    "a harvest that runs backwards": Case(CULTIVARS, "to: 10-20", "to: 10-01", 10, "within one year"),
    "an id of another crop": Case(CULTIVARS, "id: medlar.first", "id: quince.first", 3, "must read medlar."),
    "an id with capitals": Case(CULTIVARS, "id: medlar.first", "id: medlar.First", 3, "small letters"),
    "an id that stands twice": Case(CULTIVARS, "id: medlar.second", "id: medlar.first", 13, "stands twice"),
    "a denomination that stands twice": Case(CULTIVARS, "denomination: Second", "denomination: FIRST", 14,
                                             "belongs to medlar.first already"),
    "a synonym that is another's name": Case(CULTIVARS, "[Old First]", "[Second]", 14, "belongs to medlar.first"),
    "a file of the wrong crop": Case(CULTIVARS, "crop: medlar", "crop: quince", 1, "must say “crop: medlar”"),
    "a chill need without its model": Case(CULTIVARS, ", model: hours_below_45f", "", 6, "“model” is missing"),
    "a key that stands twice": Case(CULTIVARS, "    denomination: Second\n",
                                    "    denomination: Second\n    denomination: Third\n", 15, "stands twice"),
    "an offset without days": Case(CULTIVARS, "days: -3, ", "", 15, "“days” is missing"),
    "a pair that names a stranger": Case(CROP, "[medlar.first, medlar.second]", "[medlar.first, medlar.secnd]", 9,
                                         "“medlar.secnd” is not in the catalogue; did you mean “medlar.second”?"),
    "a pair of three": Case(CROP, "medlar.second]", "medlar.second, medlar.first]", 10, "a pair names two cultivars"),
    "a partner crop that is none": Case(CROP, "partner_crops: {value: [medlar]", "partner_crops: {value: [medler]", 8,
                                        "did you mean “medlar”?"),
    "a crop of an unknown kind": Case(CROP, "kind: pome", "kind: pomme", 4, "did you mean “pome”?"),
    "a tree size that is none": Case(CROP, "standard:", "standart:", 11, "did you mean “standard”?"),
    "a rootstock of an unknown crop": Case(ROOTS, "crops: [medlar]", "crops: [medler]", 4, "did you mean “medlar”?"),
    "a rootstock that fails on a stranger": Case(ROOTS, "[medlar.second]", "[medlar.third]", 6, "not in the catalogue"),
    "a rootstock without a crop": Case(ROOTS, "    crops: [medlar]\n", "", 2, "at least one crop"),
    "a source that stands twice": Case("sources.yaml", "id: other-book", "id: plain-book", 3, "stands twice"),
    "a source without a title": Case("sources.yaml", "title: Another book, ", "", 3, "“title” is missing"),
    "a year that is text": Case("sources.yaml", "year: 1999", "year: lately", 2, "must be a whole number"),
    "a usual figure outside its range": Case("training.yaml", "usual: 8", "usual: 12", 6, "between “low” and “high”"),
    "a form for an unknown crop": Case("training.yaml", "[medlar]", "[medler]", 5, "did you mean “medlar”?"),
    "a file that is a list": Case("diseases.yaml", "diseases: {brown_rot: brown rot, fire_blight: fire blight}",
                                  "[brown_rot]", 1, "must hold a mapping"),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_fault_names_the_file_the_line_and_the_reason(small_folder: Write, case: Case) -> None:
    folder = small_folder(case.file, (case.old, case.new))
    with pytest.raises(KnowledgeFault) as raised:
        read_catalogue(folder)
    fault = raised.value
    assert (fault.file, fault.line) == (case.file, case.line)
    assert re.search(case.says, fault.what), fault.what


def test_a_fault_in_a_cultivar_names_the_cultivar(small_folder: Write) -> None:
    with pytest.raises(KnowledgeFault, match=r"cultivars/medlar.yaml:9: medlar.first: “bloem”"):
        read_catalogue(small_folder(CULTIVARS, ("bloom:", "bloem:")))


def test_cultivars_of_a_crop_that_has_no_file_are_refused(small_folder: Write) -> None:
    folder = small_folder()
    (folder / "cultivars/medler.yaml").write_text("crop: medler\ncultivars: []\n")
    with pytest.raises(KnowledgeFault, match=r"“medler” is not a crop; did you mean “medlar”\?"):
        read_catalogue(folder)


def test_a_missing_file_is_named(small_folder: Write) -> None:
    folder = small_folder()
    (folder / ROOTS).unlink()
    with pytest.raises(KnowledgeFault, match=r"rootstocks.yaml:1: the file cannot be read"):
        read_catalogue(folder)
