"""Frost: the temperatures that kill buds against extension tables, and the frost dates of real weather.

Washington State University's tables by stage, as republished by Michigan State, Penn State and Utah State University
Extension; the tart cherry rows as republished by Utah State.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.domain.climate import FrostDay
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
    """Last frosts 9 February, 4, 4 and 19 March; first 10, 12, 21 and 23 November; a frost is 0 °C or less.

    With four years the middling date is the later of the two in the middle, the cautious one the last (first) of all.
    """
    spring, autumn = frost_days(daily_minima(seattle(), models().safe), southern=False, models=models())
    assert spring == FrostDay(MonthDay(3, 4), MonthDay(3, 19), years=4, years_without_frost=0)
    assert autumn == FrostDay(MonthDay(11, 12), MonthDay(11, 10), years=4, years_without_frost=0)


def test_the_dates_of_frosts_in_the_file_are_as_told_above() -> None:
    low = seattle().min_c
    frosts = (np.datetime64("2012-01-01") + np.arange(low.size))[low <= 0.0].astype(str)
    years = ("2012", "2013", "2014", "2015")
    lasts = sorted(max(day for day in frosts if year <= day < f"{year}-07")[5:] for year in years)
    firsts = sorted(min(day for day in frosts if f"{year}-07" < day < f"{year}-13")[5:] for year in years)
    assert lasts == ["02-09", "03-04", "03-04", "03-19"]
    assert firsts == ["11-10", "11-12", "11-21", "11-23"]
