"""rules/disorders/<kind>.yaml: what can be wrong with a tree, a file for each kind of cause."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.disorder import (
    DISORDER_KINDS,
    HOST_LEVELS,
    REGULATED_STATUSES,
    STAGES,
    URGENCIES,
    Disorder,
    DisorderKind,
    HostLevel,
    RegulatedStatus,
    Stage,
    Urgency,
)
from service.domain.errors import KnowledgeFault
from service.knowledge.entry import Entry, nearest, read_file
from service.knowledge.listed import cited_sources
from service.knowledge.wording import wording

FOLDER = "disorders"
_WEIGHTS = ("typical", "sometimes", "rules_out")
RECALLED = ("hosts", "confused_on", "stages", "signs", "favoured_by", "measures")
_KEYS = (
    "id", "name", "name_es", "scientific_names", "hosts", "uncertain_hosts", "confused_on", "stages", "signs",
    "favoured_by", "urgency", "regulated", "do_not_move", "sample", "bring", "measures", "sources", "from_memory",
    "recalled",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Words:
    """The ids that a disorder may name."""

    crops: Collection[str]
    signs: Collection[str]
    samples: Collection[str]
    conditions: Collection[str]
    measures: Collection[str]


def read_disorders(folder: Path, words: Words, *, sources: Collection[str]) -> list[tuple[Disorder, Entry]]:
    """The disorders of all files, each with its entry so that later checks can name the line."""
    read = []
    for path in sorted((folder / FOLDER).glob("*.yaml")):
        shown = f"{FOLDER}/{path.name}"
        if path.stem not in DISORDER_KINDS:
            near = nearest(path.stem, DISORDER_KINDS)
            raise KnowledgeFault(shown, 1, f"“{path.stem}” is not a kind of cause{near}")
        file = read_file(folder, shown, sources)
        file.known((FOLDER,))
        read += [(_disorder(entry, path.stem, words), entry) for entry in file.each(FOLDER)]
    return read


def _disorder(entry: Entry, kind: DisorderKind, words: Words) -> Disorder:
    entry.name = entry.text("id")
    entry.known(_KEYS)
    hosts, uncertain = _hosts(entry, words.crops), entry.texts("uncertain_hosts", words.crops)
    confused = _confused(entry, words.crops)
    for crop in (*uncertain, *confused):
        if crop in hosts or (crop in uncertain and crop in confused):
            entry.fail(f"“{crop}” stands both among the hosts and elsewhere", "hosts")
    typical, sometimes, rules_out = _signs(entry, words.signs)
    return Disorder(
        id=entry.name,
        name=entry.text("name"),
        name_es=entry.text("name_es"),
        kind=kind,
        scientific_names=entry.texts("scientific_names"),
        hosts=hosts,
        uncertain_hosts=uncertain,
        confused_on=confused,
        stages=cast(tuple[Stage, ...], entry.texts("stages", STAGES)),
        typical=typical,
        sometimes=sometimes,
        rules_out=rules_out,
        favoured_by=entry.texts("favoured_by", words.conditions),
        urgency=cast(Urgency, entry.choice("urgency", URGENCIES)),
        regulated=cast(RegulatedStatus, entry.choice("regulated", REGULATED_STATUSES)),
        do_not_move=entry.flag("do_not_move"),
        sample=entry.choice("sample", words.samples),
        bring=wording(entry, "bring"),
        measures=entry.texts("measures", words.measures),
        sources=cited_sources(entry),
        from_memory=entry.flag("from_memory"),
        recalled=entry.texts("recalled", RECALLED),
    )


def _hosts(entry: Entry, crops: Collection[str]) -> Mapping[str, HostLevel]:
    table = entry.inner("hosts")
    if table is None:
        entry.fail("the key “hosts” is missing")
    table.known(HOST_LEVELS)
    hosts: dict[str, HostLevel] = {}
    for level in HOST_LEVELS:
        for crop in table.texts(level, crops):
            if crop in hosts:
                table.fail(f"“{crop}” has two levels", level)
            hosts[crop] = level
    return MappingProxyType(hosts)


def _confused(entry: Entry, crops: Collection[str]) -> Mapping[str, tuple[str, ...]]:
    confused: dict[str, tuple[str, ...]] = {}
    for row in entry.each("confused_on"):
        row.known(("crops", "look_for"))
        for crop in row.texts("crops", crops):
            if crop in confused:
                row.fail(f"“{crop}” stands twice", "crops")
            confused[crop] = row.texts("look_for")
    return MappingProxyType(confused)


def _signs(entry: Entry, known: Collection[str]) -> tuple[tuple[str, ...], ...]:
    table = entry.inner("signs")
    if table is None:
        entry.fail("the key “signs” is missing")
    table.known(_WEIGHTS)
    weighed = tuple(table.texts(weight, known) for weight in _WEIGHTS)
    if not weighed[0]:
        table.fail("a disorder needs at least one typical sign")
    named = [sign for signs in weighed for sign in signs]
    for sign in named:
        if named.count(sign) > 1:
            table.fail(f"“{sign}” stands twice")
    return weighed
