"""Actives, treatments and the model of a record as the rules folder holds them, and how faults in them are told."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.domain.label import LabelRecord, LabelSite
from service.domain.plain_label import without_amounts
from service.knowledge.active_file import read_actives
from service.knowledge.label import LabelKnowledge
from service.knowledge.label_model_file import read_label_model
from service.knowledge.treatment_file import Known, read_treatments
from service.reasoning.rulebook import Rulebook

CROPS, SOURCES = ("apple", "peach"), ("told", "seen")
ACTIVE = """\
actives:
  - iso_name: captan
    kinds: [fungicide]
    moa: {scheme: FRAC, code: "M04", source: told}
    home_status: sold for home use
    usual_days:
      - {days: [0, 7], source: told, crops: [apple]}
    sources: [told]
"""


@pytest.fixture(scope="module")
def label(rulebook: Rulebook) -> LabelKnowledge:
    """What the project knows."""
    return rulebook.catalogue.label


def told(folder: Path, file: str, text: str) -> str:
    path = folder / file
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    with pytest.raises(KnowledgeFault) as caught:
        read_all(folder)
    return str(caught.value)


def read_all(folder: Path) -> None:
    read_actives(folder, sources=SOURCES, crops=CROPS)
    read_label_model(folder, sources=SOURCES, crops=CROPS)
    read_treatments(folder, Known({}, {}, ("captan",), CROPS), sources=SOURCES)


def test_every_treatment_is_of_a_disorder_or_carries_a_name(label: LabelKnowledge, rulebook: Rulebook) -> None:
    assert len(label.treatments) == 73
    for treatment in label.treatments.values():
        assert (treatment.id in rulebook.catalogue.disorders) == (treatment.name is None)


def test_every_treatment_has_something_to_do_without_a_product(label: LabelKnowledge) -> None:
    assert [one.id for one in label.treatments.values() if not one.measures] == []


def test_where_products_are_pointed_to_some_active_was_rated_or_named(label: LabelKnowledge) -> None:
    pointed = [one for one in label.treatments.values() if one.pointer == "products"]
    assert len(pointed) > 50
    assert all(one.options for one in pointed)
    assert all(one.stages or one.any_stage for one in pointed)


def test_what_is_reported_is_regulated(label: LabelKnowledge) -> None:
    reported = {one.id for one in label.treatments.values() if one.pointer == "report"}
    assert reported == {one.id for one in label.treatments.values() if one.kind == "regulated"}
    assert {"plum_pox", "spotted_lanternfly", "asian_citrus_psyllid"} <= reported


def test_tables_that_differ_are_all_told(label: LabelKnowledge) -> None:
    scab = label.treatments["apple_scab"]
    assert scab.ratings("captan") == ("excellent", "good")
    assert scab.ratings("Bacillus subtilis strain QST 713") == ("not_rated",)
    assert scab.ratings("permethrin") == ()
    assert scab.actives()[0] == "myclobutanil"


def test_what_is_refused_is_never_sold_for_home_use(label: LabelKnowledge) -> None:
    refused = [one for one in label.actives.values() if one.refuse]
    assert len(refused) == 18
    assert all(one.home_status.startswith("not for home use") for one in refused)


def test_no_knowledge_of_treatments_says_how_much_is_used(label: LabelKnowledge) -> None:
    texts = [words for one in label.actives.values() for words in (*one.weather, one.rotation or "", one.home_status)]
    for one in label.treatments.values():
        texts += [each.text for each in one.do_not]
        texts += [words for each in one.options for words in (each.published, each.note or "")]
        texts += [one.timing.text] if one.timing else []
    assert len(texts) > 400
    assert [words for words in texts if without_amounts(words) != words] == []


def test_the_model_names_fields_that_a_record_has(label: LabelKnowledge) -> None:
    record = {field.name for field in fields(LabelRecord)} | {f"sites.{field.name}" for field in fields(LabelSite)}
    assert set(label.model.fields) <= record


def test_printed_names_are_read_as_crops_that_are_known(label: LabelKnowledge, rulebook: Rulebook) -> None:
    known = {*rulebook.catalogue.crops, *label.model.other_crops}
    for term in label.model.printed_crops.values():
        assert {*term.reads_as, *term.never} <= known
    assert label.model.printed_crops["cherry"].reads_as == ()
    assert label.model.crop("pear") == "european_pear"


def test_an_active_is_read_with_its_intervals(tmp_path: Path) -> None:
    (tmp_path / "actives.yaml").write_text(ACTIVE, encoding="utf-8")
    captan = read_actives(tmp_path, sources=SOURCES, crops=CROPS)["captan"]
    assert (captan.usual_intervals["apple"].max_days, captan.organic_eligible, captan.bee_class) == (7, None, None)


@pytest.mark.parametrize(
    ("wrong", "right", "says"),
    [
        ("kinds: [fungicid]", "kinds: [fungicide]", "did you mean “fungicide”"),
        ("kinds: []", "kinds: [fungicide]", "at least one of “kinds”"),
        ("days: [0]", "days: [0, 7]", "a list of two whole numbers"),
        ("crops: [appel]", "crops: [apple]", "did you mean “apple”"),
        ("source: nobody", "source: told", "is not one of"),
        ("farm_hour: 4", "home_status: sold for home use", "is not a known key"),
        ("refuse: banned", "home_status: sold for home use", "“banned” is not one of"),
    ],
)
def test_a_fault_in_an_active_names_its_line(wrong: str, right: str, says: str, tmp_path: Path) -> None:
    said = told(tmp_path, "actives.yaml", ACTIVE.replace(right, wrong, 1))
    assert says in said
    assert said.startswith("actives.yaml:")


def test_an_active_stands_once(tmp_path: Path) -> None:
    assert "stands twice" in told(tmp_path, "actives.yaml", ACTIVE + ACTIVE.split("\n", 1)[1])


def test_a_treatment_of_nothing_that_is_known_needs_a_name(tmp_path: Path) -> None:
    text = "treatments:\n  - {id: mystery, pointer: none, crops: [apple], sources: [told]}\n"
    assert "else give it a “name”" in told(tmp_path, "treatments/fungus.yaml", text)


def test_a_treatment_that_points_to_products_names_what_works(tmp_path: Path) -> None:
    text = "treatments:\n  - {id: mystery, name: Mystery, pointer: products, crops: [apple], sources: [told]}\n"
    assert "needs “options”" in told(tmp_path, "treatments/fungus.yaml", text)


def test_a_file_of_treatments_is_named_after_a_kind_of_cause(tmp_path: Path) -> None:
    assert "did you mean “fungus”" in told(tmp_path, "treatments/fungi.yaml", "treatments: []\n")


def test_a_pattern_that_is_none_is_told(tmp_path: Path) -> None:
    text = """\
labels:
  numbers:
    {section3: "[", distributor: a, sln_24c: a, establishment: a, not_registered: a, invented: a, sources: [told]}
  signal_words: {I: [DANGER], II: [WARNING], III: [CAUTION], IV: [none], sources: [told]}
"""
    assert "“[” is no pattern" in told(tmp_path, "labels.yaml", text)


def test_a_folder_without_the_files_knows_nothing(tmp_path: Path) -> None:
    assert read_actives(tmp_path, sources=(), crops=()) == {}
    assert read_label_model(tmp_path, sources=(), crops=()).fields == {}
