"""A small made-up rules folder, written anew for each test, and the catalogue of the real one, read once."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from service.knowledge.catalogue import Catalogue, read_catalogue

RULES = Path(__file__).parents[2] / "rules"
SMALL_FOLDER = {
    "sources.yaml": """\
sources:
  - {id: plain-book, title: A plain book, publisher: A press, year: 1999, confirmed: read}
  - {id: other-book, title: Another book, publisher: A press}
""",
    "diseases.yaml": "diseases: {brown_rot: brown rot, fire_blight: fire blight}\n",
    "rootstocks.yaml": """\
rootstocks:
  - id: strong_root
    name: Strong Root
    crops: [medlar]
    size_percent: {low: 90, high: 100, sources: [plain-book]}
    incompatible_cultivars: {value: [medlar.second], sources: [plain-book]}
""",
    "training.yaml": """\
forms:
  - id: open_bowl
    name: open bowl
    name_es: copa abierta
    suits: [{value: [medlar], sources: [plain-book]}]
    measures: {height_ft: {low: 6, high: 9, usual: 8, sources: [plain-book]}}
""",
    "crops/medlar.yaml": """\
id: medlar
name: medlar
name_es: níspero europeo
kind: pome
synonyms: [bletting fruit]
species: {value: Mespilus germanica, sources: [plain-book]}
self_fertility: {value: self_fertile, sources: [plain-book]}
partner_crops: {value: [medlar], sources: [plain-book]}
good_pairs:
  - {value: [medlar.first, medlar.second], sources: [plain-book]}
spacing_ft: {standard: {low: 12, high: 18, sources: [plain-book]}}
""",
    "cultivars/medlar.yaml": """\
crop: medlar
cultivars:
  - id: medlar.first
    denomination: First
    synonyms: [Old First]
    chill_hours: {low: 400, high: 500, model: hours_below_45f, sources: [plain-book]}
    hardiness_zone: {coldest: 5, warmest: 8, sources: [plain-book]}
    s_genotype: {alleles: [S3, "S4'"], sources: [plain-book]}
    bloom: {value: mid, sources: [plain-book], others: [{value: late, sources: [other-book], from_memory: true}]}
    harvest: {from: 10-11, to: 10-20, place: a garden, as_stated: mid October, sources: [plain-book]}
    uses: {value: [fresh, preserves], sources: [plain-book]}
    resistance: {fire_blight: {value: resistant, sources: [plain-book]}}
  - id: medlar.second
    denomination: Second
    ripening_offset: {days: -3, reference: medlar.first, sources: [plain-book]}
""",
}

Rewrite = Callable[..., Path]


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The catalogue of the project's own rules."""
    return read_catalogue(RULES)


@pytest.fixture
def small_folder(tmp_path: Path) -> Rewrite:
    """Writes the small folder; keyword `change` replaces one text by another in one file."""

    def write(file: str | None = None, change: tuple[str, str] = ("", "")) -> Path:
        for name, text in SMALL_FOLDER.items():
            path = tmp_path / name
            path.parent.mkdir(exist_ok=True)
            assert name != file or change[0] in text, f"{change[0]!r} is not in {name}"
            path.write_text(text.replace(*change) if name == file else text, encoding="utf-8")
        return tmp_path

    return write
