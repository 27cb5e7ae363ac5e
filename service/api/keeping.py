"""Keeps an answer when the question says `"keep": true`; otherwise asking stores nothing.

A view that can keep stands under `keeps`:

    @blueprint.route("/thinning-plans", methods=["POST"])
    @blueprint.asks(ThinningAsked)
    @blueprint.answers(ThinningTold)
    @keeps("thinning-plans")
    def plan_thinning(asked): ...

With an Idempotency-Key header the same request sent again, say over a bad line, is kept once and answered the same.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from copy import deepcopy
from functools import wraps
from typing import Any, TypeVar, cast

from flask import Response, g, request

from service.api.house import KEY_PARAMETER, parts
from service.api.reading import read_json
from service.domain.consultation import Consultation
from service.domain.errors import NotUnderstood
from service.storage.consultations import KeyUsedOtherwise, keep, kept_under, new_consultation

View = TypeVar("View", bound=Callable[..., Any])
HEADER = str(KEY_PARAMETER["name"])


def keeps(question: str) -> Callable[[View], View]:
    """The view's answer is kept under this noun when the question asks for it."""

    def decorator(view: View) -> View:
        @wraps(view)
        def kept(asked: dict[str, Any] | None, *args: Any, **kwargs: Any) -> dict[str, Any] | Response:
            key, digest = idempotency_key(), _digest(question)
            if not asked or not asked.get("keep"):
                return cast(dict[str, Any], view(asked, *args, **kwargs))
            _only_the_store_keeps()
            earlier = _earlier(key, digest)
            if earlier is None:
                answer = view(asked, *args, **kwargs)
                if isinstance(answer, Response):
                    return answer  # what it did not answer itself
                earlier = _keep(question, answer, key=key, digest=digest)
            return {**earlier.answer, "consultation": earlier.id}

        kept.__dict__["_apidoc"] = {**deepcopy(getattr(view, "_apidoc", {})), "keeps": True}
        return cast(View, kept)

    return decorator


def idempotency_key() -> str | None:
    """The idempotency key of the request; None where it carries none."""
    key = request.headers.get(HEADER)
    if key is not None and not (1 <= len(key) <= 255 and all("!" <= letter <= "~" for letter in key)):
        raise NotUnderstood((f"/{HEADER}", "The key is 1 to 255 letters, digits and signs without spaces."))
    return key


def _only_the_store_keeps() -> None:
    if g.get("kiosk") is not None:
        raise NotUnderstood(("/keep", "A kiosk asks and keeps nothing; it can make a ticket instead."))


def _digest(question: str) -> str:
    return hashlib.sha256(question.encode() + b"\n" + request.get_data(cache=True)).hexdigest()


def _earlier(key: str | None, digest: str) -> Consultation | None:
    if key is None:
        return None
    try:
        return kept_under(parts().database, key, digest)
    except KeyUsedOtherwise as fault:
        raise NotUnderstood((f"/{HEADER}", str(fault))) from None


def _keep(question: str, answer: dict[str, Any], *, key: str | None, digest: str) -> Consultation:
    asked = read_json(request.get_data(cache=True))
    new = new_consultation(question, asked=asked, answer=answer, rulebook=parts().rulebook.digest)
    try:
        return keep(parts().database, new, key=key, digest=digest)
    except KeyUsedOtherwise as fault:
        raise NotUnderstood((f"/{HEADER}", str(fault))) from None
