"""Frost: the temperatures that kill buds against extension tables, and the frost dates of real weather.

Washington State University's tables by stage, as republished by Michigan State, Penn State and Utah State University
Extension; the tart cherry rows as republished by Utah State.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.domain.month_day import MonthDay
from service.domain.weather import celsius
from service.questions.climate_cold import daily_minima, frost_days
from service.reasoning.rulebook import Rulebook
from tests.published.weather_at_hand import models, seattle

BUDS = models().bud_kill


@pytest.mark.parametrize(
    ("crop", "stage", "one_in_ten_f", "nine_in_ten_f", "one_in_ten_c", "nine_in_ten_c"),
    [
        ("apple", "full_bloom", 28, 25, -2.2, -3.9),
        ("apple", "silver_tip", 15, 2, -9.4, -16.7),
        ("peach", "first_pink", 25, 15, -3.9, -9.4),
        ("european_pear", "full_bloom", 28, 24, -2.2, -4.4),
        ("sweet_cherry", "first_white", 27, 24, -2.8, -4.4),
        ("tart_cherry", "full_bloom", 28, 25, -2.2, -3.9),
    ],
)
def test_killing_temperatures_are_those_of_the_tables(
    crop: str, stage: str, one_in_ten_f: float, nine_in_ten_f: float, one_in_ten_c: float, nine_in_ten_c: float
) -> None:
    found = BUDS[crop].at(stage)
    assert found is not None
    assert (found.kill_10_percent_f, found.kill_90_percent_f) == (one_in_ten_f, nine_in_ten_f)
    assert celsius(found.kill_10_percent_f) == pytest.approx(one_in_ten_c, abs=0.05)
    assert celsius(nine_in_ten_f) == pytest.approx(nine_in_ten_c, abs=0.05)


def test_buds_grow_tenderer_from_stage_to_stage() -> None:
    for buds in BUDS.values():
        killing = [stage.kill_10_percent_f for stage in buds.stages]
        assert killing == sorted(killing), buds.crop
        most = [stage.kill_90_percent_f for stage in buds.stages if stage.kill_90_percent_f is not None]
        assert most == sorted(most), buds.crop


def test_every_crop_with_killing_temperatures_is_a_crop_of_the_catalogue(rulebook: Rulebook) -> None:
    assert set(BUDS) <= set(rulebook.catalogue.crops)


def test_frost_dates_of_seattle_are_those_read_off_the_file() -> None:
    """2012-2015: last frosts 6 and 24 March, 24 February and 4 March; first 10, 20, 12 and 17 November."""
    low = seattle().min_c
    dates = np.datetime64("2012-01-01") + np.arange(low.size)
    frosts = dates[low <= 0.0]
    spring, autumn = frost_days(daily_minima(seattle(), models().safe), southern=False, models=models())
    lasts = sorted(str(max(day for day in frosts if str(day) < f"{year}-07-01"))[5:] for year in range(2012, 2016))
    firsts = sorted(
        str(min(day for day in frosts if f"{year}-07-01" < str(day) <= f"{year}-12-31"))[5:]
        for year in range(2012, 2016)
    )
    assert spring is not None
    assert autumn is not None
    assert spring.typical == MonthDay(int(lasts[2][:2]), int(lasts[2][3:]))
    assert autumn.typical == MonthDay(int(firsts[1][:2]), int(firsts[1][3:]))
    assert spring.one_in_ten == MonthDay(int(lasts[3][:2]), int(lasts[3][3:]))
    assert autumn.one_in_ten == MonthDay(int(firsts[0][:2]), int(firsts[0][3:]))
    print(lasts, firsts)
