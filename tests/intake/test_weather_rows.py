"""Rows of JSON, and the places that faults point at."""

from __future__ import annotations

from contextlib import suppress
from typing import Any, Literal

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.domain.errors import NotUnderstood
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans
from service.intake.weather.json_rows import read_weather_rows

Kind = Literal["hourly", "daily", "monthly"]
HOUR = {"time": "2013-01-01T05:00", "temp_f": 41.0}
DAY = {"date": "2013-01-01", "min_c": 1.0, "max_c": 9}


def faults(kind: Kind, rows: Any) -> dict[str, str]:
    with pytest.raises(NotUnderstood) as found:
        read_weather_rows(kind, rows)
    return dict(found.value.faults)


def test_hours() -> None:
    series = read_weather_rows("hourly", [HOUR, {"time": "2013-01-01T06:00", "temp_f": None}]).series
    assert isinstance(series, HourlySeries)
    assert series.temp_c[5] == pytest.approx(5.0)
    assert np.isnan(series.temp_c[6])


def test_days() -> None:
    reading = read_weather_rows("daily", [DAY, {"date": "2013-01-02", "min_c": None, "max_c": 8}])
    assert isinstance(reading.series, DailySeries)
    assert reading.series.min_c == pytest.approx([1.0, np.nan], nan_ok=True)
    assert reading.empty_rows == 1


def test_months() -> None:
    series = read_weather_rows("monthly", [{"month": 1, "mean_f": 50}, {"month": 12, "mean_f": None}]).series
    assert isinstance(series, MonthlyMeans)
    assert series.mean_c == pytest.approx({1: 10.0})


@pytest.mark.parametrize(
    ("kind", "rows", "pointer"),
    [
        ("hourly", [], "/hourly"),
        ("hourly", "text", "/hourly"),
        ("hourly", [1], "/hourly/0"),
        ("hourly", [HOUR, 1], "/hourly/1"),
        ("hourly", [{"time": "2013-01-01T05:00"}], "/hourly/0"),
        ("hourly", [HOUR, {"time": "2013-01-01T06:00", "temp_c": 5}], "/hourly/1/temp_c"),
        ("hourly", [HOUR | {"humidity": 5}], "/hourly/0/humidity"),
        ("hourly", [HOUR | {"temp_f": "41"}], "/hourly/0/temp_f"),
        ("hourly", [HOUR | {"temp_f": True}], "/hourly/0/temp_f"),
        ("hourly", [HOUR | {"time": "yesterday"}], "/hourly/0/time"),
        ("hourly", [HOUR | {"time": 5}], "/hourly/0/time"),
        ("hourly", [{"time": "2013-01-01T05:00", "temp_f": None}, {"temp_f": 3}], "/hourly/1/time"),
        ("daily", [{"date": "2013-01-01", "min_c": 1.0}], "/daily/0/max_c"),
        ("daily", [DAY | {"min_c": 19.0}], "/daily/0"),
        ("daily", [DAY, DAY | {"max_c": 8}], "/daily"),
        ("monthly", [{"month": 13, "mean_c": 5}], "/monthly/0/month"),
        ("monthly", [{"month": 1.5, "mean_c": 5}], "/monthly/0/month"),
        ("monthly", [{"month": 1, "mean_c": None}], ""),
    ],
)
def test_a_fault_points_at_its_place(kind: Kind, rows: Any, pointer: str) -> None:
    assert pointer in faults(kind, rows)


def test_a_missing_and_a_strange_field_are_told_once_each() -> None:
    row = {"date": "2013-01-01", "min_c": 1, "max_f": 2}
    assert list(faults("daily", [row])) == ["/daily/0/max_f", "/daily/0/max_c"]


values = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5)
rows = st.lists(
    st.dictionaries(st.sampled_from(["time", "temp_f", "temp_c", "date", "min_c", "max_c", "month", "mean_f"]), values)
    | values,
    max_size=4,
)


@given(st.sampled_from(["hourly", "daily", "monthly"]), rows)
@settings(deadline=None)
def test_no_rows_do_anything_but_read_or_be_refused(kind: Kind, given_rows: Any) -> None:
    with suppress(NotUnderstood):  # any other error fails the test
        assert read_weather_rows(kind, given_rows).rows == len(given_rows)
