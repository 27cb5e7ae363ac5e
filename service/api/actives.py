"""Active ingredients on labels for home fruit trees."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, choice, flag, list_of, nested, text, whole
from service.api.house import Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.domain.label import BEE_CLASSES, MOA_SCHEMES
from service.domain.treatment import ACTIVE_KINDS, REFUSALS, Active
from service.knowledge.spelling import plain
from service.present.actives import active_told

blueprint = Resource("actives", "Active ingredients by ISO common name, and those that are never pointed to.")
RECALLED = ("moa", "bee_class", "farm_reentry_hours", "usual_intervals", "injuries")


class MoaTold(Told):
    """The group of the mode of action."""

    scheme = choice("Scheme.", values=MOA_SCHEMES, required=True)
    code = text("Group; null where the scheme gives none.", example="M04", longest=20, nullable=True, required=True)
    source = text("Id of the source.", example="frac", required=True)


class IntervalTold(Told):
    """Days before harvest that labels usually print; the label in hand decides."""

    crop = text("Id of the crop.", example="apple", required=True)
    min_days = whole("Fewest days.", unit="days", example=0, required=True)
    max_days = whole("Most days.", unit="days", example=14, required=True)
    source = text("Id of the source.", example="home_label_practice", required=True)


class ActiveInjuryTold(Told):
    """Harm to a crop that it is known for."""

    crop = text("Id of the crop, or any.", example="apricot", required=True)
    effect = text("What happens.", example="injures at any temperature", longest=1000, required=True)
    source = text("Id of the source.", example="uc_pn7494", required=True)


class ActiveTold(Told):
    """One active ingredient; what is null is not known."""

    iso_name = text("ISO common name.", example="captan", required=True)
    cas = text("CAS number.", example="133-06-2", nullable=True, required=True)
    kinds = list_of(choice("A kind.", values=ACTIVE_KINDS), "What it works as.", example=["fungicide"], required=True)
    moa = nested(MoaTold, "Mode of action.", required=True)
    home_status = text("Where it stands for home use.", example="sold for home use", longest=500, required=True)
    organic_eligible = flag("Whether products with it can be listed for organic production.", nullable=True,
                            required=True)  # fmt: skip
    usual_crops = list_of(text("A crop.", example="apple"), "Ids of crops that home labels usually print.",
                          example=["apple"], required=True)  # fmt: skip
    usual_intervals = nested(IntervalTold, "Days before harvest that labels usually print.", many=True, required=True)
    farm_reentry_hours = whole("Re-entry hours on farm labels; they bind no home planting.", unit="hours", example=12,
                               nullable=True, required=True)  # fmt: skip
    farm_reentry_source = text("Id of the source.", example="ag_label_practice", nullable=True, required=True)
    bee_class = choice("Bee class: I not on flowering plants, II only from sunset to midnight if the label allows, III"
                       " no care beyond the label.", values=BEE_CLASSES, nullable=True, required=True)  # fmt: skip
    bee_source = text("Id of the source.", example="uc_tox_flori", nullable=True, required=True)
    systemic = flag("Whether it moves inside the plant.", example=False, required=True)
    injuries = nested(ActiveInjuryTold, "Harm to crops that it is known for.", many=True, required=True)
    weather = list_of(text("A limit.", example="not near or over 90 °F"), "Weather that it bears badly.",
                      example=["not near or over 90 °F"], required=True)  # fmt: skip
    rotation = text("How to keep resistance away.", example="Acts at many sites.", longest=1000, nullable=True,
                    required=True)  # fmt: skip
    refuse = choice("Why it is never pointed to; null where it may be, within the label.", values=REFUSALS,
                    nullable=True, required=True)  # fmt: skip
    sources = list_of(text("Id of a source.", example="frac"), "Ids of the sources of the record.", example=["frac"],
                      required=True)  # fmt: skip
    from_memory = flag("True when nobody saw any of its sources.", example=False, required=True)
    recalled = list_of(choice("A field.", values=RECALLED), "Fields whose source nobody saw.",
                       example=["farm_reentry_hours"], required=True)  # fmt: skip


class ActivesTold(Told):
    """A page of actives."""

    items = nested(ActiveTold, "The actives, in the order of their names.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6Y2FwdGFu", longest=400,
                       nullable=True, required=True)  # fmt: skip


class ActivesAsked(PageAsked):
    """Which actives."""

    name = text("Only actives whose name has this text.", example="copper", longest=100)
    kind = choice("Only actives that work as this.", values=ACTIVE_KINDS)


@blueprint.route("/actives")
@blueprint.asks_in_query(ActivesAsked)
@blueprint.reference(ActivesTold)
def list_actives(asked: dict[str, Any]) -> dict[str, Any]:
    """List the active ingredients, all or those of a kind or with a name.

    No rate or dose is told: that stands on the label alone. `refuse` names those that no product may bring back.
    """
    kind, name = asked.get("kind"), plain(asked.get("name", ""))
    actives = parts().rulebook.catalogue.label.actives.values()
    chosen = [one for one in actives if (kind is None or kind in one.kinds) and name in plain(one.iso_name)]
    return page(chosen, asked, key=lambda one: one.iso_name, show=_told)


@blueprint.route("/actives/<active>", parameters=[at_id("active", "ISO common name of an active.", example="captan")])
@blueprint.reference(ActiveTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_active(active: str) -> dict[str, Any]:
    """Show one active ingredient.

    Its mode of action, bees, harm to crops and what labels usually print, with the sources.
    """
    found = parts().rulebook.catalogue.label.actives.get(active)
    if found is None:
        raise NotFound("No active has this ISO common name; GET /v1/actives?name=… finds it by a part of it.")
    return _told(found)


def _told(active: Active) -> dict[str, Any]:
    return active_told(active, parts().rulebook.sources)
