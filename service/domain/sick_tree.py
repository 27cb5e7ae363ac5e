"""A tree with a complaint, as it is told at the counter: what is seen, the season, the weather and how it is kept.

Everything but the crop may be unknown, and unknown is None.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, get_args

from service.domain.errors import NotUnderstood

Vigour = Literal["weak", "moderate", "strong"]
LastCrop = Literal["none", "light", "normal", "heavy"]
Bearing = Literal["annual", "alternate"]
Size = Literal["standard", "semi_dwarf", "dwarf"]
BloomAmount = Literal["none", "sparse", "full"]
Watering = Literal["little", "usual", "uneven", "much"]
Feeding = Literal["none", "usual", "much"]
Pruning = Literal["none", "light", "hard"]
VIGOURS: tuple[Vigour, ...] = get_args(Vigour)
LAST_CROPS: tuple[LastCrop, ...] = get_args(LastCrop)
BEARINGS: tuple[Bearing, ...] = get_args(Bearing)
SIZES: tuple[Size, ...] = get_args(Size)
BLOOM_AMOUNTS: tuple[BloomAmount, ...] = get_args(BloomAmount)
WATERINGS: tuple[Watering, ...] = get_args(Watering)
FEEDINGS: tuple[Feeding, ...] = get_args(Feeding)
PRUNINGS: tuple[Pruning, ...] = get_args(Pruning)


@dataclass(frozen=True, slots=True)
class Seen:
    """Signs that are seen, those that were looked for and not found, and those that nobody can look at."""

    present: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    cannot_tell: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        faults = tuple(_contradictions(self))
        if faults:
            raise NotUnderstood(*faults)

    @property
    def answers(self) -> dict[str, bool]:
        """Each sign that somebody looked at, with whether it is there."""
        return dict.fromkeys(self.present, True) | dict.fromkeys(self.absent, False)

    @property
    def asked(self) -> frozenset[str]:
        """The signs that need not be asked for again."""
        return frozenset((*self.present, *self.absent, *self.cannot_tell))


def _contradictions(seen: Seen) -> Iterator[tuple[str, str]]:
    for place, sign in enumerate(seen.absent):
        if sign in seen.present:
            yield f"/absent/{place}", f"“{sign}” stands among the signs that are present; leave one of the two out"


@dataclass(frozen=True, slots=True)
class WetPeriod:
    """A time during which leaves or blossom stayed wet, with its mean temperature and the rain in it."""

    stage: str
    hours: float
    mean_f: float
    rain_in: float | None = None


@dataclass(frozen=True, slots=True)
class InsectHeat:
    """The heat that an insect has had: degree days that somebody counted, or the day from which they are counted."""

    disorder: str
    f_days: float | None = None
    since: date | None = None


@dataclass(frozen=True, slots=True)
class RecentWeather:
    """The weather of the season and of the winter before it."""

    wet_spring: bool | None = None
    hail: bool | None = None
    drought: bool | None = None
    waterlogged: bool | None = None
    rain_near_harvest: bool | None = None
    high_wind: bool | None = None
    high_f: float | None = None
    winter_low_f: float | None = None
    wet_periods: tuple[WetPeriod, ...] = ()
    insect_heat: tuple[InsectHeat, ...] = ()


@dataclass(frozen=True, slots=True)
class BloomTold:
    """How bloom went this spring; `low_f` is the lowest temperature from bud swell to small fruit."""

    frost: bool | None = None
    low_f: float | None = None
    amount: BloomAmount | None = None
    bees: bool | None = None
    cold_or_wet: bool | None = None
    full_bloom: date | None = None


@dataclass(frozen=True, slots=True)
class Care:
    """How the tree is kept."""

    watering: Watering | None = None
    feeding: Feeding | None = None
    pruning: Pruning | None = None
    weedkiller: bool | None = None
    sprayed: bool | None = None
    grass_to_trunk: bool | None = None
    dormant_spray: bool | None = None
    overhead_water: bool | None = None
    thinned: bool | None = None


@dataclass(frozen=True, slots=True)
class SickTree:
    """The tree that is brought up, with what is seen on it; `size` is how large it grows on its rootstock."""

    crop: str
    cultivar: str | None = None
    age_years: float | None = None
    size: Size | None = None
    vigour: Vigour | None = None
    last_crop: LastCrop | None = None
    bearing: Bearing | None = None
    stage: str | None = None
    seen: Seen = field(default_factory=Seen)
    weather: RecentWeather = field(default_factory=RecentWeather)
    bloom: BloomTold = field(default_factory=BloomTold)
    care: Care = field(default_factory=Care)
