"""The climate of a place as fruit trees feel it: winter chill, winter cold, and frost at both ends of the season."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from service.domain.month_day import MonthDay
from service.domain.weather import Kind, Reading

ChillBasis = Literal["series", "estimate"]


@dataclass(frozen=True, slots=True)
class WinterWindow:
    """The days of a year on which chill is counted; the end of February includes the 29th."""

    first: MonthDay
    last: MonthDay

    @property
    def crosses_new_year(self) -> bool:
        """True where the window begins in one calendar year and ends in the next.

        >>> WinterWindow(MonthDay(11, 1), MonthDay(2, 28)).crosses_new_year
        True
        """
        return self.last < self.first


@dataclass(frozen=True, slots=True)
class Chill:
    """Winter chill in each of the published counts; hours, units or portions as the name says."""

    chill_hours: float
    chill_hours_32_45: float
    utah_units: float
    positive_utah_units: float
    chill_portions: float


@dataclass(frozen=True, slots=True)
class Winter:
    """One winter: its chill over the hours that were read, and the share of its hours that were.

    `counted` is false where too much of the winter is missing for it to enter the safe figure.
    """

    label: str
    chill: Chill
    coverage: float
    counted: bool

    @property
    def chill_hours(self) -> float:
        """Hours at or below 45 °F."""
        return self.chill.chill_hours

    @property
    def chill_portions(self) -> float:
        """Chill portions of the Dynamic Model."""
        return self.chill.chill_portions


@dataclass(frozen=True, slots=True)
class SafeChill:
    """The chill that nine winters in ten exceed, and the number of winters behind it."""

    chill: Chill
    winters: int


@dataclass(frozen=True, slots=True)
class ChillEstimate:
    """Chill hours at or below 45 °F guessed from monthly means, by which line, and how far such lines err."""

    chill_hours: float
    line: str
    mean_f: float
    within_range: bool
    bias: str


@dataclass(frozen=True, slots=True)
class FrostDay:
    """A frost date of a middling year, and the one that is passed in one year of ten; None where no frost comes."""

    typical: MonthDay | None
    one_in_ten: MonthDay | None
    years: int
    years_without_frost: int


@dataclass(frozen=True, slots=True)
class WinterCold:
    """The mean of the lowest temperatures of the years, and the hardiness zone that it falls into."""

    mean_annual_minimum_f: float
    zone: str
    years: int


@dataclass(frozen=True, slots=True)
class Gaps:
    """Hours or days between the first and the last reading on which nothing was read."""

    unit: Literal["hours", "days"]
    missing: int
    of: int
    longest: int
    longest_from: str | None


@dataclass(frozen=True, slots=True)
class ModelSource:
    """Which publication a computation follows, and where in it."""

    model: str
    ref: str
    where: str
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class ClimateSummary:
    """What a series of temperatures says of a place; whatever it does not say is None."""

    latitude: float
    reading: Reading
    first_day: date | None
    last_day: date | None
    window: WinterWindow
    winters: tuple[Winter, ...]
    safe_chill: SafeChill | None
    estimate: ChillEstimate | None
    cold: WinterCold | None
    spring_frost: FrostDay | None
    autumn_frost: FrostDay | None
    gaps: Gaps | None
    warnings: tuple[str, ...]
    sources: tuple[ModelSource, ...]

    @property
    def kind(self) -> Kind:
        """Whether hours, days or months were read."""
        return self.reading.kind

    @property
    def chill_basis(self) -> ChillBasis:
        """Whether the chill was counted in a series or guessed from monthly means."""
        return "estimate" if self.estimate else "series"

    @property
    def counted_winters(self) -> tuple[Winter, ...]:
        """The winters that entered the safe figure."""
        return tuple(winter for winter in self.winters if winter.counted)

    @property
    def safe_chill_hours(self) -> float | None:
        """Hours at or below 45 °F that nine winters in ten exceed."""
        return self.safe_chill.chill.chill_hours if self.safe_chill else None

    @property
    def safe_chill_portions(self) -> float | None:
        """Chill portions that nine winters in ten exceed."""
        return self.safe_chill.chill.chill_portions if self.safe_chill else None

    @property
    def hardiness_zone(self) -> str | None:
        """The half zone, such as 7b."""
        return self.cold.zone if self.cold else None

    @property
    def last_spring_frost(self) -> MonthDay | None:
        """The last spring frost of a middling year."""
        return self.spring_frost.typical if self.spring_frost else None

    @property
    def first_autumn_frost(self) -> MonthDay | None:
        """The first autumn frost of a middling year."""
        return self.autumn_frost.typical if self.autumn_frost else None
