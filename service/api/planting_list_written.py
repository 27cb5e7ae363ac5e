"""A checked list in the format that the client accepts: JSON, workbook, sheet to print, text, mail or picture."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import UTC, datetime
from functools import wraps
from typing import Any, BinaryIO, cast

from flask import Response, request
from werkzeug.exceptions import NotAcceptable

from service.api.house import written
from service.present.planting_list_out import FORMATS, MEDIA_TYPES, SUFFIXES, Format, render, with_lines, write

_IN_MEMORY = 8 * 1024 * 1024
_PIECE = 64 * 1024
_ATTACHED = ("xlsx", "eml")
TEXT_KINDS = {MEDIA_TYPES[kind]: {"schema": {"type": "string"}} for kind in ("text", "eml", "svg")}
FILE_KINDS = {MEDIA_TYPES[kind]: {"schema": {"type": "string", "format": "binary"}} for kind in ("xlsx", "pdf")}
ALSO_WRITTEN = {"content": {**TEXT_KINDS, **FILE_KINDS}}


def format_wanted() -> Format:
    """The format that the client accepts; JSON where it accepts anything."""
    wanted = request.accept_mimetypes
    kind = wanted.best_match(list(MEDIA_TYPES.values())) if wanted else MEDIA_TYPES["json"]
    if kind is None:
        raise NotAcceptable(f"A checked list comes as {', '.join(MEDIA_TYPES.values())}.")
    return next(one for one in FORMATS if MEDIA_TYPES[one] == kind)


def in_the_wanted_format(view: Callable[..., Any]) -> Callable[..., Response]:
    """The view answers with plain data, and the client gets it in the format that it accepts."""

    @wraps(view)
    def answered(*args: Any, **kwargs: Any) -> Response:
        format = format_wanted()
        told = view(*args, **kwargs)
        response = told if isinstance(told, Response) else _answer(told, format)
        response.vary.add("Accept")
        return response

    return answered


def sent_as(told: Mapping[str, Any], lines: Iterable[Mapping[str, Any]], format: Format) -> Response:
    """A list whose lines come one by one, as a file; a large one waits on the disk and not in memory."""
    file = cast(BinaryIO, tempfile.SpooledTemporaryFile(max_size=_IN_MEMORY))  # noqa: SIM115  (closed when it is sent)
    write(with_lines(told, lines), format, file, on=datetime.now(UTC).date())
    file.seek(0)
    response = _named(Response(_pieces(file)), format)
    response.call_on_close(file.close)
    return response


def _answer(told: dict[str, Any], format: Format) -> Response:
    if format == "json":
        return written(told)
    return _named(Response(render(told, format, on=datetime.now(UTC).date())), format)


def _named(response: Response, format: Format) -> Response:
    """The response under its media type and the name of a file."""
    response.content_type = MEDIA_TYPES[format] + ("; charset=utf-8" if format in ("text", "svg") else "")
    how = "attachment" if format in _ATTACHED else "inline"
    response.headers["Content-Disposition"] = f'{how}; filename="planting-list{SUFFIXES[format]}"'
    return response


def _pieces(file: BinaryIO) -> Iterator[bytes]:
    with file:
        while piece := file.read(_PIECE):
            yield piece
