"""What customers say at the counter."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.fields import Told, choice, flag, list_of, nested, text
from service.api.house import Resource, at_id, known_crop, parts
from service.api.paging import PageAsked, page
from service.domain.complaint import COMPLAINT_GROUPS, Complaint
from service.present.sick_trees import complaint_told

blueprint = Resource("complaints", "What customers complain of, and what may be behind it.")


class ComplaintsAsked(PageAsked):
    """Which complaints."""

    crop = text("Only complaints that this crop may have (its id or name).", example="peach", longest=100)
    group = choice("Only complaints of this group.", values=COMPLAINT_GROUPS)


class CauseTold(Told):
    """What may be behind a complaint."""

    disorder = text("Id of the disorder; null where it stands among no disorders.", example="drought", nullable=True,
                    required=True)  # fmt: skip
    name = text("What it is.", example="drought", required=True)
    name_es = text("The same in Spanish.", example="sequía", required=True)
    sources = list_of(text("Id of a source.", example="UCIPM_WATER"), "Who says so; see /v1/sources.",
                      example=["UCIPM_WATER"], required=True)  # fmt: skip
    from_memory = flag("True where the sources name a wider cause, and that it is this disorder was recalled.",
                       example=False, required=True)  # fmt: skip


class KnownComplaintTold(Told):
    """One complaint."""

    id = text("Id of the complaint.", example="brown_edges", required=True)
    group = choice("What it is about.", values=COMPLAINT_GROUPS, example="growth_and_leaves", required=True)
    name = text("The complaint in a few words.", example="brown leaf edges", required=True)
    name_es = text("The same in Spanish.", example="bordes de hojas pardos", required=True)
    says = list_of(text("A phrase.", example="leaf edges look burnt"), "How customers say it.",
                   example=["leaf edges look burnt"], required=True)  # fmt: skip
    says_es = list_of(text("A phrase.", example="bordes quemados"), "How they say it in Spanish.",
                      example=["bordes quemados"], required=True)  # fmt: skip
    crops = list_of(text("Id of a crop.", example="peach"), "Crops that may have it; empty for any.", example=[],
                    required=True)  # fmt: skip
    shows = list_of(text("Id of a sign.", example="lf_margin_scorch"), "Signs that the complaint itself states.",
                    example=["lf_margin_scorch"], required=True)  # fmt: skip
    signs = list_of(text("Id of a sign.", example="rt_dry"), "Signs worth asking for.", example=["rt_dry"],
                    required=True)  # fmt: skip
    causes = nested(CauseTold, "What may be behind it.", many=True, required=True)


class ComplaintsTold(Told):
    """A page of complaints."""

    items = nested(KnownComplaintTold, "The complaints, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


@blueprint.route("/complaints")
@blueprint.asks_in_query(ComplaintsAsked)
@blueprint.reference(ComplaintsTold)
def list_complaints(asked: dict[str, Any]) -> dict[str, Any]:
    """List the complaints, all or those of a crop or a group.

    A complaint that names no crop may be heard of any.
    """
    crop = known_crop(asked["crop"]) if asked.get("crop") else None
    group = asked.get("group")
    chosen = [
        one
        for one in parts().rulebook.catalogue.complaints.values()
        if group in (None, one.group) and (crop is None or not one.crops or crop in one.crops)
    ]
    return page(chosen, asked, key=_id, show=complaint_told)


@blueprint.route(
    "/complaints/<complaint>", parameters=[at_id("complaint", "Id of a complaint.", example="brown_edges")]
)
@blueprint.reference(KnownComplaintTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_complaint(complaint: str) -> dict[str, Any]:
    """Show one complaint.

    With the words of customers, the signs worth asking for, and its causes with their sources.
    """
    found = parts().rulebook.catalogue.complaints.get(complaint)
    if found is None:
        raise NotFound("No complaint has this id; GET /v1/complaints lists them.")
    return complaint_told(found)


def _id(complaint: Complaint) -> str:
    return complaint.id
