"""The invented store sells trees that exist, and keeps no person's name."""

from __future__ import annotations

from pathlib import Path

from service.knowledge import strict_yaml
from service.knowledge.catalogue import Catalogue

DEMO = strict_yaml.read(Path(__file__).parents[2] / "rules/demo/store.yaml")


def test_the_store_says_that_it_is_invented() -> None:
    assert DEMO["store"]["invented"] is True
    assert "invented" in DEMO["store"]["name"]


def test_every_tree_on_sale_is_in_the_catalogue(catalogue: Catalogue) -> None:
    assert {item["cultivar"] for item in DEMO["stock"]} <= set(catalogue.cultivars)


def test_every_tree_stands_on_a_root_that_carries_its_crop(catalogue: Catalogue) -> None:
    for item in DEMO["stock"]:
        crop = catalogue.cultivars[item["cultivar"]].crop
        if "rootstock" in item:
            root = catalogue.rootstocks[item["rootstock"]]
            failing = root.incompatible_cultivars.value if root.incompatible_cultivars else ()
            assert crop in root.crops, item
            assert item["cultivar"] not in failing, item


def test_each_record_has_an_id_of_its_own() -> None:
    ids = [record["id"] for kind in ("sites", "stock") for record in DEMO[kind]]
    assert len(set(ids)) == len(ids)
