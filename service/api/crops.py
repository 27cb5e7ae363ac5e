"""The crops that the rulebook knows."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, choice, list_of, nested, text
from service.api.house import Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.api.stated import (
    StatedChill,
    StatedHarvest,
    StatedList,
    StatedNumber,
    StatedSpan,
    StatedText,
    stated,
    stated_by,
)
from service.domain.crop import Crop
from service.present.reference import known

blueprint = Resource("crops", "What is known of each crop as a whole.")


class CropTold(Told):
    """What is known of a crop as a whole, each value with who says so."""

    id = text("Id of the crop.", example="sweet_cherry", required=True)
    name = text("Name of the crop.", example="sweet cherry", required=True)
    name_es = text("Spanish name.", example="cereza", required=True)
    species = stated(StatedText, "Botanical name.")
    kind = choice("Kind of fruit.", values=("pome", "stone", "nut", "other"), example="stone", required=True)
    synonyms = list_of(text("A name.", example="mazzard"), "What else people call it.", example=[], required=True)
    chill_hours = stated(StatedChill, "Winter chill that the crop asks for, in hours.")
    chill_portions = stated(StatedChill, "Winter chill that the crop asks for, in chill portions.")
    hardiness_zone = stated(StatedSpan, "USDA hardiness zones in which the crop lives (7.5 is 7b).")
    self_fertility = stated(StatedText, "Whether the crop sets fruit with its own pollen.")
    partner_crops = stated(StatedList, "Crops whose pollen serves it.")
    not_partner_crops = stated(StatedList, "Crops whose pollen does not serve it, though one might think so.")
    incompatible_pairs = list_of(nested(StatedList, "A pair."), "Pairs of cultivars that do not serve each other.",
                                 example=[], required=True)  # fmt: skip
    good_pairs = list_of(nested(StatedList, "A pair."), "Pairs of cultivars known to serve each other.",
                         example=[], required=True)  # fmt: skip
    pollination_distance_ft = stated(StatedNumber, "How near a partner must stand.")
    height_ft = stated(StatedSpan, "Height of a full-grown tree.")
    spacing_ft = stated_by(StatedSpan, "Room between trees, by size of tree.", key="dwarf")
    close_spacing_ft = stated(StatedSpan, "Room between trees that are kept small by pruning.")
    years_to_bear = stated_by(StatedSpan, "Years from planting to the first crop, by size of tree.", key="dwarf")
    life_years = stated_by(StatedSpan, "How old a tree becomes, by size of tree.", key="dwarf")
    days_bloom_to_harvest = stated(StatedSpan, "Days from bloom to harvest.")
    harvest_by_season = stated_by(StatedHarvest, "When fruit is picked, by ripening class.", key="early")
    sources = list_of(text("Id of a source.", example="umn-apples"), "Sources of this record.", example=[],
                      required=True)  # fmt: skip


class CropsTold(Told):
    """A page of crops."""

    items = nested(CropTold, "The crops, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/crops")
@blueprint.asks_in_query(PageAsked)
@blueprint.reference(CropsTold)
def list_crops(asked: dict[str, Any]) -> dict[str, Any]:
    """List the crops.

    Every value comes with its sources; what nobody knows is null.
    """
    return page(list(parts().rulebook.catalogue.crops.values()), asked, key=_id, show=known)


@blueprint.route("/crops/<crop>", parameters=[at_id("crop", "Id of a crop.", example="sweet_cherry")])
@blueprint.reference(CropTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_crop(crop: str) -> dict[str, Any]:
    """Show one crop.

    Every value comes with its sources; what nobody knows is null.
    """
    found = parts().rulebook.catalogue.crops.get(crop)
    if found is None:
        raise NotFound("No crop has this id; GET /v1/crops lists them.")
    return known(found)


def _id(crop: Crop) -> str:
    return crop.id
