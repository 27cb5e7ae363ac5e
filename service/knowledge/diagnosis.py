"""All that a diagnosis leans on: signs, disorders with their look-alikes, complaints, samples, conditions, measures."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

from service.domain.complaint import Complaint
from service.domain.disorder import Condition, Disorder, Measure, SampleProtocol
from service.domain.infection import InfectionConditions
from service.domain.insect_clock import InsectClock
from service.domain.sign import Sign
from service.knowledge.care_files import read_conditions, read_measures, read_samples
from service.knowledge.complaint_file import read_complaints
from service.knowledge.disorder_file import Words, read_disorders
from service.knowledge.entry import Entry
from service.knowledge.infection_file import read_infection
from service.knowledge.insect_clock_file import read_insect_clocks
from service.knowledge.look_alike_file import check_instead, with_look_alikes
from service.knowledge.sign_file import read_signs


@dataclass(frozen=True)
class DiagnosisKnowledge:
    """What is known of sick trees, by id."""

    signs: Mapping[str, Sign] = field(default_factory=dict)
    disorders: Mapping[str, Disorder] = field(default_factory=dict)
    complaints: Mapping[str, Complaint] = field(default_factory=dict)
    samples: Mapping[str, SampleProtocol] = field(default_factory=dict)
    conditions: Mapping[str, Condition] = field(default_factory=dict)
    measures: Mapping[str, Measure] = field(default_factory=dict)
    infection: Mapping[str, InfectionConditions] = field(default_factory=dict)
    insect_clocks: Mapping[str, InsectClock] = field(default_factory=dict)


def read_diagnosis(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> DiagnosisKnowledge:
    """The knowledge that a rules folder holds; what a folder does not have is empty."""
    signs, samples = read_signs(folder), read_samples(folder, sources=sources)
    conditions, measures = read_conditions(folder), read_measures(folder)
    read = _by_id(read_disorders(folder, Words(crops, signs, samples, conditions, measures), sources=sources))
    check_instead(read)
    disorders = with_look_alikes(folder, {name: disorder for name, (disorder, _) in read.items()})
    return DiagnosisKnowledge(
        signs=signs,
        disorders=MappingProxyType(disorders),
        complaints=read_complaints(folder, disorders, words=(crops, signs), sources=sources),
        samples=samples,
        conditions=conditions,
        measures=measures,
        infection=read_infection(folder, sources=sources, disorders=disorders),
        insect_clocks=read_insect_clocks(folder, sources=sources, disorders=disorders),
    )


def _by_id(read: list[tuple[Disorder, Entry]]) -> dict[str, tuple[Disorder, Entry]]:
    found: dict[str, tuple[Disorder, Entry]] = {}
    for disorder, entry in read:
        if disorder.id in found:
            entry.fail(f"the id “{disorder.id}” stands twice", "id")
        found[disorder.id] = (disorder, entry)
    return found
