"""The climate of a place from its temperatures: winter chill, winter cold and frost."""

from __future__ import annotations

from typing import Any

from flask import request

from service.api.advice import envelope
from service.api.climate_asked import CSV, ClimateAsked, ClimateFileAsked, question_in_csv, question_in_json
from service.api.fields import Told, choice, date_text, flag, list_of, month_day, nested, number, text, whole
from service.api.house import Resource, parts
from service.domain.errors import NotUnderstood
from service.present.climate import climate_advice
from service.questions.climate import summarise_climate

blueprint = Resource("climate-summaries", "Winter chill, winter cold and frost from a series of temperatures.")
CSV_EXAMPLE = "date,min_f,max_f\n2012-11-01,38,54\n2012-11-02,41,57\n"


class ReadTold(Told):
    """What was read, and how."""

    kind = choice("What the rows are.", values=("hourly", "daily", "monthly"), example="daily", required=True)
    unit = choice("Unit in which they were read.", values=("°F", "°C", "tenths of °C"), required=True)
    rows = whole("Rows read.", unit="count", example=1461, required=True)
    empty_rows = whole("Rows without a reading.", unit="count", example=0, required=True)
    repeated_rows = whole("Rows of a time that was told before.", unit="count", example=0, required=True)
    first_day = date_text("First day; null for monthly means.", example="2012-01-01", nullable=True, required=True)
    last_day = date_text("Last day; null for monthly means.", example="2015-12-31", nullable=True, required=True)
    notes = list_of(text("A note.", example="The rows were sorted."), "What was done to the rows.",
                    example=["The rows were not in order of time; they were sorted."], required=True)  # fmt: skip


class ChillTold(Told):
    """Winter chill in each of the published counts."""

    chill_hours = number("Hours at or below 45 °F.", unit="hours", example=1370.8, required=True)
    chill_hours_32_45 = number("Hours from 32 to 45 °F.", unit="hours", example=1219.0, required=True)
    utah_units = number("Utah chill units.", unit="units", example=1959.1, required=True)
    positive_utah_units = number("Positive Utah chill units.", unit="units", example=1971.5, required=True)
    chill_portions = number("Chill portions of the Dynamic Model.", unit="portions", example=87.86, required=True)


class WinterTold(ChillTold):
    """One winter."""

    winter = text("The winter.", example="2012-13", required=True)
    coverage = number("Share of its hours that were read.", unit="share", example=1.0, required=True)
    counted = flag("True where it enters the safe chill.", required=True)


class SafeChillTold(ChillTold):
    """The chill that nine winters in ten exceed, each count on its own."""

    winters = whole("Winters behind it.", unit="count", example=3, required=True)


class EstimateTold(Told):
    """Chill guessed from monthly means."""

    chill_hours = whole("Hours at or below 45 °F in a middling winter.", unit="hours", example=1063, required=True)
    from_means_of = text("Months whose mean it rests on.", example="January", required=True)
    mean_f = number("Their mean temperature.", unit="°F", example=46.0, required=True)
    within_range = flag("True where such a line is of use for this mean.", required=True)
    bias = text("How far such lines err.", example="Off by 20 to 500 hours.", longest=1000, required=True)


class FrostTold(Told):
    """A frost date; null where such years have no frost."""

    typical = month_day("The date of a middling year.", example="03-04", nullable=True, required=True)
    one_in_ten = month_day("The date that is passed in one year of ten.", example="03-19", nullable=True, required=True)
    years = whole("Years behind it.", unit="count", example=4, required=True)
    years_without_frost = whole("Years of these without any frost.", unit="count", example=0, required=True)


class FrostsTold(Told):
    """Frost at both ends of the season."""

    spring = nested(FrostTold, "The last frost of spring.", nullable=True, required=True)
    autumn = nested(FrostTold, "The first frost of autumn.", nullable=True, required=True)


class GapsTold(Told):
    """Where nothing was read between the first and the last reading."""

    unit = choice("What is counted.", values=("hours", "days"), example="days", required=True)
    missing = whole("How many are missing.", unit="count", example=0, required=True)
    of = whole("Of how many.", unit="count", example=1461, required=True)
    longest = whole("Length of the longest gap.", unit="count", example=0, required=True)
    longest_from = text("Where the longest gap begins; null without gaps.", example="2013-02-03", nullable=True,
                        required=True)  # fmt: skip


class WindowTold(Told):
    """The days on which chill was counted."""

    from_ = month_day("First day.", example="11-01", required=True)
    to = month_day("Last day; the end of February includes the 29th.", example="02-29", required=True)


class ModelSourceTold(Told):
    """The publication that a computation follows."""

    model = text("The computation.", example="dynamic_model", required=True)
    id = text("Id of the source.", example="fishman1987a", required=True)
    title = text("Title.", example="The temperature dependence of dormancy breaking in plants", longest=1000,
                 required=True)  # fmt: skip
    publisher = text("Publisher.", example="Journal of Theoretical Biology", longest=500, required=True)
    year = whole("Year of publication.", unit="year", example=1987, nullable=True, required=True)
    url = text("Where it is found.", example="https://doi.org/10.1000/1", longest=1000, nullable=True, required=True)
    where = text("What was taken from it.", example="the two-step model", longest=1000, required=True)
    from_memory = flag("True when nobody saw it in the publication.", example=False, required=True)


class ClimateTold(Told):
    """What a series of temperatures says of a place; what it does not say is null."""

    read = nested(ReadTold, "What was read.", required=True)
    winter = nested(WindowTold, "When chill was counted.", required=True)
    winters = nested(WinterTold, "Each winter that was read at least in part.", many=True, required=True)
    safe_chill = nested(SafeChillTold, "The chill that one may count on.", nullable=True, required=True)
    chill_estimate = nested(EstimateTold, "A guess from monthly means.", nullable=True, required=True)
    hardiness_zone = text("Half zone of the mean annual minimum.", example="9a", nullable=True, required=True)
    mean_annual_minimum_f = number("Mean of the years' lowest temperatures.", unit="°F", example=22.2, nullable=True,
                                   required=True)  # fmt: skip
    minima = whole("Years behind it.", unit="count", example=3, nullable=True, required=True)
    last_spring_frost = month_day("Last spring frost of a middling year; null where it is not known or where such a"
                                  " year has none.", example="03-04", nullable=True, required=True)  # fmt: skip
    first_autumn_frost = month_day("First autumn frost of a middling year; null where it is not known or where such a"
                                   " year has none.", example="11-12", nullable=True, required=True)  # fmt: skip
    frosts = nested(FrostsTold, "Frost dates with their one-in-ten dates.", required=True)
    gaps = nested(GapsTold, "What is missing in the series.", nullable=True, required=True)
    warnings = list_of(text("A warning.", example="The safe chill rests on 3 winters.", longest=2000),
                       "What weakens the summary.", example=["The safe chill rests on 3 winters."],
                       required=True)  # fmt: skip
    sources = nested(ModelSourceTold, "The publications that the computations follow.", many=True, required=True)


@blueprint.route("/climate-summaries", methods=["POST"])
@blueprint.asks(ClimateAsked, also=(CSV,))
@blueprint.asks_in_query(ClimateFileAsked)
@blueprint.answers(envelope("ClimateSummary", ClimateTold))
@blueprint.shows(None, documented=("monthly",))
@blueprint.doc(requestBody={"content": {CSV: {"schema": {"type": "string"}, "example": CSV_EXAMPLE}}})  # type: ignore[untyped-decorator]
def summarise(asked: dict[str, Any] | None, query: dict[str, Any]) -> dict[str, Any]:
    """Summarise the climate of a place.

    Takes hourly temperatures, daily extremes or monthly means of one place, as JSON or as a CSV file (`text/csv`, with
    the latitude in the query string). Columns of a file are `time, temp_f`, or `date, min_f, max_f`, or
    `month, mean_f`, each with `_c` as well; a station file with DATE, TMAX and TMIN needs `units`.
    """
    models = parts().climate
    if asked is None:
        question = question_in_csv(query, request.get_data(), models)
    elif query:
        raise NotUnderstood((f"/{next(iter(query))}", "With a JSON body this stands in the body."))
    else:
        question = question_in_json(asked, models)
    return climate_advice(summarise_climate(question, models), rulebook=parts().rulebook)
