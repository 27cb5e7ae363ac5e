"""Degree days between two thresholds from the lowest and highest of a day, by the shape that the day is given.

`area_above` is the heat over one threshold; a cutoff takes back what lies over the upper one. All temperatures and
thresholds stand in one unit, and the degree days in the same.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import numpy as np

from service.domain.weather import Floats

Shape = Literal["sine", "triangle"]
Cutoff = Literal["none", "horizontal", "intermediate", "vertical"]


def simple_degree_days(low: Floats, high: Floats, threshold: float) -> Floats:
    """The mean of a day over a threshold.

    >>> simple_degree_days(np.array([45.0]), np.array([75.0]), 50.0)
    array([10.])
    """
    return np.maximum((low + high) / 2 - threshold, 0.0)


def degree_days(
    days: tuple[Floats, Floats],
    thresholds: tuple[float, float],
    *,
    shape: Shape = "sine",
    cutoff: Cutoff = "horizontal",
) -> Floats:
    """Degree days between a lower and an upper threshold (Baskerville and Emin 1969; Zalom and others 1983).

    `days` are the minimum and the maximum of each day.

    >>> degree_days((np.array([48.0]), np.array([100.0])), (50.0, 88.0)).round(4)
    array([21.6594])
    """
    (low, high), (lower, upper) = days, thresholds
    area, share = _SHAPES[shape]
    gained = area(low, high, lower)
    if cutoff == "none":
        return gained
    over = area(low, high, upper)
    if cutoff == "horizontal":
        return gained - over
    if cutoff == "intermediate":
        return np.maximum(gained - 2 * over, 0.0)
    return gained - over - (upper - lower) * share(low, high, upper)


def double_sine_degree_days(
    days: tuple[Floats, Floats], thresholds: tuple[float, float], *, next_low: Floats
) -> Floats:
    """Degree days of two half days, the second of which falls to the next morning's minimum.

    >>> day = np.array([45.0]), np.array([75.0])
    >>> double_sine_degree_days(day, (50.0, 88.0), next_low=np.array([52.0])).round(4)
    array([12.1908])
    """
    return (degree_days(days, thresholds) + degree_days((next_low, days[1]), thresholds)) / 2


def _angle(low: Floats, high: Floats, threshold: float) -> Floats:
    """Where the sine of a day crosses a threshold: from -90° (always above) to 90° (never)."""
    middle, half = (low + high) / 2, np.maximum((high - low) / 2, np.finfo(float).tiny)
    return np.arcsin(np.clip((threshold - middle) / half, -1.0, 1.0))


def _sine_area(low: Floats, high: Floats, threshold: float) -> Floats:
    angle = _angle(low, high, threshold)
    area: Floats = (((low + high) / 2 - threshold) * (np.pi / 2 - angle) + (high - low) / 2 * np.cos(angle)) / np.pi
    return np.where(high <= threshold, 0.0, area)


def _sine_share(low: Floats, high: Floats, threshold: float) -> Floats:
    return (np.pi / 2 - _angle(low, high, threshold)) / np.pi


def _triangle_area(low: Floats, high: Floats, threshold: float) -> Floats:
    part = np.maximum(high - threshold, 0.0) * _triangle_share(low, high, threshold) / 2
    return np.where(low >= threshold, (low + high) / 2 - threshold, part)


def _triangle_share(low: Floats, high: Floats, threshold: float) -> Floats:
    width = np.maximum(high - low, np.finfo(float).tiny)
    return np.clip((high - threshold) / width, 0.0, 1.0)


_Curve = Callable[[Floats, Floats, float], Floats]
_SHAPES: dict[Shape, tuple[_Curve, _Curve]] = {
    "sine": (_sine_area, _sine_share),
    "triangle": (_triangle_area, _triangle_share),
}
