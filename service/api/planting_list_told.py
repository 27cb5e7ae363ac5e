"""What the answer on a planting list holds."""

from __future__ import annotations

from typing import get_args

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, flag, list_of, month_day, nested, number, text, whole
from service.api.planting_list_line_told import AddedTreeTold, ListLineTold, RootNamedTold, VarietyNamedTold
from service.domain.checked_list import Change, NoRepairReason
from service.domain.planting_list import Kind, Why

LIST_VERDICTS = ("does_not_pass", "passes_with_care", "passes")
_LONG = 20_000


class VerdictCountsTold(Told):
    """How many of each verdict."""

    fits = whole("That fit.", unit="count", example=7, required=True)
    caution = whole("That fit with caution.", unit="count", example=2, required=True)
    does_not_fit = whole("That do not fit.", unit="count", example=1, required=True)
    not_recognised = whole("With a name that nobody knows.", unit="count", example=1, required=True)


class PriceSumTold(Told):
    """The sum of the prices of one currency."""

    currency = choice("The currency.", values=("USD", "EUR", "GBP", "MXN", "not_said"), required=True)
    amount = number("The sum.", unit="currency", example=119.97, required=True)


class ListTotalsTold(Told):
    """The sums of the list."""

    lines = whole("Lines with trees.", unit="count", example=11, required=True)
    trees = whole("Trees asked for.", unit="count", example=16, required=True)
    lines_by_verdict = nested(VerdictCountsTold, "Lines by verdict.", required=True)
    trees_by_verdict = nested(VerdictCountsTold, "Trees by verdict.", required=True)
    guesses = whole("Lines with a guessed name.", unit="count", example=1, required=True)
    repeats = whole("Lines that ask again for the cultivar of an earlier one.", unit="count", example=1, required=True)
    without_quantity = whole("Lines that do not say how many.", unit="count", example=3, required=True)
    skipped = whole("Rows that were taken for no line of the list.", unit="count", example=2, required=True)
    priced_lines = whole("Lines whose price is in the sums.", unit="count", example=4, required=True)
    prices = nested(PriceSumTold, "Sums of prices by currency.", many=True, required=True)


class SketchedTold(Told):
    """One tree on the plot."""

    line = whole("Its line.", unit="count", example=1, required=True)
    cultivars = nested(VarietyNamedTold, "What grows on it.", many=True, required=True)
    x_ft = number("From the left edge.", unit="ft", example=6, required=True)
    y_ft = number("From the front edge.", unit="ft", example=6, required=True)
    x_m = number("From the left edge.", unit="m", example=1.83, required=True)
    y_m = number("From the front edge.", unit="m", example=1.83, required=True)
    spread_ft = number("How wide it grows.", unit="ft", example=12, required=True)
    nearest_ft = number("To the nearest trunk.", unit="ft", example=12, required=True, nullable=True)


class StandingOnPlotTold(Told):
    """One tree that stands on the plot already."""

    cultivars = nested(VarietyNamedTold, "What grows on it; empty where only its crop is known.", many=True,
                       required=True)  # fmt: skip
    crop = text("Id of its crop.", example="apple", required=True)
    crop_name = text("Its crop.", example="apple", required=True)
    x_ft = number("From the left edge.", unit="ft", example=20, required=True)
    y_ft = number("From the front edge.", unit="ft", example=15, required=True)
    spread_ft = number("How wide it is.", unit="ft", example=14, required=True)


class LeftOverTold(Told):
    """Trees that found no room."""

    line = whole("Their line.", unit="count", example=5, required=True)
    trees = whole("How many.", unit="count", example=2, required=True)


class PlotSketchTold(Told):
    """The plot with its trees to scale."""

    width_ft = number("Width.", unit="ft", example=30, required=True)
    depth_ft = number("Depth.", unit="ft", example=20, required=True)
    width_m = number("Width.", unit="m", example=9.14, required=True)
    depth_m = number("Depth.", unit="m", example=6.1, required=True)
    trees = nested(SketchedTold, "The trees that found room.", many=True, required=True)
    standing = nested(StandingOnPlotTold, "Trees that stand on the plot already, as far as their place was told.",
                      many=True, required=True)  # fmt: skip
    left_over = nested(LeftOverTold, "Those that did not.", many=True, required=True)


class PickingTimeTold(VarietyNamedTold):
    """When the trees of one line are picked."""

    line = whole("The line.", unit="count", example=1, required=True)
    from_ = month_day("First day.", example="09-01", required=True)
    to = month_day("Last day.", example="09-15", required=True)
    trees = whole("How many trees.", unit="count", example=2, required=True)
    basis = choice("What the time rests on.", values=("cultivar_dates", "offset", "ripening_class"), required=True)


class PickedWeekTold(Told):
    """A week and the trees in picking."""

    from_ = month_day("First day of the week.", example="09-03", required=True)
    trees = whole("Trees in picking.", unit="count", example=4, required=True)


class PickedMonthTold(Told):
    """A month and the trees in picking."""

    month = whole("The month.", unit="month", example=9, required=True)
    trees = whole("Trees in picking.", unit="count", example=4, required=True)


class HarvestChartTold(Told):
    """The harvest through the season."""

    first_month = whole("The month with which the season begins: 1, in the southern hemisphere 7.", unit="month",
                        example=1, required=True)  # fmt: skip
    times = nested(PickingTimeTold, "When the trees of each line are picked.", many=True, required=True)
    weeks = nested(PickedWeekTold, "Weeks with harvest.", many=True, required=True)
    months = nested(PickedMonthTold, "Months with harvest.", many=True, required=True)
    gap_months = list_of(whole("A month.", unit="month", example=8), "Months without harvest between others.",
                         example=[8], required=True)  # fmt: skip
    busiest_week = nested(PickedWeekTold, "The fullest week.", required=True, nullable=True)
    busiest_share = number("Share of the trees picked in it.", unit="share", example=0.4, required=True)
    unknown_trees = whole("Trees whose time nobody published.", unit="count", example=1, required=True)


class ListAdditionTold(Told):
    """The fewest trees to add so that every tree has a partner."""

    trees = nested(AddedTreeTold, "The trees.", many=True, required=True)
    unserved = nested(VarietyNamedTold, "Cultivars that nothing in the catalogue serves here.", many=True,
                      required=True)  # fmt: skip


class LineChangeTold(Told):
    """What becomes of one line."""

    line = whole("The line.", unit="count", example=3, required=True)
    change = choice("What is changed.", values=get_args(Change), required=True)
    trees = whole("How many trees.", unit="count", example=2, required=True)
    cultivars = nested(VarietyNamedTold, "What grows on them then; empty where they are dropped.", many=True,
                       required=True)  # fmt: skip
    rootstock = nested(RootNamedTold, "Their root.", required=True, nullable=True)


class ListRepairTold(Told):
    """The cheapest changes after which the list passes."""

    found = flag("Whether there are any.", required=True)
    reason = choice("Why there are none.", values=get_args(NoRepairReason), required=True, nullable=True)
    verdict = choice("What the list comes to after them.", values=LIST_VERDICTS, required=True, nullable=True)
    cost = number("Their cost by the limits planting_list.cost.", unit="points", example=5, required=True,
                  nullable=True)  # fmt: skip
    proven = flag("Whether none cheaper exist.", required=True, nullable=True)
    lines = nested(LineChangeTold, "Every line that was read, changed or kept.", many=True, required=True)
    added = nested(AddedTreeTold, "Trees that are added.", many=True, required=True)
    sketch = nested(PlotSketchTold, "The plot after the changes.", required=True, nullable=True)


class PlantingTurnTold(Told):
    """A line in the order of planting."""

    line = whole("The line.", unit="count", example=1, required=True)
    names = list_of(text("A name.", example="Honeycrisp"), "What is planted.", example=["Honeycrisp"], required=True)
    season = choice("When it is planted.", values=("autumn_or_winter", "late_winter", "early_spring",
                    "after_last_frost"), required=True, nullable=True)  # fmt: skip


class RowPlaceTold(Told):
    """Where rows stand."""

    file = text("The file.", example="orchard.xlsx", longest=_LONG, required=True, nullable=True)
    sheet = text("The sheet of the workbook.", example="Sheet1", longest=_LONG, required=True, nullable=True)
    attachment = text("The attachment of the mail.", example="list.csv", longest=_LONG, required=True, nullable=True)


class MailReadTold(Told):
    """What an answer to a mail needs of it."""

    sender = text("Address that it came from.", example="grower@example.org", longest=_LONG, required=True,
                  nullable=True)  # fmt: skip
    subject = text("Its subject.", example="Trees for spring", longest=_LONG, required=True, nullable=True)
    message_id = text("Its id.", example="<1@example.org>", longest=_LONG, required=True, nullable=True)


class SourceReadTold(RowPlaceTold):
    """One thing that rows were read from."""

    kind = choice("What it is.", values=get_args(Kind), required=True)
    encoding = text("Its encoding.", example="utf_8", required=True, nullable=True)
    separator = text("What separates its cells.", example=",", required=True, nullable=True)
    headings = list_of(text("A heading.", example="variety", longest=_LONG), "Its headings.", example=["variety"],
                       required=True)  # fmt: skip
    mail = nested(MailReadTold, "The mail that it came in.", required=True, nullable=True)


class SkippedTold(RowPlaceTold):
    """A row that was taken for no line of the list."""

    row = whole("Its number.", unit="count", example=1, required=True)
    written = text("What stands in it.", example="Thank you!", longest=200_000, required=True)
    cells = list_of(text("A cell.", example="Thank you!", longest=_LONG), "Its cells, as they were written.",
                    example=["Thank you!"], required=True)  # fmt: skip
    why = choice("Why it was skipped.", values=get_args(Why), required=True)


class ListReadTold(Told):
    """What was read, and how."""

    sources = nested(SourceReadTold, "What rows were read from.", many=True, required=True)
    skipped = nested(SkippedTold, "Rows that are no lines.", many=True, required=True)
    limits_hit = list_of(text("A sentence.", example="Only the first 20 sheets were read.", longest=_LONG),
                         "What was left out.", example=["Only the first 20 sheets were read."],
                         required=True)  # fmt: skip


class JudgedPlaceTold(Told):
    """What was known of the place, as a person reads it; null where it was not."""

    hardiness_zone = text("Its hardiness zone.", example="7a", required=True, nullable=True)
    chill_hours = text("Its winter chill.", example="900 hours", required=True, nullable=True)
    chill_portions = text("Its winter chill in portions.", example="52 chill portions", required=True, nullable=True)
    width_ft = text("Width of the plot.", example="60 ft (18 m)", required=True, nullable=True)
    depth_ft = text("Depth of the plot.", example="40 ft (12 m)", required=True, nullable=True)
    max_height_ft = text("Height that trees may reach.", example="12 ft (3.7 m)", required=True, nullable=True)
    sun_hours = text("Hours of sun.", example="8 hours", required=True, nullable=True)
    state = text("The state.", example="WA", required=True, nullable=True)


class PlantingListTold(Told):
    """A planting list judged line by line and as a whole."""

    language = choice("Language of the sentences.", values=("en", "es"), required=True)
    place = nested(JudgedPlaceTold, "The place that it was judged for.", required=True)
    verdict = choice("What the list comes to.", values=LIST_VERDICTS, required=True)
    looked_at_whole = flag("False where the list is too long for that: then each line is judged by itself.",
                           required=True)  # fmt: skip
    lines = nested(ListLineTold, "Each line.", many=True, required=True)
    list_findings = nested(ReasonTold, "What holds of the list as a whole: what to do first.", many=True,
                           required=True)  # fmt: skip
    totals = nested(ListTotalsTold, "The sums.", required=True)
    sketch = nested(PlotSketchTold, "The plot; null where its size is not known or there are too many trees.",
                    required=True, nullable=True)  # fmt: skip
    harvest = nested(HarvestChartTold, "The harvest; null where no time of picking is known.", required=True,
                     nullable=True)  # fmt: skip
    addition = nested(ListAdditionTold, "The smallest addition for pollen; null where none is lacking.", required=True,
                      nullable=True)  # fmt: skip
    repair = nested(ListRepairTold, "The cheapest repair; null where nothing need be changed.", required=True,
                    nullable=True)  # fmt: skip
    planting_order = nested(PlantingTurnTold, "What goes into the ground first.", many=True, required=True)
    read = nested(ListReadTold, "What was read, and how.", required=True)
