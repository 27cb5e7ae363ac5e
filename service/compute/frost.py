"""Frost at both ends of the growing season: the last day in spring, the first in autumn, year by year.

Years run from midsummer to midsummer, one a row, so that the first frost of a row is the autumn's and the last is the
spring's, however mild the winter is. Days are told by their place in such a year of 366 days, counted from 0; a year
without frost has no day (NaN).
"""

from __future__ import annotations

import numpy as np

from service.domain.weather import Flags, Floats


def first_frosts(is_frost: Flags, places: Floats) -> Floats:
    """The place of the first frost of each row.

    >>> first_frosts(np.array([[False, True, True], [False, False, False]]), np.array([[5.0, 6.0, 7.0]] * 2))
    array([ 6., nan])
    """
    return _pick(is_frost.argmax(axis=1), is_frost, places)


def last_frosts(is_frost: Flags, places: Floats) -> Floats:
    """The place of the last frost of each row.

    >>> last_frosts(np.array([[True, True, False], [False, False, False]]), np.array([[5.0, 6.0, 7.0]] * 2))
    array([ 6., nan])
    """
    return _pick(is_frost.shape[1] - 1 - is_frost[:, ::-1].argmax(axis=1), is_frost, places)


def late_place(lasts: Floats, share: float) -> int | None:
    """The day by which the last frost is over in this share of years; a frostless year is over from the start.

    >>> lasts = np.array([100.0, 110.0, 120.0, np.nan])
    >>> late_place(lasts, 0.5), late_place(lasts, 0.9), late_place(np.array([np.nan, np.nan, 9.0]), 0.5)
    (110, 120, None)
    """
    ranked = np.sort(np.nan_to_num(lasts, nan=-np.inf))
    place = ranked[_rank(share, ranked.size)]
    return None if np.isinf(place) else int(place)


def early_place(firsts: Floats, share: float) -> int | None:
    """The day before which no frost came in this share of years; a frostless year has none to come.

    >>> early_place(np.array([100.0, 110.0, 120.0]), 0.5), early_place(np.array([100.0, 110.0, 120.0]), 0.9)
    (110, 100)
    """
    mirrored = late_place(-firsts, share)
    return None if mirrored is None else -mirrored


def _rank(share: float, years: int) -> int:
    """The year that covers the share, rounded to the cautious side."""
    return min(years - 1, int(np.ceil(share * (years - 1) - 1e-9)))


def _pick(column: np.ndarray, is_frost: Flags, places: Floats) -> Floats:
    rows = np.arange(len(column))
    return np.where(is_frost[rows, column], places[rows, column], np.nan)
