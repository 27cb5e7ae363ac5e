"""Chill portions by the Dynamic Model (Fishman, Erez and Couvillon 1987).

Each hour moves an intermediate product `x` towards a level that depends on the temperature, x = keep * x + gain. When
an hour ends with x at 1 or more, it is full: a share of x that depends on the temperature becomes chill portions and
the rest goes on. A portion is never lost.

An hour leans on the hour before, so Python has to go from hour to hour. All winters go side by side, and numpy works
out beforehand whatever depends on the temperatures alone, some weeks at a time so that it stays in the processor's
cache. What is left for each hour is as little as can be: add the gain, see which winters are full, let the full ones
take their own part into the next hour, and multiply by that part. The numbers that an hour no longer needs make room
for its results, for fresh memory costs more than the sums.
"""

from __future__ import annotations

from inspect import unwrap

import numpy as np

from service.domain.climate_models import PortionModel
from service.domain.weather import Floats

_FULL = 1.0
_HOURS_AT_ONCE = 365
_put = unwrap(np.putmask)  # without numpy's look for other kinds of arrays, which takes longer than the putting


def chill_portions(hours_c: Floats, model: PortionModel) -> Floats:
    """Chill portions of each row of hourly temperatures (°C); an hour not read (NaN) leaves everything as it was.

    >>> model = PortionModel(4153.5, 12888.8, 139500.0, 2.567e18, 1.6, 277.0, 273.0)
    >>> chill_portions(np.stack([np.full(1000, 6.0), np.full(1000, 14.0)]), model).round(4)
    array([34.2042,  0.    ])
    """
    winters, hours = hours_c.shape
    weeks, portions = _Weeks(winters, model), np.zeros(winters)
    for first in range(0, hours, _HOURS_AT_ONCE):
        portions += weeks.earn(hours_c[:, first : first + _HOURS_AT_ONCE])
    return portions


class _Weeks:
    """Some weeks of all winters, hours down and winters across; the same memory serves one lot after another.

    `keep` says what an hour leaves of `x`, `share` what a full one yields, and `of_full` what part of `x` reaches the
    end of the next hour from a full one; from one that is not full, that is what the next hour keeps. `x` holds the
    gain of an hour until the walk comes by.
    """

    def __init__(self, winters: int, model: PortionModel) -> None:
        self.model, self.hours, self.carried = model, 0, np.zeros(winters)
        self.exponent, self.x, self.share, self.of_full = np.empty((4, _HOURS_AT_ONCE, winters))
        self.keep = np.empty((_HOURS_AT_ONCE + 1, winters))
        self.rows = list(zip(self.x, self.keep[1:], self.of_full, strict=True))

    def earn(self, hours_c: Floats) -> Floats:
        """Go through the next hours of each winter and give the portions that they earn."""
        self._read(hours_c)
        self._walk()
        x, share = self.x[: self.hours], self.share[: self.hours]
        share *= x
        share *= x >= _FULL
        earned: Floats = np.ones(self.hours) @ share
        return earned

    def _read(self, hours_c: Floats) -> None:
        """Work out what each hour does; hours beyond the last one change nothing."""
        self.hours = hours_c.shape[1]
        self.exponent[self.hours :] = np.nan
        self.exponent[: self.hours] = hours_c.T
        self.exponent += self.model.kelvin_offset
        unread = np.isnan(self.exponent)
        np.divide(-self.model.e1_k, self.exponent, out=self.exponent)
        self._keep()
        self._gain()
        self._share()
        if unread.any():
            self.keep[:-1][unread], self.x[unread], self.share[unread], self.of_full[unread] = 1.0, 0.0, 0.0, 1.0
        self.of_full *= self.keep[1:]

    def _keep(self) -> None:
        keep = np.exp(self.exponent, out=self.keep[:-1])
        keep *= -self.model.a1_per_h
        np.exp(keep, out=keep)
        self.keep[-1] = 1.0

    def _gain(self) -> None:
        gain = np.multiply(self.exponent, self.model.e0_k / self.model.e1_k - 1.0, out=self.x)
        np.exp(gain, out=gain)
        gain *= self.model.a0_per_h / self.model.a1_per_h
        gain *= np.subtract(1.0, self.keep[:-1], out=self.of_full)

    def _share(self) -> None:
        """What a full hour yields by its odds: at the most exp(slope), as no temperature is below absolute zero."""
        slope, transition_k = self.model.slope * self.model.transition_k, self.model.transition_k
        odds = np.multiply(self.exponent, slope * transition_k / self.model.e1_k, out=self.share)
        odds += slope
        np.exp(odds, out=odds)
        np.divide(1.0, np.add(odds, 1.0, out=self.of_full), out=self.of_full)
        self.share *= self.of_full

    def _walk(self) -> None:
        """Go from hour to hour and note in `x` the intermediate at the end of each, before it is drawn on."""
        coming, threshold = self.carried * self.keep[0], np.full_like(self.carried, _FULL)
        seen = bytearray(coming.size)  # numpy writes into it, and Python looks through it much faster than numpy
        full = np.frombuffer(seen, dtype=np.bool_)
        add, multiply, at_least, put = np.add, np.multiply, np.greater_equal, _put  # a look-up less an hour
        for x, onward, of_full in self.rows[: self.hours]:
            add(x, coming, x)
            at_least(x, threshold, full)
            if 1 in seen:
                put(onward, full, of_full)
            multiply(x, onward, coming)
        self.carried = coming
