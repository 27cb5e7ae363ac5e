"""The rulebook: everything under rules/ read, checked, frozen and hashed once, at the start.

A store may lay a folder of its own over ours (see overlay.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from service.domain.errors import KnowledgeFault
from service.domain.source import Source
from service.domain.units import UNITS
from service.knowledge.catalogue import Catalogue, read_catalogue
from service.reasoning.cautions import Caution, read_cautions
from service.reasoning.faults import Faults
from service.reasoning.known import Known
from service.reasoning.limits import Limit, LimitReader
from service.reasoning.overlay import lay_over, overlay_limits, refuse_strangers
from service.reasoning.rule import Rule, Wording
from service.reasoning.rule_file import read_rules
from service.reasoning.shelf import LANGUAGES, Retired, digest_of, read_retired, read_wording
from service.reasoning.strata import stratify
from service.reasoning.vocabulary import Vocabulary, read_vocabulary, unknown_ruleset

NO_RULES_IN = frozenset({"crops", "cultivars", "disorders", "retired", "text", "demo", "treatments"})


@dataclass(frozen=True, slots=True, eq=False)
class Rulebook:
    """Everything that the service knows, and what follows from it."""

    catalogue: Catalogue
    vocabulary: Vocabulary
    limits: Mapping[str, Limit]
    cautions: Mapping[str, Caution]
    rules: Mapping[str, Rule]
    rulesets: Mapping[str, tuple[Rule, ...]]
    retired: Mapping[str, Retired]
    wording: Mapping[str, Mapping[str, Wording]]
    digest: str

    @property
    def sources(self) -> Mapping[str, Source]:
        """The sources that rules, limits and knowledge cite, by id."""
        return self.catalogue.sources


def load_rulebook(folder: Path, *, overlay: Path | None = None) -> Rulebook:
    """The rulebook of a folder, with a store's own folder laid over it.

    Raises KnowledgeFault; where several rules are at fault, it is a RulebookFaults that holds all of them.
    """
    return assemble(folder, read_catalogue(folder), overlay=overlay)


def choices_of(catalogue: Catalogue) -> Mapping[str, frozenset[str]]:
    """The sets of ids that `values: {from: …}` may name."""
    return {
        "crops": frozenset(catalogue.crops),
        "cultivars": frozenset(catalogue.cultivars),
        "rootstocks": frozenset(catalogue.rootstocks),
        "diseases": frozenset(catalogue.diseases),
        "cuts": frozenset(catalogue.cuts),
        "signs": frozenset(catalogue.signs),
        "disorders": frozenset(catalogue.disorders),
        "complaints": frozenset(catalogue.complaints),
        "tasks": frozenset(catalogue.season.tasks),
        "regions": frozenset(catalogue.season.regions),
        "treated_crops": frozenset(catalogue.crops).union(catalogue.label.model.other_crops),
        "treated_causes": frozenset(catalogue.disorders) | catalogue.label.other_pests,
    }


def assemble(folder: Path, catalogue: Catalogue, *, overlay: Path | None = None) -> Rulebook:
    """The rulebook of a folder, around a catalogue that is read already."""
    folders = [folder] if overlay is None else [folder, overlay]
    vocabulary = read_vocabulary(folder / "vocabulary.yaml", root=folder, choices=choices_of(catalogue))
    faults = Faults()
    known = _known(folders, vocabulary, sources=frozenset(catalogue.sources), faults=faults)
    retired = read_retired(folder / "retired", root=folder)
    ours = _rules_below(folder, known=known, faults=faults)
    theirs = _rules_below(overlay, known=known, faults=faults) if overlay else []
    _refuse_reused_ids((ours, theirs), retired, faults=faults)
    rules = lay_over(ours, theirs, faults=faults)
    faults.stop_if_any()  # who concludes what is told only from rules that all could be read
    rulesets = _rulesets(rules, faults=faults)
    by_id = {rule.id: rule for ruleset in rulesets.values() for rule in ruleset}
    faults.stop_if_any()
    return Rulebook(
        catalogue=catalogue,
        vocabulary=vocabulary,
        limits=MappingProxyType(dict(known.limits)),
        cautions=MappingProxyType(dict(known.cautions)),
        rules=MappingProxyType(by_id),
        rulesets=MappingProxyType(rulesets),
        retired=MappingProxyType(dict(retired)),
        wording=MappingProxyType({language: _wording(folders, language, by_id) for language in LANGUAGES}),
        digest=digest_of(folders),
    )


def _known(folders: Sequence[Path], vocabulary: Vocabulary, *, sources: frozenset[str], faults: Faults) -> Known:
    folder = folders[0]
    reader = LimitReader(UNITS, sources)
    limits = reader.read(folder / "limits.yaml", root=folder, faults=faults)
    cautions = read_cautions(folder / "cautions.yaml", root=folder, sources=sources)
    for overlay in folders[1:]:
        refuse_strangers(overlay, faults=faults)
        theirs = reader.read(overlay / "limits.yaml", root=overlay, faults=faults)
        limits = overlay_limits(limits, theirs, faults=faults)
    return Known(vocabulary, limits, sources, cautions)


def _rules_below(folder: Path, *, known: Known, faults: Faults) -> list[Rule]:
    rules: list[Rule] = []
    for path in sorted(folder.rglob("*.y*ml")):
        parts = path.relative_to(folder).parts
        if len(parts) == 1 or parts[0] in NO_RULES_IN or any(part.startswith(".") for part in parts):
            continue
        shown, ruleset = "/".join((folder.name, *parts)), ".".join(parts[:-1])
        if path.suffix != ".yaml":
            faults.add(KnowledgeFault(shown, 1, "rule files end in .yaml; rename it"))
        elif ruleset not in known.vocabulary.rulesets:
            faults.add(unknown_ruleset(ruleset, file=shown, vocabulary=known.vocabulary))
        else:
            with faults.kept():
                rules.extend(read_rules(path, root=folder, ruleset=ruleset, known=known))
    return rules


def _refuse_reused_ids(shelves: Iterable[list[Rule]], retired: Mapping[str, Retired], *, faults: Faults) -> None:
    for shelf in shelves:
        seen: dict[str, Rule] = {}
        for rule in shelf:
            if rule.id in retired:
                faults.add(_at(rule, "the id is retired (see retired/); an id is never used twice, so choose another"))
            if rule.id in seen:
                first = seen[rule.id]
                faults.add(_at(rule, f"the id stands twice (first in {first.file}:{first.line}); choose another"))
            seen.setdefault(rule.id, rule)


def _rulesets(rules: Iterable[Rule], *, faults: Faults) -> dict[str, tuple[Rule, ...]]:
    grouped: dict[str, list[Rule]] = {}
    for rule in rules:
        grouped.setdefault(rule.ruleset, []).append(rule)
    ordered: dict[str, tuple[Rule, ...]] = {}
    for name in sorted(grouped):
        with faults.kept():
            ordered[name] = stratify(grouped[name])
    return ordered


def _wording(folders: Sequence[Path], language: str, rules: Mapping[str, Rule]) -> Mapping[str, Wording]:
    wording: dict[str, Wording] = {}
    for folder in folders:
        wording.update(read_wording(folder / "text" / f"{language}.yaml", root=folder, rules=rules))
    return MappingProxyType(wording)


def _at(rule: Rule, what: str) -> KnowledgeFault:
    return KnowledgeFault(rule.file, rule.line, what, entry=rule.id)
