"""Water for one tree, month by month: what a lawn would give off, times the coefficient of the day, over the crown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from datetime import date

from service.compute.phenology import Mark, season_of
from service.compute.water import (
    CoefficientCurve,
    Crown,
    gallons_a_day,
    hargreaves_mm,
    inches,
    monthly_extremes_c,
    sun_above_mm,
)
from service.domain.climate import ClimateSummary
from service.domain.climate_models import Evapotranspiration
from service.domain.season_tree import SeasonTree
from service.questions.season.question import SeasonQuestion
from service.reasoning.vocabulary import Value

_MONTHS, _MIDDLE, _WEEK_DAYS = 12, 15, 7
_LEAVES_COME = ("bud_swell", "pink", "bloom")


@dataclass(frozen=True, slots=True)
class Drawn:
    """Gallons that the tree draws on a day of a month, and what they rest on."""

    year: int
    month: int
    gallons: float
    basis: str


def reference_inches(
    question: SeasonQuestion, climate: ClimateSummary | None, model: Evapotranspiration
) -> Mapping[int, tuple[float, str]]:
    """Reference evapotranspiration in inches a day of each month that is known: as told, else from temperatures."""
    found: dict[int, tuple[float, str]] = {}
    if climate is not None:
        for month, (low, high) in monthly_extremes_c(climate.reading.series).items():
            sun = sun_above_mm(climate.latitude, date(2001, month, _MIDDLE).timetuple().tm_yday, model)
            found[month] = (inches(hargreaves_mm(low, high, sun_mm=sun, model=model)), "temperatures")
    return found | {month: (et0, "given") for month, et0 in question.ground.et0_in.items()}


class Watering:
    """Works out the months in which one tree draws water."""

    def __init__(self, tree: SeasonTree, concluded: Mapping[str, Value], *,
                 marks: Mapping[int, Mapping[str, Mark]], southern: bool) -> None:  # fmt: skip
        self.tree, self.marks, self.southern = tree, marks, southern
        self.numbers = {name: float(value) for name, value in concluded.items() if isinstance(value, int | float)}

    def months(self, start: date, et0_in: Mapping[int, tuple[float, str]]) -> Iterator[Drawn]:
        """The twelve months from the first day of the plan on, without those in which the tree is bare."""
        for step in range(_MONTHS):
            month = (start.month - 1 + step) % _MONTHS + 1
            middle = date(start.year + (start.month - 1 + step) // _MONTHS, month, _MIDDLE)
            drawn = self.on(middle, et0_in.get(month))
            if drawn is not None:
                yield drawn

    def on(self, day: date, et0_in: tuple[float, str] | None) -> Drawn | None:
        """What the tree draws about this day."""
        in_leaf, curve, crown = self.days_in_leaf(day), self.curve(), self.crown()
        if in_leaf is None:
            return None
        if et0_in is not None and curve is not None and crown is not None:
            coefficient = curve.at(in_leaf)
            gallons = gallons_a_day(et0_in[0], curve.end if coefficient is None else coefficient, crown)
            return Drawn(day.year, day.month, gallons, et0_in[1])
        weekly = self.numbers.get("young_weekly_gal")
        return None if weekly is None else Drawn(day.year, day.month, weekly / _WEEK_DAYS, "young_tree")

    def days_in_leaf(self, day: date) -> int | None:
        """Days since leaves came; None where the tree is bare or nobody can tell."""
        marks = self.marks.get(season_of(day, southern=self.southern), {})
        leaves, falls = next((marks[name] for name in _LEAVES_COME if name in marks), None), marks.get("leaf_fall")
        if leaves is None or falls is None or not leaves.first <= day <= falls.last:
            return None
        return (day - leaves.first).days

    def curve(self) -> CoefficientCurve | None:
        """The coefficients that the rules conclude, where they conclude all of them."""
        names = [field.name for field in fields(CoefficientCurve)]
        if any(f"kc_{name}" not in self.numbers for name in names):
            return None
        return CoefficientCurve(**{name: self.numbers[f"kc_{name}"] for name in names})

    def crown(self) -> Crown | None:
        """The crown, where its width and the efficiency of watering are known."""
        efficiency = self.numbers.get("irrigation_efficiency")
        if self.tree.canopy_ft is None or efficiency is None:
            return None
        return Crown(self.tree.canopy_ft, efficiency, self.numbers.get("small_tree_times", 1.0))
