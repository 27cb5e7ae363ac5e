"""The frame that every resource stands in.

A resource is one file with a `blueprint`, its schemas and its views:

    blueprint = Resource("thinning-plans", "What to take off and what to leave.")

    @blueprint.route("/thinning-plans", methods=["POST"])
    @blueprint.asks(ThinningAsked)
    @blueprint.answers(ThinningTold)
    @blueprint.shows("take-all-uncounted")
    def plan_thinning(asked: dict[str, Any]) -> dict[str, Any]:
        \"\"\"Plan the thinning of one tree.

        A paragraph that stands in the document.
        \"\"\"
        return ...

A view returns a plain dict. An answer to a question is `no-store`; a `reference` carries the tag of the rulebook and
answers 304 when the client has it already.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import wraps
from http import HTTPStatus
from typing import Any, TypeVar, cast

import flask
import flask_smorest
import marshmallow as ma
from flask import Response, current_app, request

from service.api.reading import QuestionParser
from service.api.shown import Shown
from service.domain.errors import NotUnderstood
from service.parts import Parts

View = TypeVar("View", bound=Callable[..., Any])
Answer = type[ma.Schema] | dict[str, str]
SHORT_WHILE_S = 60
KEY_PARAMETER = {
    "in": "header",
    "name": "Idempotency-Key",
    "required": False,
    "description": "A text of the client's own, new for each question that is to be kept; a repeat is kept once.",
    "schema": {"type": "string", "minLength": 1, "maxLength": 255, "pattern": "^[!-~]+$"},
    "example": "till-3-2026-03-20-0042",
}


def parts() -> Parts:
    """The parts of the service that answers this request."""
    return cast(Parts, current_app.extensions["fruitwright"])


def written(content: Mapping[str, Any], status: int = 200) -> Response:
    """The content as a JSON response."""
    return Response(flask.json.dumps(content), status=status, mimetype="application/json")


def at_id(name: str, description: str, *, example: str) -> dict[str, Any]:
    """The documentation of an id in an address."""
    schema = {"type": "string"}
    return {"in": "path", "name": name, "required": True, "description": description, "schema": schema,
            "example": example}  # fmt: skip


def known_crop(name: str) -> str:
    """The id of a crop that a query names by id or by any of its names; the nearest names when there is none."""
    found = parts().names.crop(name)
    if found.exact is None:
        near = ", ".join(one.name for one in found.near)
        hint = f"; near it are: {near}." if near else "; GET /v1/crops lists them."
        raise NotUnderstood(("/crop", f"No crop is called '{name}'{hint}"))
    return found.exact


class Resource(flask_smorest.Blueprint):  # type: ignore[misc]  # it has no types
    """One resource below /v1 with its documentation; the name is its tag in the document."""

    ARGUMENTS_PARSER = QuestionParser()

    def __init__(self, name: str, description: str, *, url_prefix: str = "/v1") -> None:
        super().__init__(name, __name__, url_prefix=url_prefix, description=description)
        self._prepare_doc_cbks.append(_documented_problems)
        self.shown: dict[str, Shown] = {}

    def route(self, rule: str, **options: Any) -> Callable[[View], View]:
        """The view answers at this address."""
        return cast(Callable[[View], View], super().route(rule, **options))

    def also_answers(self, status: int, response: str | None = None, **documented: Any) -> Callable[[View], View]:
        """Document another answer of the view: a named problem such as NOT_FOUND, or one with a schema of its own."""
        return cast(Callable[[View], View], self.alt_response(status, response, **documented))

    def asks(self, schema: type[ma.Schema], *, also: Sequence[str] = (), **documented: Any) -> Callable[[View], View]:
        """The view takes this JSON object first; for a body of a media type in `also` it gets None and reads itself."""
        reads_json = self.arguments(schema, location="json", **documented)

        def decorator(view: View) -> View:
            parsed = reads_json(view)

            @wraps(parsed)
            def either(*args: Any, **kwargs: Any) -> Any:
                return view(None, *args, **kwargs) if request.mimetype in also else parsed(*args, **kwargs)

            return cast(View, either if also else parsed)

        return decorator

    def shows(
        self,
        rule: str | None,
        fields: Mapping[str, str] | None = None,
        *,
        documented: Sequence[str] = (),
        **wishes: Any,
    ) -> Callable[[View], View]:
        """The document shows the view with a request made from this rule, as shown.py tells."""
        return self._shown(Shown(rule, fields or {}, tuple(documented), wishes))

    def asks_in_query(self, schema: type[ma.Schema]) -> Callable[[View], View]:
        """The view takes the query string, read by this schema, first."""
        return cast(Callable[[View], View], self.arguments(schema, location="query"))

    def answers(self, schema: type[ma.Schema], *, status: int = 200, **documented: Any) -> Callable[[View], View]:
        """The view returns a dict that nobody should keep in a cache."""
        return self._told(schema, status, _not_stored, documented)

    def reference(self, schema: Answer, *, short: bool = True, **documented: Any) -> Callable[[View], View]:
        """The view returns a dict that depends on nothing but the address and the rulebook; a short one is shown."""
        headers = {"ETag": {"description": "Tag of the rulebook.", "schema": {"type": "string"}}}
        told = self._told(schema, 200, _tagged, {"headers": headers, **documented})
        unchanged = self.alt_response(304, description="You have this already (If-None-Match).")
        if isinstance(schema, dict) or not short:
            return lambda view: unchanged(told(view))
        one_entry = self._shown(Shown(wishes={"limit": 1}))
        return lambda view: unchanged(told(one_entry(view)))

    def _shown(self, shown: Shown) -> Callable[[View], View]:
        def decorator(view: View) -> View:
            self.shown[view.__name__] = shown
            return view

        return decorator

    def _told(
        self, schema: Answer, status: int, finish: Callable[[Response], Response], documented: dict[str, Any]
    ) -> Callable[[View], View]:
        document = self.response(status, schema, **documented)

        def decorator(view: View) -> View:
            @wraps(view)
            def answered(*args: Any, **kwargs: Any) -> Response:
                told = view(*args, **kwargs)
                return finish(told if isinstance(told, Response) else written(told, status))

            return cast(View, document(answered))

        return decorator


def _not_stored(response: Response) -> Response:
    response.headers["Cache-Control"] = "no-store"
    return response


def _tagged(response: Response) -> Response:
    response.set_etag(parts().rulebook.digest[:32])
    response.headers["Cache-Control"] = f"public, max-age={SHORT_WHILE_S}"
    return cast(Response, response.make_conditional(request))


def _documented_problems(doc: dict[str, Any], doc_info: dict[str, Any], **_: Any) -> dict[str, Any]:
    """Every operation that reads a body can refuse it in the same ways; so can one that reads the query string."""
    responses = doc.setdefault("responses", {})
    if "requestBody" in doc:
        for status in ("BAD_REQUEST", "REQUEST_ENTITY_TOO_LARGE", "UNSUPPORTED_MEDIA_TYPE", "UNPROCESSABLE_ENTITY"):
            responses.setdefault(_code(status), status)
    elif any(isinstance(one, dict) and one.get("in") == "query" for one in doc.get("parameters", [])):
        responses.setdefault(422, "UNPROCESSABLE_ENTITY")
    if doc_info.get("keeps"):
        doc.setdefault("parameters", []).append(KEY_PARAMETER)
        responses.setdefault(503, "SERVICE_UNAVAILABLE")
    return doc


def _code(name: str) -> int:
    return int(HTTPStatus[name])
