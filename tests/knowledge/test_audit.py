"""The audit counts what it says it counts."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from service.knowledge.audit import ASKED_FOR, audit, stated_values
from service.knowledge.catalogue import Catalogue, read_catalogue


def test_a_small_crop_is_counted_by_hand(small_folder: Callable[..., Path]) -> None:
    (medlar,) = audit(read_catalogue(small_folder()))
    assert (medlar.crop, medlar.cultivars) == ("medlar", 2)
    assert medlar.values == 13  # 5 of the crop, 7 of the first cultivar, 1 of the second
    assert (medlar.recalled, medlar.single_sourced, medlar.disputed) == (0, 13, 1)
    assert medlar.unknown["chill"] == 1
    assert medlar.unknown["ripening"] == 0
    assert medlar.crop_wide == ("self_fertility",)


def test_a_recalled_value_is_counted(small_folder: Callable[..., Path]) -> None:
    folder = small_folder("cultivars/medlar.yaml", ("warmest: 8,", "warmest: 8, from_memory: true,"))
    (medlar,) = audit(read_catalogue(folder))
    assert medlar.recalled == 1


def test_every_crop_of_the_catalogue_is_audited(catalogue: Catalogue) -> None:
    audits = {each.crop: each for each in audit(catalogue)}
    assert set(audits) == set(catalogue.crops)
    for crop, each in audits.items():
        assert set(each.unknown) == set(ASKED_FOR)
        assert each.values > 0
        assert each.recalled <= each.values
        assert all(count <= len(catalogue.cultivars_of(crop)) for count in each.unknown.values())


def test_values_are_found_wherever_a_thing_holds_them(catalogue: Catalogue) -> None:
    names = {name for name, _ in stated_values(catalogue.crops["apple"])}
    assert {"chill_hours", "spacing_ft", "species"} <= names
    assert "resistance" in {name for name, _ in stated_values(catalogue.cultivars["apple.gala"])}
