"""A check of our own for schemathesis: a request that fits the document is refused only with a finger on its fault.

What the document cannot say (which cultivars there are, that a July maximum is not 12 °F) may still be wrong. Then the
answer is 422, and every pointer in it must lead to something that was sent.
"""

from __future__ import annotations

from typing import Any

import schemathesis


@schemathesis.check
def refusal_points_at_what_was_sent(
    ctx: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case
) -> None:
    """Every pointer of a 422 to a request that fits the document leads to a part of that request."""
    if response.status_code != 422 or case.meta is None or not case.meta.generation.mode.is_positive:
        return
    errors = response.json()["errors"]
    assert errors, "a refusal names at least one place"
    for error in errors:
        assert leads_somewhere(error["pointer"], case, missing="needed" in error["detail"]), (
            f"{error['pointer']} was not sent: {error['detail']}"
        )


def leads_somewhere(pointer: str, case: schemathesis.Case, *, missing: bool) -> bool:
    """Whether a pointer leads into the body, to a parameter that was sent, or to one that should have been."""
    steps = [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
    if steps and steps[0] in {parameter.name for parameter in case.operation.query}:
        return True
    return any(
        holds(place, steps, missing=missing) for place in (case.body, dict(case.query or {}), dict(case.headers or {}))
    )


def holds(place: Any, steps: list[str], *, missing: bool) -> bool:
    """Whether the steps can be gone from this place; the last may name a missing member."""
    for number, step in enumerate(steps, 1):
        if isinstance(place, dict) and step not in place:
            return missing and number == len(steps)
        if isinstance(place, dict):
            place = place[step]
        elif isinstance(place, list) and step.isdigit() and int(step) < len(place):
            place = place[int(step)]
        else:
            return False
    return True
