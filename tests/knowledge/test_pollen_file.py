"""rules/pollination.yaml: what it may say, and what it is told when it says it wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.domain.pollen import PollenKnowledge
from service.knowledge.pollen_file import read_pollen
from service.reasoning.rulebook import Rulebook

SOURCES, CROPS = {"chart"}, {"cherry", "plum"}
GOOD = """\
s_crops: {value: [cherry], sources: [chart]}
changed_alleles:
  - {crop: cherry, allele: "S4'", style_stops: S4, sources: [chart], from_memory: true}
donor_groups:
  - {crop: cherry, value: SC, sources: [chart]}
usual_partners:
  - {crop: cherry, value: [cherry], sources: [chart]}
"""


def read(folder: Path, text: str) -> PollenKnowledge:
    """What a folder with this file knows of pollen."""
    (folder / "pollination.yaml").write_text(text, encoding="utf-8")
    return read_pollen(folder, sources=SOURCES, crops=CROPS)


def test_everything_that_the_file_says_is_read(tmp_path: Path) -> None:
    known = read(tmp_path, GOOD)
    changed = known.changed["cherry", "S4'"]
    assert (changed.pollen_stopped_as, changed.style_stops, changed.from_memory) == (None, "S4", True)
    assert known.s_crops.value == ("cherry",)
    assert known.donor_groups["cherry", "SC"].sources == ("chart",)
    assert known.usual_partners["cherry"].value == ("cherry",)


def test_a_folder_without_the_file_knows_nothing_of_pollen(tmp_path: Path) -> None:
    assert read_pollen(tmp_path, sources=SOURCES, crops=CROPS) == PollenKnowledge()


@pytest.mark.parametrize(
    ("right", "wrong", "line", "says"),
    [
        ("s_crops: {value: [cherry]", "s_crop: {value: [cherry]", 1, "did you mean “s_crops”?"),
        ("value: [cherry], sources: [chart]}\nchanged", "value: [chery], sources: [chart]}\nchanged", 1, "“cherry”?"),
        ("- {crop: cherry, allele", "- {crop: plumm, allele", 3, "did you mean “plum”?"),
        ("style_stops: S4", "style_stop: S4", 3, "did you mean “style_stops”?"),
        ("style_stops: S4, sources: [chart]", "style_stops: S4, sources: [chard]", 3, "did you mean “chart”?"),
        ("style_stops: S4, sources: [chart]", "style_stops: S4", 3, "at least one id under “sources”"),
        ("crop: cherry, value: SC", "crop: pear, value: SC", 5, "not one of"),
        ("crop: cherry, value: [cherry]", "crop: cherry, value: [chery]", 7, "“cherry”?"),
    ],
)
def test_a_wrong_word_stops_the_start_with_its_line(
    tmp_path: Path, right: str, wrong: str, line: int, says: str
) -> None:
    assert right in GOOD
    with pytest.raises(KnowledgeFault) as caught:
        read(tmp_path, GOOD.replace(right, wrong, 1))
    assert (caught.value.file, caught.value.line) == ("pollination.yaml", line)
    assert says in caught.value.what


def test_nothing_may_stand_twice(tmp_path: Path) -> None:
    twice = GOOD + "  - {crop: cherry, value: [plum], sources: [chart]}\n"
    with pytest.raises(KnowledgeFault, match="stands twice"):
        read(tmp_path, twice)


def test_every_changed_allele_that_a_cultivar_carries_is_described(rulebook: Rulebook) -> None:
    catalogue = rulebook.catalogue
    carried = {
        (cultivar.crop, allele)
        for cultivar in catalogue.cultivars.values()
        if cultivar.s_genotype is not None and cultivar.s_genotype.value.notation == "numbered"
        for allele in cultivar.s_genotype.value.alleles
        if not allele.removeprefix("S").isdigit()
    }
    assert ("sweet_cherry", "S4'") in carried
    assert carried <= set(catalogue.pollen.changed)


def test_every_donor_group_has_members(rulebook: Rulebook) -> None:
    catalogue = rulebook.catalogue
    groups = {
        (cultivar.crop, cultivar.incompatibility_group.value)
        for cultivar in catalogue.cultivars.values()
        if cultivar.incompatibility_group is not None
    }
    assert set(catalogue.pollen.donor_groups) <= groups
