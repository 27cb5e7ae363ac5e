"""The names of all that a question may name, short enough for a page to offer while somebody types."""

from __future__ import annotations

from typing import Any

from service.api.fields import Told, nested, text
from service.api.house import Resource, parts

blueprint = Resource("names", "The names of crops, cultivars, rootstocks and regions, and nothing else of them.")


class NameTold(Told):
    """One thing by its id and name."""

    id = text("Its id.", example="m_9", required=True)
    name = text("Its name.", example="M.9", required=True)


class NameInTwoTold(NameTold):
    """One thing that has a name in both languages."""

    name_es = text("Its Spanish name.", example="cereza dulce", required=True)


class CultivarNameTold(NameTold):
    """A cultivar by its id, denomination and crop."""

    crop = text("Id of its crop.", example="apple", required=True)


class NamesTold(Told):
    """All names, each kind in the order of its names."""

    crops = nested(NameInTwoTold, "The crops.", many=True, required=True)
    cultivars = nested(CultivarNameTold, "The cultivars by denomination.", many=True, required=True)
    rootstocks = nested(NameTold, "The rootstocks.", many=True, required=True)
    regions = nested(NameInTwoTold, "The regions whose usual bloom is known.", many=True, required=True)


@blueprint.route("/names")
@blueprint.reference(NamesTold, short=False)
def list_names() -> dict[str, Any]:
    """List the names of all crops, cultivars, rootstocks and regions.

    For a form that offers names while somebody types, and goes on doing so without a connection. What is known of each
    stands under /v1/crops, /v1/cultivars and /v1/rootstocks.
    """
    known = parts().rulebook.catalogue
    cultivars = ({"id": one.id, "name": one.denomination, "crop": one.crop} for one in known.cultivars.values())
    regions = known.season.regions.values()
    return {
        "crops": _by_name({"id": one.id, "name": one.name, "name_es": one.name_es} for one in known.crops.values()),
        "cultivars": _by_name(cultivars),
        "rootstocks": _by_name({"id": one.id, "name": one.name} for one in known.rootstocks.values()),
        "regions": _by_name({"id": one.id, "name": one.name.text, "name_es": one.name.text_es} for one in regions),
    }


def _by_name(told: Any) -> list[dict[str, str]]:
    return sorted(told, key=lambda one: (one["name"].casefold(), one["id"]))
