"""The cultivars that the rulebook knows."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, list_of, name_text, nested, text
from service.api.house import Resource, at_id, known_crop, parts
from service.api.paging import PageAsked, page
from service.api.stated import (
    StatedAlleles,
    StatedChill,
    StatedHarvest,
    StatedList,
    StatedNumber,
    StatedOffset,
    StatedSpan,
    StatedText,
    stated,
    stated_by,
)
from service.domain.cultivar import Cultivar
from service.knowledge.spelling import plain
from service.present.reference import known

blueprint = Resource("cultivars", "What is known of each cultivar.")


class CultivarsAsked(PageAsked):
    """Which cultivars."""

    crop = text("Only cultivars of this crop (its id).", example="apple", longest=100)
    name = name_text("Only cultivars whose denomination or synonym holds this text.", example="delicious")


class CultivarTold(Told):
    """What is known of a cultivar, each value with who says so."""

    id = text("Id: crop and name.", example="apple.golden_delicious", required=True)
    crop = text("Id of the crop.", example="apple", required=True)
    denomination = text("Name of the cultivar.", example="Golden Delicious", required=True)
    synonyms = list_of(text("A name.", example="Yellow Delicious"), "Other names.", example=[], required=True)
    species = stated(StatedText, "Botanical name.")
    origin = stated(StatedText, "Where it comes from.")
    chill_hours = stated(StatedChill, "Winter chill that it asks for, in hours.")
    chill_portions = stated(StatedChill, "Winter chill that it asks for, in chill portions.")
    chill_bounds = list_of(
        nested(StatedChill, "A bound."),
        "What only limits the chill need from one side.",
        example=[],
        required=True,
    )
    hardiness_zone = stated(StatedSpan, "USDA hardiness zones in which it lives (7.5 is 7b).")
    zone_bounds = list_of(
        nested(StatedSpan, "A bound."),
        "What only limits the hardiness from one side.",
        example=[],
        required=True,
    )
    self_fertility = stated(StatedText, "Whether it sets fruit with its own pollen.")
    s_genotype = stated(StatedAlleles, "Its S-alleles.")
    incompatibility_group = stated(StatedText, "Its incompatibility group.")
    ploidy = stated(StatedNumber, "Sets of chromosomes.")
    bloom = stated(StatedText, "When it blooms among its crop.")
    bloom_offset = stated(StatedOffset, "When it blooms, in days from another cultivar.")
    ripening = stated(StatedText, "When it ripens among its crop.")
    ripening_offset = stated(StatedOffset, "When it ripens, in days from another cultivar.")
    harvest = stated(StatedHarvest, "When it is picked.")
    ripening_as_stated = stated(StatedText, "When it ripens, in the words of the source.")
    uses = stated(StatedList, "What the fruit is good for.")
    uses_as_stated = stated(StatedText, "What the fruit is good for, in the words of the source.")
    habit = stated(StatedText, "How it grows.")
    height_ft = stated(StatedSpan, "Height of the full-grown tree.")
    astringency = stated(StatedText, "Whether the fruit puckers the mouth while it is firm.")
    resistance = stated_by(StatedText, "How it stands each disease.", key="fire_blight")
    remarks = list_of(nested(StatedText, "A remark."), "What else is worth knowing.", example=[], required=True)
    sources = list_of(text("Id of a source.", example="umn-apples"), "Sources of this record.", example=[],
                      required=True)  # fmt: skip


class CultivarsTold(Told):
    """A page of cultivars."""

    items = nested(CultivarTold, "The cultivars, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/cultivars")
@blueprint.asks_in_query(CultivarsAsked)
@blueprint.reference(CultivarsTold)
def list_cultivars(asked: dict[str, Any]) -> dict[str, Any]:
    """List the cultivars, all or those of a crop or with a name.

    Every value comes with its sources; what nobody knows is null. Case and accents do not matter in `name`.
    """
    catalogue = parts().rulebook.catalogue
    crop, name = asked.get("crop"), plain(asked.get("name", ""))
    chosen = catalogue.cultivars_of(known_crop(crop)) if crop else catalogue.cultivars.values()
    return page([one for one in chosen if _called(one, name)], asked, key=_id, show=known)


@blueprint.route(
    "/cultivars/<cultivar>", parameters=[at_id("cultivar", "Id of a cultivar.", example="apple.golden_delicious")]
)
@blueprint.reference(CultivarTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_cultivar(cultivar: str) -> dict[str, Any]:
    """Show one cultivar.

    Every value comes with its sources; what nobody knows is null.
    """
    found = parts().rulebook.catalogue.cultivars.get(cultivar)
    if found is None:
        raise NotFound("No cultivar has this id; GET /v1/cultivars?name=… finds it by its name.")
    return known(found)


def _called(cultivar: Cultivar, name: str) -> bool:
    return not name or any(name in plain(one) for one in (cultivar.denomination, *cultivar.synonyms))


def _id(cultivar: Cultivar) -> str:
    return cultivar.id
