"""How a client gives a planting list: rows of JSON, a pasted text, or files beside the question about the place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import marshmallow as ma

from service.api.fields import Asked, choice, flag, nested, number, text, whole
from service.api.house import parts
from service.api.pointers import faults_of
from service.api.variety_suggestions import SiteAsked, TreeAsked, WishesAsked, read_question
from service.domain.errors import NotUnderstood
from service.domain.site import Site, StandingTree
from service.domain.store import StockItem
from service.questions.planting_list import ListPlace
from service.storage.database import DatabaseAway
from service.storage.stock import stock_of

FORM = "multipart/form-data"
FILE, QUESTION = "file", "question"
MOST_LINES = 500
MOST_ROWS = 10_000
TERMS = ("site", "wishes", "existing_trees", "state", "language")
LONGEST_TEXT = 200_000
CELLS = ("crop", "variety", "quantity", "rootstock", "size", "price", "note")
FORM_BODY = {
    "schema": {
        "type": "object",
        "properties": {
            FILE: {
                "type": "string",
                "format": "binary",
                "description": "The list: csv, tsv, xlsx, ods, a mail (eml) or a text, told by its content.",
            },
            QUESTION: {
                "type": "string",
                "contentMediaType": "application/json",
                "description": "The rest of the question, as the JSON object has it without text, rows and keep.",
                "examples": ['{"site": {"hardiness_zone": "7b", "width_ft": 30, "depth_ft": 20}}'],
            },
        },
        "required": [FILE],
        "additionalProperties": False,
    }
}


class RowAsked(Asked):
    """One line of a list, each cell as it was written."""

    variety = text("The variety, or several grafted on one tree.", example="Honeycrisp", longest=500)
    crop = text("The crop.", example="apple", longest=500)
    quantity = whole("How many trees.", unit="count", example=2, low=0, high=100_000)
    rootstock = text("The rootstock.", example="M.9", longest=500)
    size = text("How big the tree is sold or grows.", example="semi-dwarf, 5 gal", longest=500)
    price = text("The price.", example="$39.99", longest=500)
    note = text("Whatever else was written.", example="for the front yard", longest=500)


class SpotAsked(Asked):
    """Where on the plot a tree stands."""

    x_ft = number("From the left edge to its trunk.", unit="ft", example=8, low=0, high=5000, required=True)
    y_ft = number("From the front edge to its trunk.", unit="ft", example=12, low=0, high=5000, required=True)
    spread_ft = number("Width of its crown.", unit="ft", example=14, low=0.5, high=150, required=True)


class TreeOnPlotAsked(TreeAsked):
    """A tree that stands there already; one on the plot itself is drawn and gone around where its place is told."""

    spot = nested(SpotAsked, "Where on the plot it stands; leave it out where it stands beside the plot.")


class ListTermsAsked(Asked):
    """What is asked of a list: where its trees go. Every part of it may be left out."""

    site = nested(SiteAsked, "The place.")
    wishes = nested(WishesAsked, "What the customer would like.")
    existing_trees = nested(
        TreeOnPlotAsked, "Trees that stand there already; an empty list says that there are none.", many=True,
        example=[{"cultivar": "Liberty", "distance_ft": 40}], most=100,
    )  # fmt: skip
    state = text("The state into which the trees go, by its two letters.", example="WA", longest=2, pattern="[A-Z]{2}",
                 wants="This must be the two capital letters of a state, such as WA.")  # fmt: skip
    language = choice("Language of the sentences.", values=("en", "es"))


class PlantingListAsked(ListTermsAsked):
    """A planting list as text or as rows, and where its trees go."""

    text_ = text("The list as it was pasted, or a whole mail.", example="2 Honeycrisp on M.9\nLiberty\nElberta peach",
                 longest=LONGEST_TEXT)  # fmt: skip
    rows = nested(RowAsked, "The list row by row.", many=True, most=MOST_ROWS,
                  example=[{"variety": "Honeycrisp", "quantity": 2, "rootstock": "M.9"}])  # fmt: skip
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


def read_terms(plain: object) -> Mapping[str, Any]:
    """The terms of a question that were written as plain data; NotUnderstood points at what cannot be used."""
    try:
        terms: Mapping[str, Any] = ListTermsAsked().load(plain)  # type: ignore[arg-type]  # it says what is no object
    except ma.ValidationError as error:
        raise NotUnderstood(*faults_of({QUESTION: error.messages})) from None
    return terms


def place_of(asked: Mapping[str, Any]) -> ListPlace:
    """Where the trees go, by the terms of a question."""
    terms = {name: asked.get(name) for name in ("site", "wishes", "existing_trees")}
    question = read_question(terms)
    faults = list(_beyond_the_plot(question.site, question.existing_trees or ()))
    if faults:
        raise NotUnderstood(*faults)
    return ListPlace(
        site=question.site,
        wishes=question.wishes,
        existing_trees=question.existing_trees,
        climate=question.climate,
        state=asked.get("state"),
        stock=_stock(),
    )


def _stock() -> tuple[StockItem, ...] | None:
    """What the store has; a list is checked all the same where the database is away, and its stock is not known."""
    try:
        return stock_of(parts().database)
    except DatabaseAway:
        return None


def _beyond_the_plot(site: Site, trees: Sequence[StandingTree]) -> Iterator[tuple[str, str]]:
    """Trees that are told to stand on the plot and could not."""
    for index, tree in enumerate(trees):
        if tree.spot is None:
            continue
        for name, place, side in (("x_ft", tree.spot.x_ft, site.width_ft), ("y_ft", tree.spot.y_ft, site.depth_ft)):
            if side is not None and place > side:
                yield f"/existing_trees/{index}/spot/{name}", f"This lies beyond the plot, which ends at {side:g} ft."
