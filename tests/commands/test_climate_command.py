"""`fruitwright climate FILE` prints a table and says what it read."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from service.cli import main
from service.commands.climate import climate
from service.domain.errors import FruitwrightError
from tests.published.weather_at_hand import package_file

SEATTLE = package_file("vega_datasets", "_data", "seattle-weather.csv")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(climate, arguments)


def test_the_table_and_what_was_read() -> None:
    printed = run(str(SEATTLE), "--latitude", "47.45", "--units", "c").output
    assert "Read 1,461 rows of daily temperatures in °C from 2012-01-01 to 2015-12-31." in printed
    row = next(line for line in printed.splitlines() if line.startswith("2012-13"))
    assert row.split() == ["2012-13", "1,971", "1,763", "2,200", "2,204", "90.0", "100.0%"]
    assert "Hardiness zone 9a: mean annual minimum 22.2 °F (−5.4 °C), 3 winters." in printed
    assert "Last spring frost: March 4, later than March 19 in one year of ten (4 years)." in printed
    assert "Mind: The safe chill rests on 3 winters" in printed


def test_winters_left_out_are_marked() -> None:
    lines = run(str(SEATTLE), "--latitude", "47.45", "--units", "c").output.splitlines()
    assert next(line for line in lines if line.startswith("2011-12")).endswith("49.3% *")
    assert "* left out of the safe chill" in lines


def test_gaps_and_repeated_rows_are_told(tmp_path: Path) -> None:
    file = tmp_path / "hours.csv"
    rows = [f"2013-01-01T{hour:02d}:00,40" for hour in (0, 1, 1, 5, 6)]
    file.write_text("time,temp_f\n" + "\n".join(rows), encoding="utf-8")
    printed = run(str(file), "--latitude", "36").output
    assert "Missing are 3 of 7 hours; the longest gap has 3, from 2013-01-01T02:00 on." in printed
    assert "1 row tells a time that another row tells." in printed


def test_monthly_means_give_an_estimate(tmp_path: Path) -> None:
    file = tmp_path / "months.csv"
    file.write_text("month,mean_f\n1,50\n", encoding="utf-8")
    printed = run(str(file), "--latitude", "33").output
    assert "Winter chill, estimated from January: about 850 hours at or below 45 °F." in printed


def test_a_winter_of_ones_own() -> None:
    printed = run(str(SEATTLE), "--latitude", "47.45", "--units", "c", "--winter", "12-01:01-31").output
    assert "2012-13" in printed
    assert "1,971" not in printed


def test_a_winter_that_is_none_is_refused() -> None:
    with pytest.raises(FruitwrightError, match=r"^--winter: .* write 03-20"):
        CliRunner().invoke(climate, [str(SEATTLE), "--latitude", "47.45", "--units", "c", "--winter", "x"],
                           catch_exceptions=False)  # fmt: skip


def test_a_wrong_unit_is_one_sentence_and_no_table(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    arguments = ["fruitwright", "climate", str(SEATTLE), "--latitude", "47.45", "--units", "f"]
    monkeypatch.setattr("sys.argv", arguments)
    with pytest.raises(SystemExit) as ended:
        main()
    told = capsys.readouterr()
    assert ended.value.code == 1
    assert told.err.startswith("the mean high of July would be 26.0 °F")
    assert told.out == ""


def test_a_fault_is_told_by_its_option_or_by_its_row(tmp_path: Path) -> None:
    nameless, slips = tmp_path / "nameless.csv", tmp_path / "slips.csv"
    nameless.write_text("DATE,TMAX,TMIN\n2013-01-01,8,2\n", encoding="utf-8")
    slips.write_text("date,min_c,max_c\n2013-01-01,cold,8\n2013-01-02,9,3\n2013-31-01,2,8\n", encoding="utf-8")
    of_units, of_rows = (run(str(file), "--latitude", "47.45").exception for file in (nameless, slips))
    assert str(of_units).startswith("--units: the columns do not say in which unit they stand")
    assert str(of_rows).startswith("row 2: “cold” is not a temperature")
