"""Days of a label: how long to wait, how often, and which groups of mode of action follow one another.

Nothing here knows what is allowed. The printed numbers come from the label, and rules say what follows.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

Groups = frozenset[str]


def earliest_harvest(used_on: date, phi_days: int) -> date:
    """The first day on which fruit may be picked: the day of use and the printed days before harvest.

    The worked example of a garden page: 1 June and 14 days give 15 June, so a harvest on 10 June is five days short.

    >>> earliest_harvest(date(2025, 6, 1), 14)
    datetime.date(2025, 6, 15)
    >>> days_short(14, date(2025, 6, 1), date(2025, 6, 10)), days_short(14, date(2025, 6, 1), date(2025, 6, 16))
    (5, -1)
    """
    return used_on + timedelta(days=phi_days)


def days_short(wanted: int, earlier: date, later: date) -> int:
    """Days by which the time between two days falls short of what is wanted; 0 or less: it is kept.

    >>> days_short(14, date(2025, 4, 20), date(2025, 4, 25))
    9
    """
    return wanted - (later - earlier).days


def first_day_again(last: date, wanted_days: int) -> date:
    """The first day on which a printed gap is kept.

    >>> first_day_again(date(2025, 4, 20), 14)
    datetime.date(2025, 5, 4)
    """
    return last + timedelta(days=wanted_days)


def first_day_of_next_year(day: date) -> date:
    """The day on which a count by the year begins anew.

    >>> first_day_of_next_year(date(2025, 7, 10))
    datetime.date(2026, 1, 1)
    """
    return date(day.year + 1, 1, 1)


def whole_months(earlier: date, later: date) -> int:
    """Whole months from one day to a later one; 0 where it is not later.

    >>> whole_months(date(2025, 1, 15), date(2026, 1, 14)), whole_months(date(2025, 1, 15), date(2027, 1, 15))
    (11, 24)
    """
    months = (later.year - earlier.year) * 12 + later.month - earlier.month
    return max(0, months - (later.day < earlier.day))


def run_of_one_group(own: Groups, before: Sequence[Groups]) -> int:
    """Sprays in a row that share one of a product's groups, its own included; `before` has the latest first.

    >>> run_of_one_group(frozenset({"IRAC 1B"}), [frozenset({"IRAC 1B"}), frozenset({"IRAC 1B", "IRAC 3A"})])
    3
    >>> run_of_one_group(frozenset({"FRAC 3"}), [frozenset({"FRAC 11"}), frozenset({"FRAC 3"})])
    1
    >>> run_of_one_group(frozenset(), [frozenset({"FRAC 3"})])
    0
    """
    return max((1 + _leading(group, before) for group in own), default=0)


def _leading(group: str, before: Iterable[Groups]) -> int:
    count = 0
    for groups in before:
        if group not in groups:
            break
        count += 1
    return count
