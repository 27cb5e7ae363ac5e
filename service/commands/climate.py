"""`fruitwright climate`: the climate in a file of temperatures, as a table."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import click

from service.domain.climate import Chill, ClimateSummary, FrostDay, WinterWindow
from service.domain.errors import FruitwrightError, NotUnderstood
from service.domain.month_day import read_month_day
from service.domain.units import month_text, number_text, quantity_text
from service.domain.weather import Unit
from service.intake.weather.csv_file import read_weather_csv
from service.intake.weather.plausible import refuse_wrong_unit
from service.knowledge.climate import read_climate
from service.knowledge.source_file import read_sources
from service.present.climate import UNIT_NAMES
from service.questions.climate import ClimateQuestion, summarise_climate
from service.settings import read_settings

_HEADS = ("winter", "≤ 45 °F h", "32-45 °F h", "Utah", "pos. Utah", "portions", "read")
_OPTIONS = {"/units": "--units", "/latitude": "--latitude", "/winter": "--winter"}


@click.command("climate")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--latitude", type=click.FloatRange(-90, 90), required=True, help="Degrees; south is negative.")
@click.option("--units", type=click.Choice(get_args(Unit)), help="Needed where the columns do not name their unit.")
@click.option("--winter", metavar="MM-DD:MM-DD", help="When chill is counted, such as 11-01:02-28.")
def climate(file: Path, latitude: float, units: Unit | None, winter: str | None) -> None:
    """Summarise the temperatures in FILE: winter chill, winter cold and frost."""
    try:
        lines = tuple(_lines(_summary(file, latitude, units=units, winter=winter)))
    except NotUnderstood as fault:
        raise FruitwrightError("\n".join(_in_words(*one) for one in fault.faults)) from None
    for line in lines:
        click.echo(line)


def _summary(file: Path, latitude: float, *, units: Unit | None, winter: str | None) -> ClimateSummary:
    rules = read_settings(os.environ).rules
    models = read_climate(rules, read_sources(rules))
    reading = read_weather_csv(file.read_bytes(), unit=units)
    refuse_wrong_unit(reading, latitude, models.plausible)
    question = ClimateQuestion(latitude, reading, None if winter is None else _window(winter))
    return summarise_climate(question, models)


def _in_words(pointer: str, detail: str) -> str:
    """The fault with the option that it is about; a fault in the file names its row itself."""
    option = _OPTIONS.get(pointer)
    return detail if option is None else f"{option}: {detail}"


def _window(text: str) -> WinterWindow:
    first, _, last = text.partition(":")
    try:
        return WinterWindow(read_month_day(first), read_month_day(last))
    except ValueError as fault:
        raise NotUnderstood(("/winter", str(fault))) from None


def _lines(summary: ClimateSummary) -> Iterator[str]:
    yield from _read_lines(summary)
    if summary.winters:
        yield ""
        yield from _winter_lines(summary)
    yield ""
    yield from _place_lines(summary)
    for warning in summary.warnings:
        yield f"Mind: {warning}"


def _read_lines(summary: ClimateSummary) -> Iterator[str]:
    reading = summary.reading
    span = "" if summary.first_day is None else f" from {summary.first_day} to {summary.last_day}"
    yield f"Read {reading.rows:,} rows of {reading.kind} temperatures in {UNIT_NAMES[reading.unit]}{span}."
    if summary.gaps and summary.gaps.missing:
        gaps = summary.gaps
        yield (
            f"Missing are {gaps.missing:,} of {gaps.of:,} {gaps.unit}; the longest gap has {gaps.longest:,}, from"
            f" {gaps.longest_from} on."
        )
    if reading.repeated_rows:
        rows = "row tells" if reading.repeated_rows == 1 else "rows tell"
        yield f"{reading.repeated_rows:,} {rows} a time that another row tells."
    yield from reading.notes


def _winter_lines(summary: ClimateSummary) -> Iterator[str]:
    yield _row(_HEADS)
    for winter in summary.winters:
        share = f"{winter.coverage:.1%}" + ("" if winter.counted else " *")
        yield _row((winter.label, *_figures(winter.chill), share))
    if summary.safe_chill:
        yield _row(("safe", *_figures(summary.safe_chill.chill)))
        yield "Safe is the chill that nine winters in ten exceed."
    if not all(winter.counted for winter in summary.winters):
        yield "* left out of the safe chill"


def _figures(chill: Chill) -> tuple[str, ...]:
    whole = (chill.chill_hours, chill.chill_hours_32_45, chill.utah_units, chill.positive_utah_units)
    return (*(f"{value:,.0f}" for value in whole), f"{chill.chill_portions:.1f}")


def _row(cells: tuple[str, ...]) -> str:
    return "".join(f"{cell:<9}" if place == 0 else f"{cell:>11}" for place, cell in enumerate(cells)).rstrip()


def _place_lines(summary: ClimateSummary) -> Iterator[str]:
    if summary.estimate:
        hours = number_text(round(summary.estimate.chill_hours, -1))
        yield f"Winter chill, estimated from {summary.estimate.line}: about {hours} hours at or below 45 °F."
    if summary.cold:
        minimum = quantity_text(round(summary.cold.mean_annual_minimum_f, 1), "f")
        yield f"Hardiness zone {summary.cold.zone}: mean annual minimum {minimum}, {summary.cold.years} winters."
    if summary.spring_frost:
        yield _frost_line("Last spring frost", "later", summary.spring_frost)
    if summary.autumn_frost:
        yield _frost_line("First autumn frost", "earlier", summary.autumn_frost)


def _frost_line(name: str, beyond: str, frost: FrostDay) -> str:
    if frost.one_in_ten is None:
        return f"{name}: none in nine years of ten ({frost.years} years)."
    cautious = f"{beyond} than {_day(frost.one_in_ten.month, frost.one_in_ten.day)} in one year of ten"
    middling = "none in most years" if frost.typical is None else _day(frost.typical.month, frost.typical.day)
    return f"{name}: {middling}, {cautious} ({frost.years} years)."


def _day(month: int, day: int) -> str:
    return f"{month_text(month)} {day}"
