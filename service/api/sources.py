"""The publications that the rulebook leans on."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, nested, text, whole
from service.api.house import Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.domain.source import Source

blueprint = Resource("sources", "The publications that knowledge and rules lean on.")


class SourceTold(Told):
    """One publication."""

    id = text("Id of the source.", example="umn-apples", required=True)
    title = text("Title.", example="Growing apples in the home garden", longest=1000, required=True)
    publisher = text("Who published it.", example="A university extension service", longest=1000, required=True)
    authors = text("Who wrote it.", example="Various authors", longest=1000)
    year = whole("Year of publication.", unit="year", example=2022)
    number = text("Number of the publication.", example="EC 1628", longest=1000)
    url = text("Where it can be read.", example="https://extension.example/apples", longest=2000)
    confirmed = text("Whether a stored copy of it was read.", example="yes", longest=5000)


class SourcesTold(Told):
    """A page of sources."""

    items = nested(SourceTold, "The sources, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/sources")
@blueprint.asks_in_query(PageAsked)
@blueprint.reference(SourcesTold)
def list_sources(asked: dict[str, Any]) -> dict[str, Any]:
    """List the sources.

    `confirmed` says whether a stored copy was read; a source without it is known only by its record.
    """
    return page(list(parts().rulebook.sources.values()), asked, key=_id, show=asdict)


@blueprint.route("/sources/<source>", parameters=[at_id("source", "Id of a source.", example="fishman1987a")])
@blueprint.reference(SourceTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_source(source: str) -> dict[str, Any]:
    """Show one source.

    `confirmed` says whether a stored copy was read; a source without it is known only by its record.
    """
    found = parts().rulebook.sources.get(source)
    if found is None:
        raise NotFound("No source has this id; GET /v1/sources lists them.")
    return asdict(found)


def _id(source: Source) -> str:
    return source.id
