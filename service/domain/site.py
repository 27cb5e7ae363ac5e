"""What a customer says of the place, of the wishes and of the trees that stand there already.

Everything may be unknown, and unknown is None: staff often do not know. What is given is checked when it is made;
a place whose figures contradict one another is still a place, and rules say what is odd about it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Literal, get_args

from service.domain.errors import NotUnderstood
from service.domain.month_day import MonthDay

Drainage = Literal["good", "moderate", "poor"]
Summer = Literal["dry", "humid"]
Rain = Literal["winter", "summer", "all_year"]
ChillBasis = Literal["given", "series", "estimate"]
_ZONE = re.compile(r"(\d{1,2})\s*([abAB]?)\Z")


def read_zone(text: str) -> float:
    """A hardiness zone as a number: the colder half "a" is the whole number, "b" lies half a zone above.

    A zone without its letter is read as the colder half, so that nobody is promised too much.

    >>> read_zone("7b"), read_zone("7A"), read_zone("7")
    (7.5, 7.0, 7.0)
    """
    match = _ZONE.match(text.strip())
    if match is None:
        raise ValueError(f"“{text}” is not a hardiness zone; write a number and a or b, such as 7b")
    return int(match[1]) + (0.5 if match[2].lower() == "b" else 0.0)


def zone_text(zone: float) -> str:
    """The zone as it stands on a map.

    >>> zone_text(7.5), zone_text(7.0)
    ('7b', '7a')
    """
    whole = math.floor(zone)
    return f"{whole}{'b' if zone - whole >= 0.5 else 'a'}"


@dataclass(frozen=True, slots=True)
class Site:
    """A place for trees. `winters` counts the winters behind the chill figures; a missing frost date is unknown.

    `rain` is when most of it falls, and `rains_begin` the day on which a rainy season usually begins.
    """

    hardiness_zone: float | None = None
    chill_hours: float | None = None
    chill_portions: float | None = None
    chill_basis: ChillBasis | None = None
    winters: int | None = None
    latitude: float | None = None
    last_spring_frost: MonthDay | None = None
    first_autumn_frost: MonthDay | None = None
    width_ft: float | None = None
    depth_ft: float | None = None
    max_height_ft: float | None = None
    sun_hours: float | None = None
    drainage: Drainage | None = None
    soil_ph: float | None = None
    replant: bool | None = None
    summer: Summer | None = None
    warmest_month_f: float | None = None
    rain: Rain | None = None
    rains_begin: MonthDay | None = None

    def __post_init__(self) -> None:
        faults = (*_number_faults(self), *_choice_faults(self))
        if faults:
            raise NotUnderstood(*faults)

    @property
    def southern(self) -> bool:
        """Whether the place lies south of the equator; a place without latitude is taken as northern.

        >>> Site(latitude=-38.0).southern, Site().southern
        (True, False)
        """
        return self.latitude is not None and self.latitude < 0


def _number_faults(site: Site) -> Iterator[tuple[str, str]]:
    for field in fields(site):
        value = getattr(site, field.name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        if not math.isfinite(value):
            yield f"/{field.name}", "this is not a finite number"
        elif field.name == "latitude":
            if abs(value) > 90:
                yield "/latitude", f"a latitude lies between -90 and 90 degrees, not at {value:g}"
        elif value < 0:
            yield f"/{field.name}", f"{value:g} is below zero"


def _choice_faults(site: Site) -> Iterator[tuple[str, str]]:
    for name, choices in (("drainage", get_args(Drainage)), ("summer", get_args(Summer)), ("rain", get_args(Rain))):
        value = getattr(site, name)
        if value is not None and value not in choices:
            yield f"/{name}", f"“{value}” is not one of {', '.join(choices)}"


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the customer would like: crop ids, months of harvest (1-12), uses, and how many trees at the most."""

    crops: tuple[str, ...] = ()
    harvest_months: tuple[int, ...] = ()
    uses: tuple[str, ...] = ()
    max_trees: int | None = None

    def __post_init__(self) -> None:
        faults = [
            (f"/harvest_months/{index}", f"there is no month {month}; months run from 1 to 12")
            for index, month in enumerate(self.harvest_months)
            if not 1 <= month <= 12
        ]
        if self.max_trees is not None and self.max_trees < 1:
            faults.append(("/max_trees", "a planting holds at least one tree"))
        if faults:
            raise NotUnderstood(*faults)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where on the plot a tree stands, in feet from the left and from the front, and how wide its crown is."""

    x_ft: float
    y_ft: float
    spread_ft: float

    def __post_init__(self) -> None:
        faults = [
            (f"/{field.name}", "a place on the plot is a number of feet from zero up")
            for field in fields(self)
            if not (math.isfinite(getattr(self, field.name)) and getattr(self, field.name) >= 0)
        ]
        if faults:
            raise NotUnderstood(*faults)


@dataclass(frozen=True, slots=True)
class StandingTree:
    """A tree that is there already; `cultivars` are all that grow on it (several on a multi-grafted tree).

    `spot` is known of one that stands on the plot itself and whose place was measured.
    """

    crop: str
    cultivars: tuple[str, ...] = ()
    distance_ft: float | None = None
    spot: Spot | None = None

    def __post_init__(self) -> None:
        if self.distance_ft is not None and not (math.isfinite(self.distance_ft) and self.distance_ft >= 0):
            raise NotUnderstood(("/distance_ft", "a distance is a number of feet from zero up"))
