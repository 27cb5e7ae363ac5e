"""Files of temperatures as people have them, and what is said of those that cannot be read."""

from __future__ import annotations

from contextlib import suppress

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.domain.errors import NotUnderstood
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans, Reading
from service.intake.weather.csv_file import MOST_BYTES, read_weather_csv

STATION_FILE = b"""\
"STATION","NAME","DATE","PRCP","TMAX","TMIN"
"USX0000001","A STATION","2013-07-01","0.10","78","57"
"USX0000001","A STATION","2013-07-02","","81",""
"USX0000001","A STATION","2013-07-03","","83","60"
"""


def read(text: str, **said: str) -> Reading:
    return read_weather_csv(text.encode(), **said)  # type: ignore[arg-type]


def hours(reading: Reading) -> HourlySeries:
    assert isinstance(reading.series, HourlySeries)
    return reading.series


def days(reading: Reading) -> DailySeries:
    assert isinstance(reading.series, DailySeries)
    return reading.series


def fault(text: str, **said: str) -> tuple[str, str]:
    with pytest.raises(NotUnderstood) as found:
        read(text, **said)
    return found.value.faults[0]


def test_two_columns_of_hours_in_fahrenheit() -> None:
    series = hours(read("time,temp_f\n2013-01-01T05:00,41\n2013-01-01T06:00,32\n2013-01-01T07:00,50\n"))
    assert series.first_day == np.datetime64("2013-01-01")
    assert series.temp_c[5:8] == pytest.approx([5.0, 0.0, 10.0])
    assert np.isnan(series.temp_c[:5]).all()


def test_days_with_their_extremes() -> None:
    series = days(read("date,max_c,min_c\n2013-01-01,9.5,-1\n2013-01-03,7,2\n"))
    assert series.min_c == pytest.approx([-1.0, np.nan, 2.0], nan_ok=True)
    assert series.max_c == pytest.approx([9.5, np.nan, 7.0], nan_ok=True)


def test_monthly_means() -> None:
    reading = read("month,mean_f\n1,50\n12,41\n1,32\n")
    assert isinstance(reading.series, MonthlyMeans)
    assert reading.series.mean_c == pytest.approx({1: 5.0, 12: 5.0})
    assert reading.repeated_rows == 1


@pytest.mark.parametrize(("unit", "max_c"), [("f", 25.5556), ("c", 78.0), ("tenths_c", 7.8)])
def test_a_station_file_is_read_in_the_unit_that_is_said(unit: str, max_c: float) -> None:
    reading = read(STATION_FILE.decode(), unit=unit)
    assert days(reading).max_c[0] == pytest.approx(max_c, abs=1e-4)
    assert np.isnan(days(reading).min_c[1])
    assert (reading.rows, reading.empty_rows) == (3, 1)


def test_a_station_file_without_a_unit_is_refused() -> None:
    pointer, sentence = fault(STATION_FILE.decode())
    assert pointer == "/units"
    assert "say f, c or tenths_c" in sentence


def test_a_unit_that_contradicts_the_columns_is_refused() -> None:
    assert fault("date,min_f,max_f\n2013-01-01,30,40\n", unit="c")[0] == "/units"


def test_columns_of_different_units_are_refused() -> None:
    assert "different units" in fault("date,min_f,max_c\n2013-01-01,30,4\n")[1]


@pytest.mark.parametrize(
    "header", ["Date;Min (°C);Max (°C)", "date;tmin_degc;tmax_degc", "DAY;minimum temperature (Celsius);maximum (C)"]
)
def test_semicolons_decimal_commas_and_a_byte_order_mark(header: str) -> None:
    text = f"\ufeff{header}\r\n2013-01-01;-1,5;9,25\r\n"
    series = days(read_weather_csv(text.encode("utf-8")))
    assert (series.min_c[0], series.max_c[0]) == (-1.5, 9.25)


def test_a_file_in_an_older_encoding_is_read() -> None:
    text = "Date;Min (°C);Max (°C)\n2013-01-01;1;9\n"
    assert days(read_weather_csv(text.encode("cp1252"))).max_c[0] == 9.0


def test_tenths_named_in_the_header() -> None:
    series = days(read("date\ttmin_tenths_c\ttmax_tenths_of_deg_c\n2013-01-01\t-15\t92\n"))
    assert (series.min_c[0], series.max_c[0]) == (-1.5, 9.2)


@pytest.mark.parametrize("moment", ["1/31/2013 5:00 PM", "01/31/2013 17:00", "2013-01-31 17:00:00", "2013/1/31 17:00",
                                    "2013-01-31T17:00:00-08:00", "2013-01-31T17:53"])  # fmt: skip
def test_times_as_people_write_them(moment: str) -> None:
    assert hours(read(f"time,temp_c\n{moment},7\n")).temp_c[17] == 7.0


def test_date_and_time_may_stand_in_two_columns_and_a_day_may_end_at_24() -> None:
    series = hours(read("Date,Time,temp_c\n01/01/2013,23:00,4\n01/01/2013,24:00,5\n"))
    assert (series.temp_c[23], series.temp_c[24]) == (4.0, 5.0)


def test_a_day_first_date_is_refused_and_not_turned_around() -> None:
    pointer, sentence = fault("date,min_c,max_c\n31/01/2013,1,9\n")
    assert pointer == "/2"
    assert "month/day/year" in sentence


@pytest.mark.parametrize("mark", ["", "NA", "-9999", "9999", "M", "-", "nan"])
def test_marks_for_no_reading_are_gaps(mark: str) -> None:
    reading = read(f"time,temp_c\n2013-01-01T00:00,4\n2013-01-01T01:00,{mark}\n2013-01-01T02:00,5\n")
    assert np.isnan(hours(reading).temp_c[1])
    assert reading.empty_rows == 1


def test_readings_within_one_hour_are_averaged_and_that_is_said() -> None:
    reading = read("time,temp_c\n2013-01-01T00:05,4\n2013-01-01T00:35,6\n2013-01-01T01:05,8\n")
    assert hours(reading).temp_c[:2] == pytest.approx([5.0, 8.0])
    assert any("averaged" in note for note in reading.notes)


def test_a_row_told_twice_is_counted_once() -> None:
    reading = read("date,min_c,max_c\n2013-01-01,1,9\n2013-01-01,1,9\n")
    assert reading.repeated_rows == 1
    assert days(reading).max_c == pytest.approx([9.0])


def test_a_day_told_twice_with_other_temperatures_is_refused() -> None:
    assert "2013-01-01 stands twice" in fault("date,min_c,max_c\n2013-01-01,1,9\n2013-01-01,1,8\n")[1]


def test_one_temperature_a_day_is_refused() -> None:
    rows = "".join(f"2013-01-{day:02d},5\n" for day in range(1, 20))
    assert "one temperature a day" in fault("date,temp_c\n" + rows)[1]


def test_a_low_above_its_high_is_refused_at_its_row() -> None:
    assert fault("date,min_c,max_c\n2013-01-01,1,9\n2013-01-02,9,1\n")[0] == "/3"


def test_several_stations_in_one_file_are_refused() -> None:
    assert "2 stations" in fault("STATION,DATE,TMAX,TMIN\nA,2013-01-01,50,40\nB,2013-01-01,50,40\n", unit="f")[1]


@pytest.mark.parametrize("text", ["", "\n\n", "a,b\n1,2\n", "date,temp\n", "1,2\n3,4\n", "time\n2013-01-01\n"])
def test_a_file_without_the_columns_is_told_which_are_needed(text: str) -> None:
    with pytest.raises(NotUnderstood) as found:
        read(text)
    assert "time and temp_f" in str(found.value) or "do not say in which unit" in str(found.value)


@pytest.mark.parametrize("cell", ["warm", "1_0", "1,234.5", "0x10", "inf", "--5"])
def test_a_cell_that_is_no_temperature_is_refused_at_its_row(cell: str) -> None:
    pointer, sentence = fault(f'time,temp_c\n2013-01-01T00:00,4\n2013-01-01T01:00,"{cell}"\n')
    assert pointer == "/3"
    assert "is not a temperature" in sentence


def test_many_faulty_rows_are_told_in_part_and_counted() -> None:
    with pytest.raises(NotUnderstood) as found:
        read("time,temp_c\n" + "2013-01-01T00:00,warm\n" * 25)
    assert len(found.value.faults) == 11
    assert "15 more rows" in found.value.faults[-1][1]


def test_a_short_row_is_refused() -> None:
    assert "2 are needed" in fault("time,temp_c\n2013-01-01T00:00\n")[1]


def test_a_slip_of_centuries_is_refused() -> None:
    assert "at most 150 years" in fault("date,min_c,max_c\n0213-01-01,1,9\n2013-01-02,1,9\n")[1]


def test_a_file_beyond_the_limit_is_refused() -> None:
    with pytest.raises(NotUnderstood, match="MB"):
        read_weather_csv(b"time,temp_c\n" + b" " * MOST_BYTES)


def test_a_header_without_rows_is_refused() -> None:
    assert "no row" in fault("time,temp_c\n")[1]


@given(st.permutations(range(40)))
@settings(max_examples=30, deadline=None)
def test_the_order_of_rows_does_not_matter(order: list[int]) -> None:
    rows = [f"2013-01-{1 + place // 24:02d}T{place % 24:02d}:00,{place / 4}" for place in range(40)]
    shuffled = hours(read("time,temp_c\n" + "\n".join(rows[place] for place in order)))
    assert np.array_equal(shuffled.temp_c, hours(read("time,temp_c\n" + "\n".join(rows))).temp_c, equal_nan=True)


@given(st.binary(max_size=400))
@settings(max_examples=150, deadline=None)
def test_no_bytes_do_anything_but_read_or_be_refused(data: bytes) -> None:
    for text in (data, b"time,temp_c\n" + data, b"date,min_f,max_f\n" + data):
        with suppress(NotUnderstood):  # any other error fails the test
            assert read_weather_csv(text).rows > 0
