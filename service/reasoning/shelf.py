"""What stands beside the rules in the folder: retired ids, wording in other languages, and the digest of it all."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from service.reasoning.entry import Entry, named_entries, read_entry
from service.reasoning.faults import Faults
from service.reasoning.known import names_in, refuse_braces
from service.reasoning.rule import Rule, Wording
from service.reasoning.words import instead

LANGUAGES = ("es",)
_NOT_IN_DIGEST = "demo"


@dataclass(frozen=True, slots=True)
class Retired:
    """A rule that is no longer used; its id is never used again."""

    id: str
    title: str
    reason: str
    since: date
    replaced_by: str | None = None


def read_retired(folder: Path, *, root: Path) -> Mapping[str, Retired]:
    """All retired rules of a folder, by id."""
    faults, retired = Faults(), dict[str, Retired]()
    for path in sorted(folder.glob("*.yaml")):
        for entry in named_entries(read_entry(path, root=root), "retired"):
            with faults.kept():
                if entry.name in retired:
                    raise entry.fault("this id is retired already; one entry is enough")
                retired[str(entry.name)] = _retired(entry)
    faults.stop_if_any()
    return retired


def _retired(entry: Entry) -> Retired:
    entry.only("title", "reason", "since", "replaced_by")
    return Retired(
        id=str(entry.name),
        title=entry.text("title"),
        reason=entry.text("reason"),
        since=entry.date("since"),
        replaced_by=entry.text("replaced_by") if "replaced_by" in entry else None,
    )


def read_wording(path: Path, *, root: Path, rules: Mapping[str, Rule]) -> Mapping[str, Wording]:
    """The wording of one language by rule id; a file that is not there holds none."""
    if not path.exists():
        return {}
    faults, wording = Faults(), dict[str, Wording]()
    for entry in named_entries(read_entry(path, root=root), "text"):
        with faults.kept():
            wording[str(entry.name)] = _wording(entry, rules)
    faults.stop_if_any()
    return wording


def _wording(entry: Entry, rules: Mapping[str, Rule]) -> Wording:
    entry.only("say", "why")
    name = str(entry.name)
    if name not in rules:
        raise entry.fault(f"there is no rule '{name}'{instead(name, rules)}")
    given, wanted = set(names_in(entry, "say")), set(rules[name].placeholders)
    if given != wanted:
        wrong = ", ".join(f"{{{word}}}" for word in sorted(given ^ wanted))
        raise entry.fault(f"the sentence must carry the placeholders of the rule; see to {wrong}", key="say")
    return Wording(entry.text("say"), refuse_braces(entry, "why") if "why" in entry else None)


def digest_of(folders: Iterable[Path]) -> str:
    """SHA-256 over the names and bytes of all files below the folders, except demo/ and hidden ones."""
    total = hashlib.sha256()
    for place, folder in enumerate(folders):
        files = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*") if path.is_file()}
        for name in sorted(name for name in files if _counts(name)):
            content = files[name].read_bytes()
            total.update(f"{place}/{name}\0{len(content)}\0".encode() + content)
    return total.hexdigest()


def _counts(name: str) -> bool:
    parts = name.split("/")
    return parts[0] != _NOT_IN_DIGEST and not any(part.startswith((".", "__")) for part in parts)
