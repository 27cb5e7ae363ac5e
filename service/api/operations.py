"""What operators ask: does it live, is it ready, how does it fare."""

from __future__ import annotations

from typing import Any

from flask import Response

from service.api.fields import Told, choice, flag, list_of, nested, text
from service.api.house import Resource, parts, written
from service.observe.metrics import exposition
from service.observe.readiness import checks_of

blueprint = Resource("operations", "For those who run the service.", url_prefix="")


class LivesTold(Told):
    """The process answers."""

    status = choice("Always the same word.", values=("alive",), required=True)


class CheckTold(Told):
    """One thing that must be in order before questions are answered."""

    name = text("What was looked at.", example="database", required=True)
    ok = flag("Whether it is in order.", required=True)
    detail = text("What was found, in a sentence.", example="The database answers and is migrated.", required=True)


class ReadyTold(Told):
    """Whether the service can answer questions now."""

    ready = flag("True when every check is in order.", required=True)
    checks = list_of(nested(CheckTold, "One check."), "Each check that was made.", example=[], required=True)


@blueprint.route("/livez")
@blueprint.answers(LivesTold)
def livez() -> dict[str, Any]:
    """Say that the process lives.

    Touches neither the rules nor the database; a supervisor restarts the process when this stays silent.
    """
    return {"status": "alive"}


@blueprint.route("/healthz")
@blueprint.answers(LivesTold)
def healthz() -> dict[str, Any]:
    """Say the same as /livez.

    Kept for supervisors that ask at this address.
    """
    return {"status": "alive"}


@blueprint.route("/readyz")
@blueprint.answers(ReadyTold)
@blueprint.also_answers(503, schema=ReadyTold, description="Some check is not in order.")
def readyz() -> Response:
    """Say whether questions can be answered now.

    Looks at the rulebook, at both matchers and at the database each time it is asked.
    """
    checks = checks_of(parts())
    ready = all(check.ok for check in checks)
    told = [{"name": check.name, "ok": check.ok, "detail": check.detail} for check in checks]
    return written({"ready": ready, "checks": told}, 200 if ready else 503)


@blueprint.route("/metrics")
@blueprint.also_answers(
    200, schema={"type": "string"}, content_type="text/plain", description="Numbers in the text format.", success=True
)
def metrics() -> Response:
    """Give counts and durations as text.

    The exposition format of Prometheus, summed over all web processes of this machine.
    """
    content, media_type = exposition()
    return Response(content, content_type=media_type, headers={"Cache-Control": "no-store"})
