"""The catalogue: all reference knowledge of crops, cultivars and rootstocks, read once and frozen.

What one file says of another is checked here: pairs and offsets name cultivars that exist, partners name crops.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from service.domain.complaint import Complaint
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.cut import Cut
from service.domain.disorder import Disorder, SampleProtocol
from service.domain.errors import KnowledgeFault
from service.domain.pollen import PollenKnowledge
from service.domain.rootstock import Rootstock
from service.domain.season import SeasonKnowledge
from service.domain.sign import Sign
from service.domain.source import Source
from service.domain.training import TrainingForm
from service.domain.use_law import UseLaw
from service.knowledge import crop_file, cultivar_file
from service.knowledge.crop_file import read_crop
from service.knowledge.cultivar_file import read_cultivars
from service.knowledge.cut_file import read_cuts
from service.knowledge.diagnosis import DiagnosisKnowledge, read_diagnosis
from service.knowledge.disease_file import read_diseases
from service.knowledge.entry import Entry, nearest
from service.knowledge.label import LabelKnowledge, read_label_knowledge
from service.knowledge.pollen_file import read_pollen
from service.knowledge.rootstock_file import read_rootstocks
from service.knowledge.season_file import read_season
from service.knowledge.source_file import read_sources
from service.knowledge.spelling import plain
from service.knowledge.training_file import read_training
from service.knowledge.use_law_file import read_use_law

Named = TypeVar("Named", Crop, Cultivar, Rootstock)


@dataclass(frozen=True)
class Catalogue:
    """What is known of crops, cultivars, rootstocks, training forms, kinds of cut and sick trees, by id."""

    crops: Mapping[str, Crop]
    cultivars: Mapping[str, Cultivar]
    rootstocks: Mapping[str, Rootstock]
    sources: Mapping[str, Source]
    diseases: frozenset[str]
    training: Mapping[str, TrainingForm] = field(default_factory=dict)
    cuts: Mapping[str, Cut] = field(default_factory=dict)
    pollen: PollenKnowledge = field(default_factory=PollenKnowledge)
    diagnosis: DiagnosisKnowledge = field(default_factory=DiagnosisKnowledge)

    @property
    def signs(self) -> Mapping[str, Sign]:
        """The signs that a person can find on a sick tree."""
        return self.diagnosis.signs

    @property
    def disorders(self) -> Mapping[str, Disorder]:
        """What can be wrong with a tree."""
        return self.diagnosis.disorders

    @property
    def complaints(self) -> Mapping[str, Complaint]:
        """What customers bring to the counter."""
        return self.diagnosis.complaints

    @property
    def samples(self) -> Mapping[str, SampleProtocol]:
        """How samples are taken and packed."""
        return self.diagnosis.samples

    season: SeasonKnowledge = field(default_factory=SeasonKnowledge)
    label: LabelKnowledge = field(default_factory=LabelKnowledge)
    use_law: UseLaw = field(default_factory=UseLaw)

    def cultivars_of(self, crop: str) -> tuple[Cultivar, ...]:
        """The cultivars of a crop, by denomination."""
        return self._cultivars_by_crop.get(crop, ())

    def rootstocks_of(self, crop: str) -> tuple[Rootstock, ...]:
        """The rootstocks that carry a crop, in the order of the file."""
        return tuple(root for root in self.rootstocks.values() if crop in root.crops)

    @cached_property
    def _cultivars_by_crop(self) -> dict[str, tuple[Cultivar, ...]]:
        grouped: dict[str, list[Cultivar]] = {crop: [] for crop in self.crops}
        for cultivar in sorted(self.cultivars.values(), key=lambda each: plain(each.denomination)):
            grouped[cultivar.crop].append(cultivar)
        return {crop: tuple(cultivars) for crop, cultivars in grouped.items()}


def read_catalogue(folder: Path) -> Catalogue:
    """The catalogue that a rules folder holds; a KnowledgeFault names the file, the line and what is wrong."""
    sources, diseases = read_sources(folder), read_diseases(folder)
    crops = [read_crop(folder, name, sources=sources) for name in _names(folder, crop_file.FOLDER)]
    crop_ids = {crop.id for crop, _ in crops}
    cultivars = [
        read
        for name in _names(folder, cultivar_file.FOLDER, among=crop_ids)
        for read in read_cultivars(folder, name, sources=sources, diseases=diseases)
    ]
    rootstocks = read_rootstocks(folder, sources=sources, crops=crop_ids)
    diagnosis = read_diagnosis(folder, sources=sources, crops=crop_ids)
    catalogue = Catalogue(
        crops=_by_id(crops),
        cultivars=_by_id(cultivars),
        rootstocks=_by_id(rootstocks),
        sources=sources,
        diseases=frozenset(diseases),
        pollen=read_pollen(folder, sources=sources, crops=crop_ids),
        training=read_training(folder, sources=sources, crops=crop_ids),
        cuts=read_cuts(folder, sources=sources),
        diagnosis=diagnosis,
        season=read_season(folder, sources=sources, crops=crop_ids),
        label=read_label_knowledge(folder, diagnosis, sources=sources, crops=crop_ids),
        use_law=read_use_law(folder, sources=sources),
    )
    _check_denominations(cultivars)
    for crop, entry in crops:
        _check_crop(crop, entry, catalogue)
    for root, entry in rootstocks:
        _check_ids(entry, "incompatible_cultivars", root.incompatible_cultivars, catalogue.cultivars)
    return catalogue


def _names(folder: Path, kind: str, among: Iterable[str] | None = None) -> list[str]:
    names = sorted(path.stem for path in (folder / kind).glob("*.yaml"))
    for name in names:
        if among is not None and name not in among:
            raise KnowledgeFault(f"{kind}/{name}.yaml", 1, f"“{name}” is not a crop{nearest(name, set(among))}")
    return names


def _by_id(read: list[tuple[Named, Entry]]) -> Mapping[str, Named]:
    found: dict[str, Named] = {}
    for value, entry in read:
        if value.id in found:
            entry.fail(f"the id “{value.id}” stands twice", "id")
        found[value.id] = value
    return MappingProxyType(found)


def _check_denominations(cultivars: list[tuple[Cultivar, Entry]]) -> None:
    seen: dict[tuple[str, str], str] = {}
    for cultivar, entry in cultivars:
        for name in (cultivar.denomination, *cultivar.synonyms):
            first = seen.setdefault((cultivar.crop, plain(name)), cultivar.id)
            if first != cultivar.id:
                entry.fail(f"the name “{name}” belongs to {first} already", "denomination")


def _check_crop(crop: Crop, entry: Entry, catalogue: Catalogue) -> None:
    _check_ids(entry, "partner_crops", crop.partner_crops, catalogue.crops)
    _check_ids(entry, "not_partner_crops", crop.not_partner_crops, catalogue.crops)
    for key, pairs in (("incompatible_pairs", crop.incompatible_pairs), ("good_pairs", crop.good_pairs)):
        for pair in pairs:
            _check_ids(entry, key, pair, catalogue.cultivars)


def _check_ids(entry: Entry, key: str, named: object, known: Mapping[str, object]) -> None:
    for word in getattr(named, "value", ()):
        if word not in known:
            entry.fail(f"“{word}” is not in the catalogue{nearest(word, known)}", key)
