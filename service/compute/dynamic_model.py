"""Chill portions by the Dynamic Model (Fishman, Erez and Couvillon 1987).

Each hour moves an intermediate product `x` towards a level that depends on the temperature, x = keep * x + gain. When
an hour ends with x at 1 or more, a share of it that depends on the temperature becomes chill portions and only `stay`
of it goes on. A portion is never lost.

An hour leans on the hour before, so a straight computation has to go through a winter hour by hour, which is slow in
Python. Here every winter is cut into stretches that run side by side. Their starting values are guessed at first. A
pass gives the end of each stretch and how much a change at its start would change it; both give better starts for the
stretches that follow (Newton's method on the chain of starts). Once nothing moves, the stretches fit together and the
result is that of going hour by hour. The first stretch is right from the beginning, so each pass settles at least one
more.
"""

from __future__ import annotations

import threading
from dataclasses import dataclass

import numpy as np

from service.domain.climate_models import PortionModel
from service.domain.weather import Floats

_STRETCH_H = 256
_FULL = 1.0
_SETTLED = 1e-12
_LARGEST_EXPONENT = 700.0
_ROWS_AT_ONCE = 8
_MOST_KEPT_BYTES = 32_000_000
_kept = threading.local()


@dataclass(frozen=True, slots=True, eq=False)
class _Rates:
    """What one hour does to the intermediate: hours down, stretches of all winters across."""

    gain: Floats
    keep: Floats
    stay: Floats


def chill_portions(hours_c: Floats, model: PortionModel) -> Floats:
    """Chill portions of each row of hourly temperatures (°C); an hour not read (NaN) leaves everything as it was.

    >>> model = PortionModel(4153.5, 12888.8, 139500.0, 2.567e18, 1.6, 277.0, 273.0)
    >>> chill_portions(np.stack([np.full(1000, 6.0), np.full(1000, 14.0)]), model).round(4)
    array([34.2042,  0.    ])
    """
    winters, hours = hours_c.shape
    stretches = -(-hours // _STRETCH_H)
    rates, before, spare = _room_for(winters * stretches)
    _fill_rates(rates, _in_stretches(hours_c, stretches), model)
    start = np.zeros((winters, stretches))
    for _ in range(stretches + 1):
        end = _pass_through(rates, start.reshape(-1), before)
        better = _linked(start, end.reshape(start.shape), _sensitivity(rates, before, spare).reshape(start.shape))
        moved = np.abs(better - start).max(initial=0.0)
        start = better
        if moved <= _SETTLED:
            break
    np.subtract(1.0, rates.stay, out=spare)
    np.multiply(spare, before, out=spare)
    np.multiply(spare, before >= _FULL, out=spare)
    portions: Floats = spare.sum(axis=0).reshape(winters, stretches).sum(axis=1)
    return portions


def _room_for(lanes: int) -> tuple[_Rates, Floats, Floats]:
    """Arrays to compute in, kept by each thread: fresh memory for megabytes costs more than the computing in it."""
    room: Floats | None = getattr(_kept, "room", None)
    if room is None or room.shape[2] != lanes:
        room = np.empty((5, _STRETCH_H, lanes))
        _kept.room = room if room.nbytes <= _MOST_KEPT_BYTES else None
    return _Rates(room[0], room[1], room[2]), room[3], room[4]


def _in_stretches(hours_c: Floats, stretches: int) -> Floats:
    """Hours down, stretches of all winters across; the last stretch is filled up with hours that were not read."""
    padded = np.full((hours_c.shape[0], stretches * _STRETCH_H), np.nan)
    padded[:, : hours_c.shape[1]] = hours_c
    return padded.reshape(-1, _STRETCH_H).T


def _fill_rates(rates: _Rates, hours_c: Floats, model: PortionModel) -> None:
    # a few rows at a time stay in the processor's cache
    for top in range(0, _STRETCH_H, _ROWS_AT_ONCE):
        rows = slice(top, top + _ROWS_AT_ONCE)
        rates.gain[rows], rates.keep[rows], rates.stay[rows] = _rates_of(np.ascontiguousarray(hours_c[rows]), model)


def _rates_of(hours_c: Floats, model: PortionModel) -> tuple[Floats, Floats, Floats]:
    kelvin = hours_c + model.kelvin_offset
    level = model.a0_per_h / model.a1_per_h * np.exp((model.e1_k - model.e0_k) / kelvin)
    keep = np.exp(-model.a1_per_h * np.exp(-model.e1_k / kelvin))
    exponent = model.slope * model.transition_k * (kelvin - model.transition_k) / kelvin
    stay = 1.0 / (1.0 + np.exp(np.minimum(exponent, _LARGEST_EXPONENT)))
    unread = np.isnan(hours_c)
    keep[unread], stay[unread], level[unread] = 1.0, 1.0, 0.0
    return level - level * keep, keep, stay


def _pass_through(rates: _Rates, start: Floats, before: Floats) -> Floats:
    """Goes through all stretches at once and notes in `before` the intermediate of each hour before it is drawn on."""
    current, full = start.copy(), np.empty(start.shape, dtype=np.bool_)
    for gain, keep, stay, reached in zip(rates.gain, rates.keep, rates.stay, before, strict=True):
        np.multiply(current, keep, out=reached)
        np.add(reached, gain, out=reached)
        np.greater_equal(reached, _FULL, out=full)
        np.copyto(current, reached)
        np.multiply(current, stay, out=current, where=full)
    return current


def _sensitivity(rates: _Rates, before: Floats, spare: Floats) -> Floats:
    """How much the end of each stretch moves with its start, as long as the same hours are full."""
    np.copyto(spare, rates.keep)
    np.multiply(spare, rates.stay, out=spare, where=before >= _FULL)
    through: Floats = np.multiply.reduce(spare, axis=0)
    return through


def _linked(start: Floats, end: Floats, sensitivity: Floats) -> Floats:
    """Starts that follow from the ends of the stretches before, each corrected for the move of its own start."""
    better = np.zeros_like(start)
    for place in range(1, start.shape[1]):
        moved = better[:, place - 1] - start[:, place - 1]
        better[:, place] = end[:, place - 1] + sensitivity[:, place - 1] * moved
    return better
