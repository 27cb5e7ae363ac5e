"""The log of what was put on trees: entries are added, and corrected only by a further entry."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.applied import entry_of, same_entry
from service.api.fields import Asked, Told, date_text, flag, list_of, name_text, nested, text, whole
from service.api.house import KEY_PARAMETER, Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.domain.application import Application, standing
from service.domain.errors import NotUnderstood
from service.storage.applications import CorrectedAlready, applications_of, find_application, log_application

blueprint = Resource("applications", "What was put on trees, written once and corrected by further entries.")
REFERENCE = "[A-Za-z0-9][A-Za-z0-9._-]*"
REFERENCE_WANTS = "A code is letters, digits, dots, dashes and underscores, and begins with a letter or a digit."


class ApplicationAsked(Asked):
    """One use of a product on one tree. An entry that corrects another takes from it what is left out."""

    reference = text("Code of the tree, never a person's name.", example="tree-17", longest=64, pattern=REFERENCE,
                     wants=REFERENCE_WANTS, required=True)  # fmt: skip
    date = date_text("The day of use.", example="2025-04-20", required=True)
    product = name_text("Id of the product on the shelf; its version of now is noted.", example="DP09")
    actives = list_of(name_text("ISO common name of an active ingredient.", example="mineral oil"),
                      "The actives, where it is not on the shelf.", example=["mineral oil"], most=20)  # fmt: skip
    crop = name_text("The crop by name or id.", example="apple")
    corrects = text("Id of the entry in whose place this one stands.", example="60a70913bcc04df48aa24f28a6a297b2",
                    longest=64)  # fmt: skip
    did_not_happen = flag("True where the entry that is corrected never happened.", example=False)


class ApplicationTold(Told):
    """An entry of the log."""

    id = text("Id of the entry.", example="60a70913bcc04df48aa24f28a6a297b2", required=True)
    reference = text("Code of the tree.", example="tree-17", required=True)
    date = text("The day of use.", example="2025-04-20", required=True)
    product = text("Id of the product on the shelf.", example="DP09", nullable=True, required=True)
    version = whole("Version of its label record on the day of the entry.", unit="count", example=1, nullable=True,
                    required=True)  # fmt: skip
    product_name = text("Its name.", example="Silverbeck Horticultural Oil", nullable=True, required=True)
    epa_reg_no = text("Its registration number.", example="9999109-9", nullable=True, required=True)
    actives = list_of(text("An ISO common name.", example="mineral oil"), "Its actives.", example=["mineral oil"],
                      required=True)  # fmt: skip
    crop = text("Id of the crop.", example="apple", nullable=True, required=True)
    corrects = text("Id of the entry in whose place it stands.", example="60a70913bcc04df48aa24f28a6a297b2",
                    nullable=True, required=True)  # fmt: skip
    did_not_happen = flag("True where it takes that entry out of the log.", example=False, required=True)
    counts = flag("True where it counts: no later entry corrects it, and it happened.", required=True)
    logged_at = text("When it was written (UTC).", example="2026-11-25T10:51:40.120000Z", required=True)


class ApplicationsTold(Told):
    """One page of a log."""

    items = nested(ApplicationTold, "Entries.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YQ", nullable=True,
                       required=True)  # fmt: skip


class ApplicationsAsked(PageAsked):
    """Which tree."""

    reference = text("Code of the tree.", example="tree-17", longest=64, pattern=REFERENCE, wants=REFERENCE_WANTS,
                     required=True)  # fmt: skip


@blueprint.route("/applications", methods=["POST"])
@blueprint.asks(ApplicationAsked)
@blueprint.answers(ApplicationTold, status=201)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(parameters=[KEY_PARAMETER])  # type: ignore[untyped-decorator]
def add_application(asked: dict[str, Any]) -> dict[str, Any]:
    """Log what was put on a tree.

    Entries are never changed and never taken away: a mistake is put right by a further entry that names the one it
    corrects. Counts, days between uses and rotation of later answers read what counts. With an Idempotency-Key the
    same request sent again is logged once.
    """
    entry = entry_of(asked)
    try:
        logged = log_application(parts().database, entry)
    except CorrectedAlready as fault:
        raise NotUnderstood(("/corrects", str(fault))) from None
    if not same_entry(logged, entry):
        raise NotUnderstood(("/Idempotency-Key", "This key was used before with another request; take a new one."))
    return _told(logged)


@blueprint.route("/applications")
@blueprint.asks_in_query(ApplicationsAsked)
@blueprint.answers(ApplicationsTold)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def list_applications(asked: dict[str, Any]) -> dict[str, Any]:
    """List the log of a tree.

    Every entry in the order in which it was written, those that were corrected too; `counts` tells which stand.
    """
    entries = applications_of(parts().database, asked["reference"])
    counting = {one.id for one in standing(entries)}
    return page(entries, asked, key=_place, show=lambda entry: _told(entry, counts=entry.id in counting))


@blueprint.route(
    "/applications/<application>",
    parameters=[at_id("application", "Id of an entry.", example="60a70913bcc04df48aa24f28a6a297b2")],
)
@blueprint.answers(ApplicationTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_application(application: str) -> dict[str, Any]:
    """Show one entry of the log.

    As it was written, and whether it still counts.
    """
    entry = find_application(parts().database, application)
    if entry is None:
        raise NotFound("No entry of the log has this id.")
    return _told(entry)


def _place(entry: Application) -> str:
    return f"{entry.logged_at} {entry.id}"


def _told(entry: Application, *, counts: bool | None = None) -> dict[str, Any]:
    if counts is None:
        counts = entry.id in {one.id for one in standing(applications_of(parts().database, entry.reference))}
    names = ("id", "reference", "product", "version", "product_name", "epa_reg_no", "crop", "corrects",
             "did_not_happen", "logged_at")  # fmt: skip
    told = {name: getattr(entry, name) for name in names}
    return {**told, "date": entry.applied_on.isoformat(), "actives": list(entry.actives), "counts": counts}
