"""A file of columns: comma, semicolon or tab between them, a decimal point or comma, with or without a byte order mark.

The first row names the columns (see columns.py). An empty cell and the usual marks for "no reading" are gaps.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from datetime import datetime

import numpy as np

from service.domain.errors import NotUnderstood
from service.domain.weather import Floats, Reading, Unit
from service.intake.weather.columns import Columns, find_columns
from service.intake.weather.faults import RowFaults
from service.intake.weather.grid import Readings, daily_reading, hourly_reading
from service.intake.weather.moments import read_moment
from service.intake.weather.months import monthly_reading

MOST_BYTES = 32 * 1024 * 1024
MOST_ROWS = 1_000_000
_NO_READING = frozenset({"", "-", "--", "na", "n/a", "nan", "null", "none", "m", "missing", "9999", "-9999", "-999.9"})
_NUMBER = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?\Z")
_Cells = list[str]


def read_weather_csv(data: bytes, *, unit: Unit | None = None) -> Reading:
    """The series in a file; `unit` says what the temperatures are in when the names of the columns do not."""
    rows = _rows(_decoded(data))
    columns = find_columns(next(rows, (1, []))[1])
    table = _Table(columns, _agreed(columns.unit, unit))
    for number, cells in rows:
        if number > MOST_ROWS:
            raise NotUnderstood(("", f"the file has more than {MOST_ROWS:,} rows; give at most as many"))
        if any(cells):
            table.add(number, cells)
    return table.reading()


def _decoded(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise NotUnderstood(("", f"the file has more than {MOST_BYTES // 1024 // 1024} MB; give a shorter series"))
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _rows(text: str) -> Iterator[tuple[int, _Cells]]:
    head = text[:4096].splitlines()[0] if text.strip() else ""
    delimiter = max(",;\t", key=head.count)
    try:
        for number, cells in enumerate(csv.reader(io.StringIO(text), delimiter=delimiter), 1):
            yield number, [cell.strip() for cell in cells]
    except csv.Error as fault:
        raise NotUnderstood(("", f"the file cannot be read as columns ({fault})")) from None


def _agreed(named: Unit | None, said: Unit | None) -> Unit:
    if named and said and named != said:
        raise NotUnderstood(("/units", f"the columns are named as {named}, but {said} was said; leave one out"))
    unit = named or said
    if unit is None:
        raise NotUnderstood(
            ("/units", "the columns do not say in which unit they stand; say f, c or tenths_c (tenths of °C)")
        )
    return unit


class _Table:
    """Gathers the rows of a file and their faults."""

    def __init__(self, columns: Columns, unit: Unit) -> None:
        self.columns, self.unit, self.faults = columns, unit, RowFaults("")
        self.moments: list[str] = []
        self.values: list[list[float]] = []
        self.lines: list[int] = []
        self.stations: set[str] = set()

    def add(self, number: int, cells: _Cells) -> None:
        """Take a row, or note why it cannot be read."""
        wanted = max(*self.columns.moment, *self.columns.values)
        if len(cells) <= wanted:
            self.faults.add(f"/{number}", f"row {number} has {len(cells)} cells; {wanted + 1} are needed")
            return
        try:
            values = [_temperature(cells[place]) for place in self.columns.values]
        except ValueError as fault:
            self.faults.add(f"/{number}", f"row {number}: {fault}")
            return
        self.moments.append(" ".join(cells[place] for place in self.columns.moment))
        self.values.append(values)
        self.lines.append(number)
        if self.columns.station is not None:
            self.stations.add(cells[self.columns.station])

    def reading(self) -> Reading:
        """The series of all rows."""
        if len(self.stations) > 1:
            raise NotUnderstood(("", f"the file holds {len(self.stations)} stations; give one place at a time"))
        if self.columns.kind == "monthly":
            return self._months()
        moments = list(self._moments())
        self.faults.stop_if_any()
        readings = Readings(moments, self._columns(), self.unit, "")
        if self.columns.kind == "hourly":
            return hourly_reading(readings)
        self._low_above_high(readings)
        return daily_reading(readings)

    def _moments(self) -> Iterator[datetime]:
        for number, text in zip(self.lines, self.moments, strict=True):
            try:
                yield read_moment(text)
            except ValueError as fault:
                self.faults.add(f"/{number}", f"row {number}: {fault}")

    def _columns(self) -> tuple[Floats, ...]:
        table = np.array(self.values, dtype=np.float64).reshape(len(self.values), len(self.columns.values))
        return tuple(np.ascontiguousarray(column) for column in table.T)

    def _low_above_high(self, readings: Readings) -> None:
        low, high = readings.values
        for place in np.flatnonzero(low > high):
            number, told = self.lines[place], f"the lowest, {low[place]:g}, is above the highest, {high[place]:g}"
            self.faults.add(f"/{number}", f"row {number}: {told}")
        self.faults.stop_if_any()

    def _months(self) -> Reading:
        self.faults.stop_if_any()
        months = [int(text) if text.isdigit() else 0 for text in self.moments]
        (means,) = self._columns()
        return monthly_reading(months, means, unit=self.unit, pointers=[f"/{line}" for line in self.lines])


def _temperature(cell: str) -> float:
    if cell.lower() in _NO_READING:
        return float("nan")
    number = cell.replace(",", ".") if cell.count(",") == 1 and "." not in cell else cell
    if not _NUMBER.match(number.replace("−", "-")):
        raise ValueError(f"“{cell[:40]}” is not a temperature")
    return float(number.replace("−", "-"))
