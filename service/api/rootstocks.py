"""The rootstocks that the rulebook knows."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, list_of, nested, text
from service.api.house import Resource, at_id, known_crop, parts
from service.api.paging import PageAsked, page
from service.api.stated import StatedList, StatedSpan, StatedText, stated
from service.domain.rootstock import Rootstock
from service.present.reference import known

blueprint = Resource("rootstocks", "What is known of each rootstock.")


class RootstocksAsked(PageAsked):
    """Which rootstocks."""

    crop = text("Only rootstocks for this crop (its id).", example="apple", longest=100)


class RootstockTold(Told):
    """What is known of a rootstock, each value with who says so."""

    id = text("Id of the rootstock.", example="m_9", required=True)
    name = text("Name of the rootstock.", example="M.9", required=True)
    synonyms = list_of(text("A name.", example="EMLA 9"), "Other names.", example=[], required=True)
    crops = list_of(text("Id of a crop.", example="apple"), "Crops that are grafted on it.", example=["apple"],
                    required=True)  # fmt: skip
    parentage = stated(StatedText, "Where it comes from.")
    size_percent = stated(StatedSpan, "Size of the tree in percent of one on seedling roots.")
    size_note = stated(StatedText, "What the source says of the size.")
    height_ft = stated(StatedSpan, "Height of the full-grown tree.")
    spacing_ft = stated(StatedSpan, "Room between trees.")
    staking = stated(StatedText, "Support that the tree needs.")
    staking_as_stated = stated(StatedText, "Support, in the words of the source.")
    precocity = stated(StatedText, "How early the tree bears.")
    precocity_as_stated = stated(StatedText, "How early the tree bears, in the words of the source.")
    years_to_bear = stated(StatedSpan, "Years from planting to the first crop.")
    cold_hardiness = stated(StatedText, "Hardiness of the root.")
    wet_soil = stated(StatedText, "How it takes wet ground.")
    lime_soil = stated(StatedText, "How it takes calcareous ground.")
    dry_soil = stated(StatedText, "How it takes drought.")
    soil_as_stated = stated(StatedText, "Ground, in the words of the source.")
    suckering = stated(StatedText, "Whether it suckers.")
    fire_blight = stated(StatedText, "How it stands fire blight.")
    crown_rot = stated(StatedText, "How it stands crown and root rot.")
    replant_disease = stated(StatedText, "How it stands replanted ground.")
    woolly_apple_aphid = stated(StatedText, "How it stands woolly apple aphid.")
    root_knot_nematode = stated(StatedText, "How it stands root-knot nematodes.")
    bacterial_canker = stated(StatedText, "How it stands bacterial canker.")
    incompatible_cultivars = stated(StatedList, "Cultivars that fail on it.")
    compatibility_as_stated = stated(StatedText, "What fails on it, in the words of the source.")
    remarks = list_of(nested(StatedText, "A remark."), "What else is worth knowing.", example=[], required=True)
    sources = list_of(text("Id of a source.", example="umn-apples"), "Sources of this record.", example=[],
                      required=True)  # fmt: skip


class RootstocksTold(Told):
    """A page of rootstocks."""

    items = nested(RootstockTold, "The rootstocks, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/rootstocks")
@blueprint.asks_in_query(RootstocksAsked)
@blueprint.reference(RootstocksTold)
def list_rootstocks(asked: dict[str, Any]) -> dict[str, Any]:
    """List the rootstocks, all or those for a crop.

    Every value comes with its sources; what nobody knows is null.
    """
    catalogue = parts().rulebook.catalogue
    crop = asked.get("crop")
    chosen = catalogue.rootstocks_of(known_crop(crop)) if crop else catalogue.rootstocks.values()
    return page(list(chosen), asked, key=_id, show=known)


@blueprint.route("/rootstocks/<rootstock>", parameters=[at_id("rootstock", "Id of a rootstock.", example="m_9")])
@blueprint.reference(RootstockTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_rootstock(rootstock: str) -> dict[str, Any]:
    """Show one rootstock.

    Every value comes with its sources; what nobody knows is null.
    """
    found = parts().rulebook.catalogue.rootstocks.get(rootstock)
    if found is None:
        raise NotFound("No rootstock has this id; GET /v1/rootstocks lists them.")
    return known(found)


def _id(rootstock: Rootstock) -> str:
    return rootstock.id
