"""rules/climate.yaml and rules/frost.yaml: what a slip in them is told as."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from service.domain.climate_models import ClimateModels
from service.domain.errors import KnowledgeFault
from service.knowledge.climate import MODELS, read_climate
from service.knowledge.source_file import read_sources

RULES = Path(__file__).parents[2] / "rules"
SOURCES = frozenset(read_sources(RULES))


def changed(folder: Path, *, file: str, old: str, new: str) -> Path:
    """The two files in a folder of their own, one of them changed in one place."""
    for name in ("climate.yaml", "frost.yaml"):
        shutil.copy(RULES / name, folder / name)
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def models() -> ClimateModels:
    return read_climate(RULES, SOURCES)


def test_every_model_says_who_states_it_or_that_practice_does(models: ClimateModels) -> None:
    assert set(models.sources) == set(MODELS)
    unsourced = {name for name, cited in models.sources.items() if not cited}
    assert unsourced == {"frost", "seasons", "plausible"}


def test_what_is_recalled_is_marked(models: ClimateModels) -> None:
    recalled = {cited.ref for cited in models.sources["positive_utah"] if cited.from_memory}
    assert recalled == {"linsleynoakes1994"}
    assert models.bud_kill["tart_cherry"].stages[1].from_memory


def test_positive_utah_differs_from_utah_only_in_its_warm_classes(models: ClimateModels) -> None:
    assert models.positive_utah.edges_c == models.utah.edges_c
    assert models.positive_utah.units == tuple(max(0, unit) for unit in models.utah.units)


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        ("climate.yaml", "high_f: 45", "hihg_f: 45", "“hihg_f” is not a known key; did you mean “high_f”?"),
        ("climate.yaml", "  e0_k: 4153.5\n", "", "the number “e0_k” is missing"),
        ("climate.yaml", "slope: 1.6", 'slope: "1.6"', "“slope” must be a number"),
        ("climate.yaml", "ref: spencer1971", "ref: spenser1971", "did you mean “spencer1971”?"),
        ("climate.yaml", "up_to_c: 2.4", "up_to_c: 0.4", "edges rise"),
        ("climate.yaml", "  basis: common practice", "  basis: hearsay", "is not one of common practice"),
        ("climate.yaml", 'from: "11-01"', 'from: "13-01"', "there is no month 13"),
        ("climate.yaml", "[0.006918, ", "[", "a list of seven numbers"),
        ("climate.yaml", "latitude_from_deg: 0,", "latitude_from_deg: 5,", "must begin with latitude_from_deg: 0"),
        ("climate.yaml", "safe_chill:", "save_chill:", "did you mean “safe_chill”?"),
        ("frost.yaml", "kill_90_percent_f: 10,", "kill_90_percent_f: 19,", "at green_tip nine buds in ten die before"),
        ("frost.yaml", "kill_10_percent_f: 18,", "kill_10_percent_f: 14,", "stands more frost than silver_tip"),
        ("frost.yaml", "green_tip, kill_10_percent_f: 18,", "green_tip,", "“kill_10_percent_f” is missing"),
        ("frost.yaml", "older_standard_f", "older_f", "“older_f” is not a known key"),
    ],
)  # fmt: skip
def test_a_slip_stops_the_start_with_file_line_and_reason(
    tmp_path: Path, file: str, old: str, new: str, told: str
) -> None:
    folder = changed(tmp_path, file=file, old=old, new=new)
    with pytest.raises(KnowledgeFault) as found:
        read_climate(folder, SOURCES)
    assert found.value.file == file
    assert found.value.line > 1
    assert told in str(found.value)


def test_a_missing_model_is_named(tmp_path: Path) -> None:
    text = (RULES / "climate.yaml").read_text(encoding="utf-8")
    folder = changed(tmp_path, file="climate.yaml", old=text[text.index("plausible:") :], new="")
    with pytest.raises(KnowledgeFault, match="the model “plausible” is missing"):
        read_climate(folder, SOURCES)
