"""What the answer says of one line of a planting list."""

from __future__ import annotations

from typing import get_args

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, flag, list_of, month_day, nested, number, text, whole
from service.api.suggested import HeightTold
from service.domain.checked_list import VERDICTS, RootBasis
from service.domain.crop import TreeSize
from service.domain.planting_list import MARKS, Currency, Form, How

_LONG = 20_000


class VarietyNamedTold(Told):
    """A cultivar by id and name."""

    cultivar = text("Id of the cultivar.", example="apple.honeycrisp", required=True)
    name = text("Its denomination.", example="Honeycrisp", required=True)


class RootNamedTold(Told):
    """A rootstock by id and name."""

    id = text("Id of the rootstock.", example="m_9", required=True)
    name = text("Its name.", example="M.9", required=True)


class AlternativeTold(Told):
    """What else may be meant."""

    id = text("Its id.", example="apple.gala", required=True)
    name = text("Its name.", example="Gala", required=True)
    score = number("Likeness to what was written.", unit="points", example=88.9, required=True)


class NameReadTold(Told):
    """One name of the line as it was read."""

    written = text("As it was written.", example="Honey crisp", longest=_LONG, required=True)
    how = choice("How it was read.", values=get_args(How), required=True)
    cultivar = text("Id of the cultivar; null where nobody knows it.", example="apple.honeycrisp", required=True,
                    nullable=True)  # fmt: skip
    name = text("Its denomination.", example="Honeycrisp", required=True, nullable=True)
    crop = text("Id of the crop.", example="apple", required=True, nullable=True)
    crop_name = text("Name of the crop.", example="apple", required=True, nullable=True)
    alternatives = nested(AlternativeTold, "What else may be meant, the likeliest first.", many=True, required=True)


class RootReadTold(Told):
    """The rootstock as it was read."""

    written = text("As it was written.", example="M9", longest=_LONG, required=True)
    how = choice("How it was read.", values=get_args(How), required=True)
    id = text("Id of the rootstock.", example="m_9", required=True, nullable=True)
    name = text("Its name.", example="M.9", required=True, nullable=True)
    alternatives = nested(AlternativeTold, "What else may be meant.", many=True, required=True)


class FeetSpanTold(Told):
    """A span in feet."""

    low = number("Lower end.", unit="ft", example=4, required=True)
    high = number("Upper end.", unit="ft", example=5, required=True)


class InchSpanTold(Told):
    """A span in inches."""

    low = number("Lower end.", unit="in", example=0.5, required=True)
    high = number("Upper end.", unit="in", example=0.75, required=True)


class SizeReadTold(Told):
    """The size as it was read."""

    written = text("As it was written.", example="5 gal", longest=_LONG, required=True)
    tree = choice("How big the tree is said to grow.", values=get_args(TreeSize), required=True, nullable=True)
    form = choice("How it is sold.", values=get_args(Form), required=True, nullable=True)
    container = number("Container number or volume.", unit="gal", example=5, required=True, nullable=True)
    box_in = number("Size of the box.", unit="in", example=24, required=True, nullable=True)
    height_ft = nested(FeetSpanTold, "Height at sale.", required=True, nullable=True)
    caliper_in = nested(InchSpanTold, "Trunk caliper at sale.", required=True, nullable=True)


class PriceReadTold(Told):
    """The price as it was read."""

    written = text("As it was written.", example="$39.99", longest=_LONG, required=True)
    amount = number("The amount.", unit="currency", example=39.99, required=True)
    currency = choice("The currency.", values=get_args(Currency), required=True, nullable=True)
    each = flag("True for one tree, false for the line; null where nothing says which.", required=True, nullable=True)


class LineFindingTold(ReasonTold):
    """What a rule on lists says of a name of the line."""

    cultivar = text("Id of the cultivar that it is about.", example="apple.honeycrisp", required=True, nullable=True)


class LineHarvestTold(Told):
    """When the fruit is picked."""

    from_ = month_day("First day.", example="09-01", required=True)
    to = month_day("Last day.", example="09-15", required=True)
    basis = choice("What the time rests on.", values=("cultivar_dates", "offset", "ripening_class"), required=True)


class LinePollenTold(Told):
    """Whether the list brings the partners that the tree needs; null where it is not known."""

    partners_needed = whole("Other cultivars that must stand near.", unit="count", example=1, required=True,
                            nullable=True)  # fmt: skip
    served = flag("Whether the list and the standing trees give them.", required=True, nullable=True)
    shown_by = choice("What that rests on; null where none is needed.", values=("proven", "usual", "none"),
                      required=True, nullable=True)  # fmt: skip
    first_partner = text("One that serves.", example="Liberty", required=True, nullable=True)
    partners_listed = whole("Those on the list.", unit="count", example=2, required=True, nullable=True)
    partners_standing = whole("Those that stand near.", unit="count", example=0, required=True, nullable=True)


class SubstituteTold(VarietyNamedTold):
    """A cultivar near to the one asked for that fits."""

    fit = whole("How well it suits, from 0 to 100.", unit="points", example=78, required=True)
    rootstock = nested(RootNamedTold, "The best root for it here.", required=True, nullable=True)


class CropNamedTold(VarietyNamedTold):
    """A cultivar with its crop."""

    crop = text("Id of its crop.", example="apple", required=True)
    crop_name = text("Name of its crop.", example="apple", required=True)


class AddedTreeTold(CropNamedTold):
    """A tree to add."""

    rootstock = nested(RootNamedTold, "The best root for it here.", required=True, nullable=True)
    fit = whole("How well it suits, from 0 to 100.", unit="points", example=78, required=True)
    serves = nested(VarietyNamedTold, "The cultivars that it sets.", many=True, required=True)
    in_stock = whole("Trees in stock; null where the stock is not known.", unit="count", example=4, required=True,
                     nullable=True)  # fmt: skip


class JudgedTreeTold(CropNamedTold):
    """What a name comes to at the place."""

    verdict = choice("The verdict.", values=VERDICTS, required=True)
    fit = whole("How well it suits, from 0 to 100, without what other trees do for it.", unit="points", example=78,
                required=True)  # fmt: skip
    fits = flag("Whether no rule of the variety question sets it or its root aside.", required=True)
    rootstock = nested(RootNamedTold, "The root that it was judged on.", required=True, nullable=True)
    rootstock_basis = choice("What chose that root.", values=get_args(RootBasis), required=True)
    spacing_ft = number("Distance between trees.", unit="ft", example=8, required=True, nullable=True)
    mature_height_ft = nested(HeightTold, "Mature height.", required=True)
    harvest = nested(LineHarvestTold, "When it is picked; null where nobody published it.", required=True,
                     nullable=True)  # fmt: skip
    pollination = nested(LinePollenTold, "Its partners.", required=True)
    in_stock = whole("Trees in stock on the root asked for; null where the stock is not known.", unit="count",
                     example=4, required=True, nullable=True)  # fmt: skip
    short_by = whole("Trees that the list asks for above the stock.", unit="count", example=0, required=True,
                     nullable=True)  # fmt: skip
    substitutes = nested(SubstituteTold, "What comes nearest where this does not fit or the stock is short.",
                         many=True, required=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the variety question says of it: what to do first, then why.", many=True,
                     required=True)  # fmt: skip


class ListLineTold(Told):
    """One line: what was written, what it was read as, and what it comes to."""

    line = whole("Its number in the list.", unit="count", example=1, required=True)
    file = text("The file it stands in.", example="orchard.xlsx", longest=_LONG, required=True, nullable=True)
    sheet = text("The sheet of the workbook.", example="Sheet1", longest=_LONG, required=True, nullable=True)
    attachment = text("The attachment of the mail.", example="list.csv", longest=_LONG, required=True, nullable=True)
    row = whole("The row there.", unit="count", example=2, required=True)
    written = text("The row as one text.", example="2 | Honeycrisp | M9", longest=200_000, required=True)
    cells = list_of(text("A cell.", example="Honeycrisp", longest=_LONG), "The cells of the row, as they were written.",
                    example=["2", "Honeycrisp", "M9"], required=True)  # fmt: skip
    read_as = nested(NameReadTold, "Its names as they were read; several grow on one tree.", many=True, required=True)
    quantity = whole("How many it says.", unit="count", example=2, required=True, nullable=True)
    trees = whole("How many trees it comes to.", unit="count", example=2, required=True)
    rootstock = nested(RootReadTold, "The rootstock it asks for.", required=True, nullable=True)
    size = nested(SizeReadTold, "The size it asks for.", required=True, nullable=True)
    price = nested(PriceReadTold, "Its price.", required=True, nullable=True)
    note = text("Whatever else was written.", example="for the front yard", longest=200_000, required=True,
                nullable=True)  # fmt: skip
    marks = list_of(choice("A mark.", values=MARKS), "What is odd about it or what its reading leans on.",
                    example=["crop_from_heading"], required=True)  # fmt: skip
    repeats_line = whole("The earlier line that asks for the same cultivar.", unit="count", example=1, required=True,
                         nullable=True)  # fmt: skip
    verdict = choice("The verdict: the worst of its names.", values=VERDICTS, required=True)
    findings = nested(LineFindingTold, "What rules on lists say of it: what to do first.", many=True, required=True)
    judged = nested(JudgedTreeTold, "What each name that was read comes to.", many=True, required=True)
