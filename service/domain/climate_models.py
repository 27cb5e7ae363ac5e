"""The parameters of the climate models as values: every number comes from rules/climate.yaml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.domain.bud_kill import BudKill
from service.domain.climate import ModelSource, WinterWindow


@dataclass(frozen=True, slots=True)
class ChillHours:
    """Hours count that lie between both limits, each included; without a lower one every colder hour does."""

    high_f: float
    low_f: float | None = None


@dataclass(frozen=True, slots=True)
class ChillClasses:
    """Units an hour earns: `units[i]` up to and at `edges_c[i]`, the last of them above the last edge."""

    edges_c: tuple[float, ...]
    units: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.units) != len(self.edges_c) + 1 or list(self.edges_c) != sorted(set(self.edges_c)):
            raise ValueError("edges rise, and there is one unit more than there are edges")

    def floored(self, lowest: float) -> ChillClasses:
        """The same classes with no hour below `lowest`.

        >>> ChillClasses((1.4,), (0.0, -1.0)).floored(0.0).units
        (0.0, 0.0)
        """
        return ChillClasses(self.edges_c, tuple(max(lowest, unit) for unit in self.units))


@dataclass(frozen=True, slots=True)
class PortionModel:
    """Constants of the Dynamic Model: activation energies over the gas constant (K), rates (per hour), transition."""

    e0_k: float
    e1_k: float
    a0_per_h: float
    a1_per_h: float
    slope: float
    transition_k: float
    kelvin_offset: float


@dataclass(frozen=True, slots=True)
class HeatCurve:
    """Growing degree hours: nothing at the base and at the critical temperature, most at the optimum."""

    base_c: float
    optimum_c: float
    critical_c: float
    stress: float


@dataclass(frozen=True, slots=True)
class Sun:
    """Terms of the sun's declination (radians), its altitude at sunrise, and the highest latitude they serve."""

    declination: tuple[float, ...]
    horizon_deg: float
    latitude_limit_deg: float


@dataclass(frozen=True, slots=True)
class DayCurve:
    """Hours by which the half sine of a day's temperatures outlasts the day itself."""

    sine_beyond_day_h: float


@dataclass(frozen=True, slots=True)
class Zones:
    """Half zones of the hardiness map: the coldest limit, the width of each, how many, the years of the map."""

    coldest_f: float
    width_f: float
    half_zones: int
    years_of_map: int


@dataclass(frozen=True, slots=True)
class FrostRule:
    """A day with this temperature or less is a frost; the share of years that a cautious date is good for."""

    threshold_f: float
    cautious_share: float


@dataclass(frozen=True, slots=True)
class SafeRule:
    """Which share of winters may fall short, how much of a winter must have been read, how many winters are enough."""

    quantile: float
    coverage: float
    winters_wanted: int


@dataclass(frozen=True, slots=True)
class ChillLine:
    """Chill hours as a straight line over a mean temperature: of midwinter's month, or of it and the month before."""

    name: str
    intercept_hours: float
    hours_per_f: float
    months_before: int


@dataclass(frozen=True, slots=True)
class ChillLines:
    """The lines, the means that they were made for, and how far they were seen to err."""

    lines: tuple[ChillLine, ...]
    from_f: float
    to_f: float
    bias: str


@dataclass(frozen=True, slots=True)
class Midwinter:
    """From this latitude on, the mean daily maximum of midwinter's month lies between these."""

    latitude_from_deg: float
    lowest_c: float
    highest_c: float


@dataclass(frozen=True, slots=True)
class Plausible:
    """What temperatures on Earth, and where fruit grows, look like: figures beyond are in another unit.

    The mean of a month of which fewer than `days_of_a_month` were read may lie `few_days_c` further out.
    """

    lowest_c: float
    highest_c: float
    summer_mean_maximum_c: float
    midwinters: tuple[Midwinter, ...]
    days_of_a_month: float
    few_days_c: float
    seasons_from_latitude_deg: float

    def midwinter_at(self, latitude: float) -> Midwinter:
        """The bounds for a latitude: those of the highest latitude that it reaches."""
        return max((row for row in self.midwinters if row.latitude_from_deg <= abs(latitude)), key=_latitude)


def _latitude(row: Midwinter) -> float:
    return row.latitude_from_deg


@dataclass(frozen=True, slots=True)
class Seasons:
    """Windows of the northern year; the southern ones lie six months away."""

    winter: WinterWindow
    midwinter: WinterWindow
    year: WinterWindow


@dataclass(frozen=True, slots=True)
class Evapotranspiration:
    """Water that a reference lawn gives off, from the extremes of a day and the sun above the air."""

    solar_constant_mj: float
    distance: float
    declination_rad: float
    phase_rad: float
    mm_per_mj: float
    coefficient: float
    offset_c: float


@dataclass(frozen=True, slots=True)
class ClimateModels:
    """All parameters, and by model the publications that they come from."""

    hours_at_or_below_45f: ChillHours
    hours_32_45f: ChillHours
    utah: ChillClasses
    positive_utah: ChillClasses
    portions: PortionModel
    heat: HeatCurve
    sun: Sun
    day_curve: DayCurve
    zones: Zones
    frost: FrostRule
    safe: SafeRule
    lines: ChillLines
    plausible: Plausible
    seasons: Seasons
    evapotranspiration: Evapotranspiration
    bud_kill: Mapping[str, BudKill]
    sources: Mapping[str, tuple[ModelSource, ...]]
