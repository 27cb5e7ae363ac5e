"""Chill portions by the Dynamic Model (Fishman, Erez and Couvillon 1987).

Each hour moves an intermediate product `x` towards a level that depends on the temperature, x = keep * x + gain. When
an hour ends with x at 1 or more, it is full: a share of x that depends on the temperature becomes chill portions and
the rest goes on. A portion is never lost.

An hour leans on the hour before, so Python has to go from hour to hour. All winters go side by side, and numpy works
out beforehand whatever depends on the temperatures alone, some weeks at a time so that it stays in the processor's
cache. What is left for each hour is as little as can be: add the gain, see which winters are full, and multiply by
what goes on into the next hour, for the full ones and for the others. While both x and the level are below 1 in every
winter, no hour can become full and nobody looks.
"""

from __future__ import annotations

import numpy as np

from service.domain.climate_models import PortionModel
from service.domain.weather import Floats

_FULL = 1.0
_LARGEST_EXPONENT = 700.0
_HOURS_AT_ONCE = 365


def chill_portions(hours_c: Floats, model: PortionModel) -> Floats:
    """Chill portions of each row of hourly temperatures (°C); an hour not read (NaN) leaves everything as it was.

    >>> model = PortionModel(4153.5, 12888.8, 139500.0, 2.567e18, 1.6, 277.0, 273.0)
    >>> chill_portions(np.stack([np.full(1000, 6.0), np.full(1000, 14.0)]), model).round(4)
    array([34.2042,  0.    ])
    """
    winters, hours = hours_c.shape
    weeks, portions = _Weeks(winters, model), np.zeros(winters)
    for first in range(0, hours, _HOURS_AT_ONCE):
        weeks.read(hours_c[:, first : first + _HOURS_AT_ONCE])
        weeks.walk()
        portions += weeks.portions()
    return portions


class _Weeks:
    """Some weeks of all winters, hours down and winters across; the same memory serves one lot after another.

    `keep` and `level` say what an hour does, `share` what a full one yields, `onward` and `of_full` what part of `x`
    reaches the end of the next hour from one that is not full and from a full one.
    """

    def __init__(self, winters: int, model: PortionModel) -> None:
        self.model, self.hours, self.carried = model, 0, np.zeros(winters)
        self.per_kelvin, self.level, self.keep, self.share, self.onward, self.of_full, self.x = np.empty(
            (7, _HOURS_AT_ONCE, winters)
        )
        self.rows = list(zip(self.level, self.onward, self.of_full, self.x, strict=True))

    def read(self, hours_c: Floats) -> None:
        """Work out what each hour does; hours beyond the last one change nothing."""
        self.hours = hours_c.shape[1]
        self.per_kelvin[self.hours :] = np.nan
        np.add(hours_c.T, self.model.kelvin_offset, out=self.per_kelvin[: self.hours])
        unread = np.isnan(self.per_kelvin)
        np.divide(1.0, self.per_kelvin, out=self.per_kelvin)
        self._level()
        self._keep()
        self._share()
        self.keep[unread], self.share[unread], self.level[unread] = 1.0, 0.0, 0.0
        self.warm = (self.level.max(axis=1) < _FULL).tolist()
        self.onward[:-1], self.onward[-1] = self.keep[1:], 1.0
        np.multiply(np.subtract(1.0, self.share, out=self.of_full), self.onward, out=self.of_full)
        # from here on the level of an hour is its gain
        np.multiply(np.subtract(1.0, self.keep, out=self.per_kelvin), self.level, out=self.level)

    def _level(self) -> None:
        np.multiply(self.per_kelvin, self.model.e1_k - self.model.e0_k, out=self.level)
        np.exp(self.level, out=self.level)
        self.level *= self.model.a0_per_h / self.model.a1_per_h

    def _keep(self) -> None:
        np.multiply(self.per_kelvin, -self.model.e1_k, out=self.keep)
        np.exp(self.keep, out=self.keep)
        self.keep *= -self.model.a1_per_h
        np.exp(self.keep, out=self.keep)

    def _share(self) -> None:
        slope, transition_k = self.model.slope * self.model.transition_k, self.model.transition_k
        np.multiply(self.per_kelvin, slope * transition_k, out=self.share)
        self.share -= slope
        np.minimum(self.share, _LARGEST_EXPONENT, out=self.share)
        np.exp(self.share, out=self.share)
        self.share += 1.0
        np.divide(1.0, self.share, out=self.share)

    def walk(self) -> None:
        """Go from hour to hour and note in `x` the intermediate at the end of each, before it is drawn on."""
        coming, drawn, threshold = self.carried * self.keep[0], np.empty_like(self.carried), np.ones_like(self.carried)
        full, below = np.empty(coming.size, dtype=np.bool_), False
        add, multiply, at_least, put = np.add, np.multiply, np.greater_equal, np.putmask  # a look-up less an hour
        for (gain, onward, of_full, x), warm in zip(self.rows[: self.hours], self.warm, strict=False):
            add(coming, gain, x)
            multiply(x, onward, coming)
            below = warm and (below or x.max() < _FULL)
            if not below:
                at_least(x, threshold, full)
                multiply(x, of_full, drawn)
                put(coming, full, drawn)
        self.carried = coming

    def portions(self) -> Floats:
        """The portions that were earned in these weeks."""
        x, share = self.x[: self.hours], self.share[: self.hours]
        earned: Floats = np.where(x >= _FULL, np.multiply(share, x, out=share), 0.0).sum(axis=0)
        return earned
