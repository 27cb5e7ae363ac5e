"""What the weather, the water and the tree of the day forbid (see label_law)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.questions.label_law import NO_GREEN, Record, Use, kinds

COLDEST_F, HOTTEST_F, FREEZE_F, WINDIEST_MPH, NEAR_WATER_FT = 40, 90, 32, 10, 25


def of_the_day(record: Record, use: Use) -> Iterator[str]:
    """Heat, cold, frost, drought, wind and water; a printed limit takes the place of a default."""
    made_of = kinds(record)
    limits, weather = record["temperature_limits"], use.get("weather") or {}
    high, temp, low = weather.get("high_f"), weather.get("temp_f"), weather.get("low_48h_f")
    if use["crop"] == "apricot" and made_of & {"sulfur", "lime_sulfur"}:
        yield "sulfur on apricot"
    if "oil" in made_of:
        yield from _of_oil(limits, high, temp, low, thirsty=(use.get("tree") or {}).get("drought_stressed"))
    elif "sulfur" in made_of:
        hottest = limits["max_f"] if limits["max_f"] is not None else HOTTEST_F
        yield from ["heat not known"] if high is None else ["sulfur in heat"] if high >= hottest else []
    else:
        yield from _of_printed(limits, high, temp)
    if "copper" in made_of and use.get("stage") not in NO_GREEN:
        yield from ["frost not known"] if low is None else ["copper before frost"] if low <= FREEZE_F else []
    yield from _of_wind_and_water(record, use)


def _of_oil(limits: Any, high: Any, temp: Any, low: Any, *, thirsty: Any) -> Iterator[str]:
    hottest = limits["max_f"] if limits["max_f"] is not None else HOTTEST_F
    coldest = limits["min_f"] if limits["min_f"] is not None else COLDEST_F
    if high is None or temp is None or low is None:
        yield "weather not known"
    if high is not None and high > hottest:
        yield "oil in heat"
    if (temp is not None and temp < coldest) or (low is not None and low <= FREEZE_F):
        yield "oil in cold"
    if thirsty:
        yield "oil in drought"


def _of_printed(limits: Any, high: Any, temp: Any) -> Iterator[str]:
    for printed, told, beyond in ((limits["max_f"], high, 1), (limits["min_f"], temp, -1)):
        if printed is not None and told is None:
            yield "temperature not known"
        elif printed is not None and (told - printed) * beyond > 0:
            yield "printed temperature"


def _of_wind_and_water(record: Record, use: Use) -> Iterator[str]:
    around, wind = record["environmental"], (use.get("weather") or {}).get("wind_mph")
    strongest = around["wind_max_mph"] if around["wind_max_mph"] is not None else WINDIEST_MPH
    if wind is not None and wind > strongest:
        yield "windy"
    water, buffer = (use.get("site") or {}).get("water_ft"), around["buffer_ft"]
    if water is not None and buffer is not None and water < buffer:
        yield "water too near"
    if water is not None and buffer is None and around["aquatic_toxic"] and water < NEAR_WATER_FT:
        yield "near water"
