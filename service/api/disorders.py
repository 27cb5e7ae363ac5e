"""What can be wrong with a tree."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.disorder_told import DisordersTold, DisorderTold
from service.api.fields import choice, text
from service.api.house import Resource, at_id, known_crop, parts
from service.api.paging import PageAsked, page
from service.domain.disorder import DISORDER_KINDS, Disorder
from service.knowledge.spelling import plain
from service.present.sick_trees import disorder_told

blueprint = Resource("disorders", "Diseases, pests, animals, wants, weather and care that harm fruit trees.")


class DisordersAsked(PageAsked):
    """Which disorders."""

    crop = text("Only disorders that are met on this crop (its id or name).", example="peach", longest=100)
    kind = choice("Only causes of this kind.", values=DISORDER_KINDS)
    name = text("Only disorders whose English, Spanish or scientific name has this text.", example="scab", longest=100)


@blueprint.route("/disorders")
@blueprint.asks_in_query(DisordersAsked)
@blueprint.reference(DisordersTold)
def list_disorders(asked: dict[str, Any]) -> dict[str, Any]:
    """List the disorders, all or those of a crop, of a kind or with a name.

    Each comes with its sources. A crop on which only a laboratory could confirm a disorder counts as a crop of it.
    """
    crop = known_crop(asked["crop"]) if asked.get("crop") else None
    kind, name = asked.get("kind"), plain(asked.get("name", ""))
    chosen = [
        one
        for one in parts().rulebook.catalogue.disorders.values()
        if kind in (None, one.kind) and _called(one, name) and (crop is None or one.standing(crop) != "not_host")
    ]
    return page(chosen, asked, key=_id, show=_told)


@blueprint.route("/disorders/<disorder>", parameters=[at_id("disorder", "Id of a disorder.", example="fire_blight")])
@blueprint.reference(DisorderTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_disorder(disorder: str) -> dict[str, Any]:
    """Show one disorder.

    Hosts, stages, signs, look-alikes, what favours it, the sample that settles it and what can be done without a
    product, with the sources of the record.
    """
    found = parts().rulebook.catalogue.disorders.get(disorder)
    if found is None:
        raise NotFound("No disorder has this id; GET /v1/disorders?name=… finds it by its name.")
    return _told(found)


def _told(disorder: Disorder) -> dict[str, Any]:
    return disorder_told(disorder, parts().rulebook.catalogue.diagnosis)


def _called(disorder: Disorder, name: str) -> bool:
    names = (disorder.name, disorder.name_es, *disorder.scientific_names)
    return not name or any(name in plain(one) for one in names)


def _id(disorder: Disorder) -> str:
    return disorder.id
