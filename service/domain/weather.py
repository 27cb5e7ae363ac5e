"""Temperatures as they were measured, in degrees Celsius, with every gap left open.

A series stands on an unbroken grid of local clock hours or days; where nothing was read the value is NaN. An hourly
series begins and ends on whole days, so that hours and days fall together.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
Flags: TypeAlias = NDArray[np.bool_]
Unit = Literal["f", "c", "tenths_c"]
Kind = Literal["hourly", "daily", "monthly"]

HOURS_PER_DAY = 24


@dataclass(frozen=True, slots=True, eq=False)
class HourlySeries:
    """One temperature an hour from midnight of `first_day` on; each stands for its whole clock hour."""

    first_day: np.datetime64
    temp_c: Floats

    def __post_init__(self) -> None:
        if self.temp_c.ndim != 1 or self.temp_c.size % HOURS_PER_DAY:
            raise ValueError("an hourly series holds whole days of 24 hours")


@dataclass(frozen=True, slots=True, eq=False)
class DailySeries:
    """The lowest and highest temperature of each day from `first_day` on."""

    first_day: np.datetime64
    min_c: Floats
    max_c: Floats

    def __post_init__(self) -> None:
        if self.min_c.shape != self.max_c.shape or self.min_c.ndim != 1:
            raise ValueError("a daily series holds as many minima as maxima")


@dataclass(frozen=True, slots=True, eq=False)
class MonthlyMeans:
    """The mean temperature of some calendar months (1-12), over whatever years they were taken."""

    mean_c: Mapping[int, float]

    def __post_init__(self) -> None:
        if not self.mean_c or not all(1 <= month <= 12 for month in self.mean_c):
            raise ValueError("months run from 1 to 12, and at least one is needed")


Series: TypeAlias = HourlySeries | DailySeries | MonthlyMeans


@dataclass(frozen=True, slots=True, eq=False)
class Reading:
    """A series and how it was read: in which unit, from how many rows, how many of them said nothing new."""

    series: Series
    unit: Unit
    rows: int
    empty_rows: int = 0
    repeated_rows: int = 0
    notes: tuple[str, ...] = ()

    @property
    def kind(self) -> Kind:
        """Whether hours, days or months were read."""
        if isinstance(self.series, HourlySeries):
            return "hourly"
        return "daily" if isinstance(self.series, DailySeries) else "monthly"


def celsius(fahrenheit: Floats | float) -> Floats | float:
    """Degrees Celsius, always by the same steps, so that limits and readings agree to the last digit.

    >>> celsius(45.0) == 65.0 / 9, celsius(32)
    (True, 0.0)
    """
    return (fahrenheit - 32.0) * 5.0 / 9.0


def fahrenheit(celsius: Floats | float) -> Floats | float:
    """Degrees Fahrenheit.

    >>> fahrenheit(-17.5)
    0.5
    """
    return celsius * 9.0 / 5.0 + 32.0
