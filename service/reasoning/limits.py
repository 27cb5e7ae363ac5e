"""Named numbers that people argue about: each with its unit, its value, the range that sources give, and a source."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from service.reasoning.authority import Authority, read_authority
from service.reasoning.entry import Entry, named_entries, read_entry
from service.reasoning.faults import Faults
from service.reasoning.words import instead


@dataclass(frozen=True, slots=True)
class Limit:
    """One named number."""

    name: str
    meaning: str
    unit: str
    value: float
    low: float
    high: float
    authority: Authority
    confirmed: date
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class LimitReader:
    """Reads limits.yaml against the units and sources that there are."""

    units: Collection[str]
    sources: Collection[str]

    def read(self, path: Path, *, root: Path, faults: Faults) -> Mapping[str, Limit]:
        """All limits of a file; a file that is not there holds none.

        A limit that lacks its authority alone is noted and still read, so that it does not hide faults of rules.
        """
        if not path.exists():
            return {}
        limits: dict[str, Limit] = {}
        for entry in named_entries(read_entry(path, root=root), "limits"):
            with faults.kept():
                limits[str(entry.name)] = self._limit(entry, faults)
        return limits

    def _limit(self, entry: Entry, faults: Faults) -> Limit:
        entry.only("meaning", "unit", "value", "range", "source", "basis", "confirmed")
        unit = entry.text("unit")
        if unit not in self.units:
            raise entry.fault(f"there is no unit '{unit}' in vocabulary.yaml{instead(unit, self.units)}", key="unit")
        value, (low, high) = entry.number("value"), range_of(entry)
        if not low <= value <= high:
            raise entry.fault(f"the value {value} lies outside its own range [{low}, {high}]", key="value")
        authority = Authority((), None)
        with faults.kept():
            authority = read_authority(entry, sources=self.sources)
        return Limit(
            name=str(entry.name),
            meaning=entry.text("meaning"),
            unit=unit,
            value=value,
            low=low,
            high=high,
            authority=authority,
            confirmed=entry.date("confirmed"),
            file=entry.file,
            line=entry.line(),
        )


_LARGEST = 2.0**53  # beyond it whole numbers are no longer exact


def range_of(entry: Entry) -> tuple[float, float]:
    """The two ends of an entry's range, both included."""
    ends = entry.data.get("range")
    numbers = isinstance(ends, list) and all(isinstance(e, int | float) and not isinstance(e, bool) for e in ends)
    if not numbers or len(ends) != 2 or not ends[0] <= ends[1]:
        raise entry.fault("'range' must be two numbers from low to high, such as range: [0, 100]", key="range")
    if max(abs(ends[0]), abs(ends[1])) >= _LARGEST:
        raise entry.fault("'range' goes beyond the numbers that can be told apart (2 to the power of 53)", key="range")
    return ends[0], ends[1]
