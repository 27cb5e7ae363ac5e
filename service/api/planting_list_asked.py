"""How a client gives a planting list: rows of JSON, a pasted text, or files beside the question about the place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import marshmallow as ma
import orjson
from flask import request

from service.api.fields import Asked, choice, flag, nested, text, whole
from service.api.house import parts
from service.api.pointers import faults_of
from service.api.variety_suggestions import SiteAsked, TreeAsked, WishesAsked, read_question
from service.domain.errors import NotUnderstood
from service.domain.planting_list import ReadList
from service.domain.store import StockItem
from service.intake.planting_list import Stream, Upload
from service.questions.planting_list import ListPlace, PlantingListQuestion, gather, list_reader
from service.storage.database import DatabaseAway
from service.storage.stock import stock_of

FORM = "multipart/form-data"
FILE, QUESTION = "file", "question"
MOST_LINES = 500
LONGEST_TEXT = 200_000
_CELLS = ("crop", "variety", "quantity", "rootstock", "size", "price", "note")
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


class ListTermsAsked(Asked):
    """What is asked of a list: where its trees go. Every part of it may be left out."""

    site = nested(SiteAsked, "The place.")
    wishes = nested(WishesAsked, "What the customer would like.")
    existing_trees = nested(
        TreeAsked, "Trees that stand there already; an empty list says that there are none.", many=True,
        example=[{"cultivar": "Liberty", "distance_ft": 40}], most=100,
    )  # fmt: skip
    state = text("The state into which the trees go, by its two letters.", example="WA", longest=2, pattern="[A-Z]{2}",
                 wants="This must be the two capital letters of a state, such as WA.")  # fmt: skip
    language = choice("Language of the sentences.", values=("en", "es"))


class PlantingListAsked(ListTermsAsked):
    """A planting list as text or as rows, and where its trees go."""

    text_ = text("The list as it was pasted, or a whole mail.", example="2 Honeycrisp on M.9\nLiberty\nElberta peach",
                 longest=LONGEST_TEXT)  # fmt: skip
    rows = nested(RowAsked, "The list row by row.", many=True, most=MOST_LINES,
                  example=[{"variety": "Honeycrisp", "quantity": 2, "rootstock": "M.9"}])  # fmt: skip
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


def question_in_json(asked: Mapping[str, Any]) -> PlantingListQuestion:
    """The question in a checked JSON object."""
    given = [name for name in ("text_", "rows") if asked.get(name) is not None]
    if len(given) != 1:
        said = "both" if given else "neither"
        raise NotUnderstood(("", f"One of text and rows is needed; the question has {said}."))
    reader = list_reader(parts().rulebook)
    place = _place(asked)
    if given == ["rows"]:
        return PlantingListQuestion(_gathered(reader.stream_rows(_cells(asked["rows"])), "/rows"), place)
    return PlantingListQuestion(_gathered(reader.stream_text(asked["text_"]), "/text"), place)


def question_in_form() -> tuple[PlantingListQuestion, Mapping[str, Any]]:
    """The question in a form with a file, and its terms as they were checked."""
    strange = sorted({*request.form, *request.files} - {FILE, QUESTION})
    if strange:
        raise NotUnderstood((f"/{strange[0]}", f"This part is not known; known are {FILE} and {QUESTION}."))
    files = request.files.getlist(FILE)
    if len(files) != 1:
        raise NotUnderstood((f"/{FILE}", f"One part named {FILE} with the list is needed."))
    terms = _terms(request.form.get(QUESTION, "{}"))
    upload = Upload(files[0].stream, files[0].filename or None)  # type: ignore[arg-type]
    read = _gathered(list_reader(parts().rulebook).stream(upload), f"/{FILE}")
    with _within_question():
        return PlantingListQuestion(read, _place(terms)), terms


def _terms(said: str) -> Mapping[str, Any]:
    with _within_question():
        try:
            terms: Mapping[str, Any] = ListTermsAsked().load(orjson.loads(said))
        except orjson.JSONDecodeError as fault:
            raise NotUnderstood(("", f"This is not JSON: {fault.msg} (line {fault.lineno}).")) from None
        except ma.ValidationError as error:
            raise NotUnderstood(*faults_of({QUESTION: error.messages})) from None
    return terms


@contextmanager
def _within_question() -> Iterator[None]:
    """Faults of the question beside a file point at that part of the form, and their sentences say where in it."""
    try:
        yield
    except NotUnderstood as fault:
        found = ((f"/{QUESTION}", f"{pointer}: {detail}" if pointer else detail) for pointer, detail in fault.faults)
        raise NotUnderstood(*found) from fault


def _place(asked: Mapping[str, Any]) -> ListPlace:
    terms = {name: asked.get(name) for name in ("site", "wishes", "existing_trees")}
    question = read_question(terms)
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


def _gathered(stream: Stream, pointer: str) -> ReadList:
    return gather(stream, most=MOST_LINES, pointer=pointer)


def _cells(rows: Sequence[Mapping[str, Any]]) -> list[list[str]]:
    cells = [["" if row.get(name) is None else str(row[name]) for name in _CELLS] for row in rows]
    return [list(_CELLS), *cells]
