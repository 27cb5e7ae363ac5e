"""What a client sent as a planting list: its content with the terms of the question, whichever way it came."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Any, BinaryIO, cast

import orjson
from flask import request

from service.api.house import parts
from service.api.planting_list_asked import CELLS, FILE, MOST_LINES, QUESTION, TERMS, place_of, read_terms
from service.api.reading import read_json
from service.domain.errors import NotUnderstood
from service.domain.list_batch import SentList
from service.intake.planting_list import lines_expected
from service.questions.planting_list import ListPlace, PlantingListQuestion, gather, list_reader, stream_of

_LONGEST_NAME = 300


@dataclass(frozen=True, slots=True)
class ListSent:
    """A list as it was sent: `terms` as they were checked, `sent.terms` as they were written."""

    sent: SentList
    content: BinaryIO = field(repr=False)
    terms: Mapping[str, Any]
    place: ListPlace
    pointer: str

    def question(self) -> PlantingListQuestion:
        """The list with its place; MoreLines where it has more lines than are answered at once."""
        self.content.seek(0)
        stream = stream_of(self.sent, self.content, list_reader(parts().rulebook))
        return PlantingListQuestion(gather(stream, most=MOST_LINES, pointer=self.pointer), self.place)

    def digest(self) -> str:
        """The same for the same list with the same terms, however a client wrapped it."""
        self.content.seek(0)
        said = orjson.dumps([self.sent.form, self.sent.name, self.sent.terms], option=orjson.OPT_SORT_KEYS)
        content = hashlib.file_digest(self.content, "sha256")  # type: ignore[arg-type]  # any readable file will do
        return hashlib.sha256(said + content.digest()).hexdigest()

    def counted(self) -> SentList:
        """What was sent, with about how many lines it has."""
        self.content.seek(0)
        return replace(self.sent, lines_expected=None if self.sent.form == "rows" else lines_expected(self.content))


def sent_in_json(asked: Mapping[str, Any]) -> ListSent:
    """The list in a checked JSON object."""
    given = [name for name in ("text_", "rows") if asked.get(name) is not None]
    if len(given) != 1:
        said = "both" if given else "neither"
        raise NotUnderstood(("", f"One of text and rows is needed; the question has {said}."))
    body = read_json(request.get_data(cache=True))
    terms = {name: body[name] for name in TERMS if name in body}
    if given == ["rows"]:
        content = orjson.dumps(_cells(asked["rows"]))
        return ListSent(SentList("rows", terms), io.BytesIO(content), asked, place_of(asked), "/rows")
    content = asked["text_"].encode("utf-8", "replace")
    return ListSent(SentList("text", terms), io.BytesIO(content), asked, place_of(asked), "/text")


def sent_in_form() -> ListSent:
    """The list in a form with a file."""
    strange = sorted({*request.form, *request.files} - {FILE, QUESTION})
    if strange:
        raise NotUnderstood((f"/{strange[0]}", f"This part is not known; known are {FILE} and {QUESTION}."))
    files = request.files.getlist(FILE)
    if len(files) != 1:
        raise NotUnderstood((f"/{FILE}", f"One part named {FILE} with the list is needed."))
    with _within_question():
        plain = _terms(request.form.get(QUESTION, "{}"))
        terms = read_terms(plain)
        place = place_of(terms)
    name = (files[0].filename or "")[:_LONGEST_NAME] or None
    return ListSent(SentList("file", plain, name), cast(BinaryIO, files[0].stream), terms, place, f"/{FILE}")


def _terms(said: str) -> Mapping[str, Any]:
    try:
        plain = orjson.loads(said)
    except orjson.JSONDecodeError as fault:
        raise NotUnderstood(("", f"This is not JSON: {fault.msg} (line {fault.lineno}).")) from None
    return cast(Mapping[str, Any], plain)


@contextmanager
def _within_question() -> Iterator[None]:
    """Faults of the question beside a file point at that part of the form, and their sentences say where in it."""
    try:
        yield
    except NotUnderstood as fault:
        found = ((f"/{QUESTION}", f"{pointer}: {detail}" if pointer else detail) for pointer, detail in fault.faults)
        raise NotUnderstood(*found) from fault


def _cells(rows: Sequence[Mapping[str, Any]]) -> list[list[str]]:
    cells = [["" if row.get(name) is None else str(row[name]) for name in CELLS] for row in rows]
    return [list(CELLS), *cells]
