"""Stages, regions and tasks, as the files give them."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.knowledge.season_file import read_season
from service.reasoning.rulebook import Rulebook
from tests.published.weather_at_hand import models

STAGES = """\
stages:
  - crops: [peach]
    spans:
      - {stage: bloom, from_days: -3, to_days: 4, sources: [a-book]}
      - {stage: fruit_sizing, between: [bloom, harvest]}
regions:
  - id: valley
    name: {text: the valley, text_es: el valle}
    full_bloom:
      peach: ["02-20", "03-15"]
    sources: [a-book]
"""
TASKS = """\
tasks:
  - {id: pick, kind: harvest, what: {text: Pick, text_es: Cosechar}, sources: [a-book]}
"""


def read(folder: Path, stages: str = STAGES, tasks: str = TASKS) -> object:
    (folder / "stages.yaml").write_text(stages, encoding="utf-8")
    (folder / "tasks.yaml").write_text(tasks, encoding="utf-8")
    return read_season(folder, sources={"a-book"}, crops={"peach"})


def test_days_of_bloom_are_counted_through_the_season(tmp_path: Path) -> None:
    (tmp_path / "stages.yaml").write_text(STAGES, encoding="utf-8")
    (tmp_path / "tasks.yaml").write_text(TASKS, encoding="utf-8")
    season = read_season(tmp_path, sources={"a-book"}, crops={"peach"})
    assert season.regions["valley"].full_bloom == {"peach": (51, 74)}
    assert season.stages["peach"][1].between == ("bloom", "harvest")
    assert season.tasks["pick"].kind == "harvest"


def test_a_folder_without_the_files_knows_nothing_of_the_year(tmp_path: Path) -> None:
    assert read_season(tmp_path, sources=(), crops=()).stages == {}


@pytest.mark.parametrize(
    ("wrong", "instead", "sentence"),
    [
        ("from_days: -3, to_days: 4", "from_days: -3", "a stage needs “from_days” and “to_days”, or “between”"),
        (", sources: [a-book]}", "}", "days need at least one id under “sources”, or “basis: common practice”"),
        ("[bloom, harvest]", "[bloom]", "“between” names two stages and stands without days"),
        ("stage: bloom", "stage: blom", "“blom” is not one of"),
        ("crops: [peach]", "crops: [peech]", "“peech” is not known here; did you mean “peach”?"),
        ('["02-20", "03-15"]', '["02-20"]', "bloom needs a first and a last day"),
        ('"03-15"', '"02-31"', "month 2 has no day 31"),
    ],
)
def test_a_fault_in_the_stages_stops_the_reading(tmp_path: Path, wrong: str, instead: str, sentence: str) -> None:
    assert wrong in STAGES
    with pytest.raises(KnowledgeFault, match=r"stages\.yaml") as fault:
        read(tmp_path, STAGES.replace(wrong, instead, 1))
    assert sentence in str(fault.value)


def test_an_id_stands_once(tmp_path: Path) -> None:
    with pytest.raises(KnowledgeFault, match="“pick” stands twice"):
        read(tmp_path, tasks=TASKS + TASKS.split("\n", 1)[1])


def test_every_bud_stage_is_one_that_temperatures_are_published_for(rulebook: Rulebook) -> None:
    known = {stage.stage for buds in models().bud_kill.values() for stage in buds.stages}
    named = {bud for spans in rulebook.catalogue.season.stages.values() for span in spans for bud in span.bud_stages}
    assert named <= known
    for crop, buds in models().bud_kill.items():
        placed = {bud for span in rulebook.catalogue.season.stages[crop] for bud in span.bud_stages}
        assert {stage.stage for stage in buds.stages} - placed <= {"green_fruit"}, crop
