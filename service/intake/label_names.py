"""The names in a label record: crops, pests and active ingredients become ids, and what is not found is told.

A near miss is offered and never assumed, for a record that reads the label wrongly is worse than none.
"""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping
from typing import Any

from service.knowledge.catalogue import Catalogue
from service.knowledge.entry import nearest
from service.knowledge.names import NameBook
from service.knowledge.spelling import plain

ANY = "any"


class LabelNames:
    """Settles the names of one record; `faults` gathers pointers and sentences."""

    def __init__(self, book: NameBook, catalogue: Catalogue, *, like: LabelNames | None = None) -> None:
        self._book, self._catalogue = book, catalogue
        actives = catalogue.label.actives
        self._actives: dict[str, str] = like._actives if like else {plain(name): name for name in actives}
        self._pests: dict[str, str] = like._pests if like else _spelled_pests(catalogue)
        self.faults: list[tuple[str, str]] = []

    def for_another(self) -> LabelNames:
        """The same names for another record, without faults."""
        return LabelNames(self._book, self._catalogue, like=self)

    def settle(self, record: MutableMapping[str, Any]) -> MutableMapping[str, Any]:
        """The plain values of a record with ids in the place of names; a name that is missing is left to the schema."""
        for place, active in enumerate(record.get("active_ingredients") or ()):
            if active.get("iso_name") is not None:
                active["iso_name"] = self._active(f"/active_ingredients/{place}/iso_name", active["iso_name"])
        for place, site in enumerate(record.get("sites") or ()):
            for key, find in (("crops", self._crop), ("pests", self._pest)):
                if site.get(key) is not None:
                    at = f"/sites/{place}/{key}"
                    found = [find(f"{at}/{number}", name) for number, name in enumerate(site[key])]
                    site[key] = list(dict.fromkeys(found))
        self._settle_neighbours(record.get("compatibility") or {})
        for place, note in enumerate(record.get("phytotoxicity") or ()):
            if note.get("crop") not in (None, ANY):
                note["crop"] = self._crop(f"/phytotoxicity/{place}/crop", note["crop"])
        return record

    def _settle_neighbours(self, compatibility: Mapping[str, Any]) -> None:
        mixes = compatibility.get("prohibited_mixes") or []
        for place, name in enumerate(mixes):
            mixes[place] = self._active(f"/compatibility/prohibited_mixes/{place}", name)
        for place, gap in enumerate(compatibility.get("intervals") or ()):
            if gap.get("with") is not None:
                gap["with"] = self._active(f"/compatibility/intervals/{place}/with", gap["with"])

    def _crop(self, pointer: str, name: str) -> str:
        model = self._catalogue.label.model
        written = model.crop(name)
        if written in self._catalogue.crops or written in model.other_crops:
            return written
        term = model.printed_crops.get(name.strip().lower())
        if term is not None and len(term.reads_as) != 1:
            self.faults.append((pointer, f"“{name}” can be several crops. {term.ask or 'Name each of them.'}"))
            return name
        found = self._book.crop(name)
        if found.exact is None:
            near = " or ".join(f"“{one.id}”" for one in found.near[:3])
            self.faults.append((pointer, f"No crop is called “{name}”" + (f"; did you mean {near}?" if near else ".")))
        return found.exact or name

    def _pest(self, pointer: str, name: str) -> str:
        found = self._pests.get(plain(name))
        if found is None:
            near = nearest(name, set(self._pests.values()))
            hint = near or "; what has no id here goes into pests_as_printed"
            self.faults.append((pointer, f"No pest or disease is called “{name}”{hint}"))
        return found or name

    def _active(self, pointer: str, name: str) -> str:
        found = self._actives.get(plain(name))
        if found is None:
            hint = nearest(name, self._actives.values()) or "; GET /v1/actives lists them"
            self.faults.append((pointer, f"No active ingredient has the ISO common name “{name}”{hint}"))
        return found or name


def _spelled_pests(catalogue: Catalogue) -> dict[str, str]:
    """The ids of pests and diseases by their ids and names, as spelling does not matter."""
    treated = catalogue.label.treatments.values()
    spelled = {plain(name): one.id for one in treated for name in (one.id, one.name) if name}
    for one in catalogue.disorders.values():
        spelled |= {plain(name): one.id for name in (one.id, one.name, one.name_es)}
    return spelled
