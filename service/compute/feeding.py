"""Actual nitrogen for one tree in one year, from its age and its trunk, never above the cap."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

BoundBy = Literal["first_year", "age", "trunk", "cap"]


@dataclass(frozen=True, slots=True)
class Rates:
    """Ounces of nitrogen that are published for a tree; what no source gives is None."""

    first_year_oz: float | None = None
    a_year_oz: float | None = None
    an_inch_oz: float | None = None
    cap_oz: float | None = None
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Nitrogen:
    """Ounces for the year, and what set them."""

    year_oz: float
    bound_by: BoundBy


def nitrogen(rates: Rates, *, age_years: float | None, trunk_in: float | None) -> Nitrogen | None:
    """The least that age, trunk and cap allow, times the share; None where neither age nor trunk is known.

    Five years at 1.6 oz a year is the cap of 8 oz (0.1 lb a year, half a pound at the most); a peach of 2 inches at
    2 oz an inch gets 4 oz:

    >>> nitrogen(Rates(a_year_oz=1.6, cap_oz=8), age_years=7, trunk_in=None)
    Nitrogen(year_oz=8, bound_by='cap')
    >>> nitrogen(Rates(a_year_oz=1.6, an_inch_oz=2, cap_oz=8), age_years=4, trunk_in=2)
    Nitrogen(year_oz=4.0, bound_by='trunk')
    """
    found: list[tuple[float, BoundBy]] = []
    if age_years is not None and age_years <= 1:
        if rates.first_year_oz is None:
            return None
        return Nitrogen(rates.first_year_oz * min(rates.share, 1.0), "first_year")
    if age_years is not None and rates.a_year_oz is not None:
        found.append((age_years * rates.a_year_oz * rates.share, "age"))
    if trunk_in is not None and rates.an_inch_oz is not None:
        found.append((trunk_in * rates.an_inch_oz * rates.share, "trunk"))
    if not found:
        return None
    if rates.cap_oz is not None:
        found.append((rates.cap_oz, "cap"))
    return Nitrogen(*min(found, key=lambda one: one[0]))


def product_oz(nitrogen_oz: float, *, percent: float) -> float:
    """Ounces of a fertiliser that hold so much nitrogen; `percent` is the first number on its bag.

    Half a pound of nitrogen as urea (46 %) is a little over a pound:

    >>> round(product_oz(8, percent=46), 1)
    17.4
    """
    return nitrogen_oz / (percent / 100)
