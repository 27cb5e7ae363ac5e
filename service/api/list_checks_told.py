"""What the answers on kept planting lists hold."""

from __future__ import annotations

from service.api.fields import AskedInQuery, Told, choice, list_of, nested, text, whole
from service.api.paging import PageAsked
from service.api.planting_list_line_told import ListLineTold
from service.api.planting_list_told import LIST_VERDICTS, VerdictCountsTold
from service.api.problems import FaultTold
from service.domain.list_batch import STATES, Progress
from service.present.planting_list_out import FORMATS

ID = "c0a9e1d24f7b4f0e8d5a6b7c8d9e0f1a"


class ListCheckTold(Told):
    """A planting list that was kept, and how far its check is."""

    id = text("Id of the list.", example=ID, required=True)
    name = text("Name of its file.", example="orchard.csv", longest=300, required=True, nullable=True)
    sent_at = text("When it was sent (UTC).", example="2026-11-25T10:51:40.125Z", required=True)
    check = whole("Number of the check: lists are checked again when rules change.", unit="count", example=1,
                  required=True)  # fmt: skip
    asked_at = text("When this check was asked for (UTC).", example="2026-11-25T10:51:40.125Z", required=True)
    state = choice("How far the check is.", values=STATES, required=True)
    lines_done = whole("Lines that are checked and stored.", unit="count", example=1500, required=True)
    lines_expected = whole("About how many lines there are; null where only reading the list tells.", unit="count",
                           example=4000, required=True, nullable=True)  # fmt: skip
    lines_by_verdict = nested(VerdictCountsTold, "The checked lines by verdict.", required=True)
    verdict = choice("What the list comes to; null before the check is done.", values=LIST_VERDICTS, required=True,
                     nullable=True)  # fmt: skip
    changed_lines = whole("Lines whose verdict differs from the check before; null where there was none.",
                          unit="count", example=3, required=True, nullable=True)  # fmt: skip
    rulebook = text("Digest of the rulebook that judges.", example="9f8e", required=True, nullable=True)
    ended_at = text("When the check ended (UTC).", example="2026-11-25T10:51:44.010Z", required=True, nullable=True)
    errors = list_of(
        nested(FaultTold, "One thing that cannot be used."), "Why the check failed; empty otherwise.",
        example=[{"pointer": "/file", "detail": "the list has more than 1,048,576 rows; send it in parts"}],
        required=True,
    )  # fmt: skip


class ListChecksTold(Told):
    """A page of kept lists."""

    items = nested(ListCheckTold, "The lists.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", required=True,
                       nullable=True)  # fmt: skip


class CheckedLinesTold(Told):
    """A page of the checked lines of a list."""

    items = nested(ListLineTold, "The lines.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last that is checked.", example="YWZ0ZXI6YXBwbGU",
                       required=True, nullable=True)  # fmt: skip


class LinesAsked(PageAsked):
    """Which lines."""


class ResultAsked(AskedInQuery):
    """In which format."""

    format = choice("Format of the result; by Accept when left out.", values=FORMATS)


def progress_told(progress: Progress) -> dict[str, object]:
    """How far a check is, as plain data."""
    return {
        "id": progress.list_id,
        "name": progress.name,
        "sent_at": progress.sent_at,
        "check": progress.number,
        "asked_at": progress.asked_at,
        "state": progress.state,
        "lines_done": progress.lines_done,
        "lines_expected": progress.lines_expected,
        "lines_by_verdict": dict(progress.verdicts),
        "verdict": progress.list_verdict,
        "changed_lines": progress.changed_lines,
        "rulebook": progress.rulebook,
        "ended_at": progress.ended_at,
        "errors": [{"pointer": pointer, "detail": detail} for pointer, detail in progress.faults],
    }
