"""The climate of a store is read from its file, and what cannot be is refused with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.intake.store_climate import read_store_climate
from service.settings import CHECKOUT

HEAD = "name: our own ground\ninvented: false\n"


def written(folder: Path, rest: str) -> Path:
    file = folder / "climate.yaml"
    file.write_text(HEAD + rest, encoding="utf-8")
    return file


def test_the_invented_climate_says_that_it_is_invented() -> None:
    climate = read_store_climate(CHECKOUT / "rules" / "demo" / "climate.yaml")
    assert climate.invented
    assert "invented" in climate.name


def test_nine_winters_in_ten_of_the_invented_climate_exceed_its_chill() -> None:
    climate = read_store_climate(CHECKOUT / "rules" / "demo" / "climate.yaml")
    for count in ("chill_hours", "chill_portions"):
        below = [one for one in climate.winters if getattr(one, count) < climate.facts[count]]
        assert len(below) * 10 <= len(climate.winters)


def test_a_climate_without_winters_is_read(tmp_path: Path) -> None:
    climate = read_store_climate(written(tmp_path, "facts: {hardiness_zone: 7b, last_spring_frost: 04-10}\n"))
    assert (climate.name, climate.facts["hardiness_zone"], climate.winters) == ("our own ground", "7b", ())


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ("  hardiness_zone: warm", "climate.yaml:4: “warm” is not a hardiness zone"),
        ("  zone: 7b", "climate.yaml:4: 'zone' is none of hardiness_zone, chill_hours"),
        ("  summer: wet", "“wet” is not one of dry, humid"),
        ("  chill_hours: -3", "-3 is below zero"),
    ],
)
def test_what_cannot_be_is_refused_with_its_line(tmp_path: Path, facts: str, said: str) -> None:
    with pytest.raises(KnowledgeFault) as caught:
        read_store_climate(written(tmp_path, f"facts:\n{facts}\n"))
    assert said in str(caught.value)
