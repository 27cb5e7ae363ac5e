"""The door for a store's own kiosk pages: browsers of listed origins may ask, with a key, what a customer may ask.

A page on another origin reads our answers only where the Cross-Origin headers let it. They are given to the origins of
the settings and to no other, and such a page must send the key of its kiosk. Of the keys only hashes are known here. A
key opens questions, tickets and the names that a form offers: not the shelf, not the stock, no record of the store.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from http import HTTPStatus
from urllib.parse import urlsplit

import structlog
from flask import Flask, Response, g, request
from werkzeug.exceptions import Forbidden

from service.api.house import parts

HEADER = "Kiosk-Key"
OPEN = {
    "POST": (
        "/v1/variety-suggestions", "/v1/thinning-plans", "/v1/pruning-plans", "/v1/season-plans", "/v1/diagnoses",
        "/v1/tickets",
    ),
    "GET": (
        "/v1/pollination", "/v1/names", "/v1/store-climate", "/v1/complaints", "/v1/complaints/<complaint>",
        "/v1/signs", "/v1/signs/<sign>", "/v1/signs/<sign>/drawing",
    ),
}  # fmt: skip
MAY_SEND = f"Accept, Content-Type, Idempotency-Key, If-None-Match, {HEADER}"
MAY_READ = "ETag, Retry-After, X-Request-Id"
REMEMBER_S = 600


def admit_kiosks(app: Flask) -> None:
    """Let the pages of listed origins in through this door and through no other."""
    app.before_request(_ask_for_the_key)
    app.after_request(_let_listed_origins_read)


def new_key() -> str:
    """A key that nobody can guess."""
    return secrets.token_urlsafe(24)


def hash_of(key: str) -> str:
    """What is known of a key here; a long random key needs no slow hash.

    >>> hash_of("a key")[:16]
    '8fa3aab2faa9b79e'
    """
    return hashlib.sha256(key.encode()).hexdigest()


def _ask_for_the_key() -> Response | None:
    origin, key = _foreign_origin(), request.headers.get(HEADER)
    if origin is not None and request.method == "OPTIONS":
        return Response(status=HTTPStatus.NO_CONTENT)
    if origin is None and key is None:
        return None
    g.kiosk = _kiosk_of(key)
    structlog.contextvars.bind_contextvars(kiosk=g.kiosk)
    if request.url_rule is not None and request.url_rule.rule not in OPEN.get(request.method, ()):
        raise Forbidden("A kiosk may ask the questions of customers and make tickets, and nothing else.")
    return None


def _kiosk_of(key: str | None) -> str:
    if key is None:
        raise Forbidden(f"A page of another origin sends the key of its kiosk in the header {HEADER}.")
    found = None
    for known in parts().settings.kiosk_keys:
        name, _, hashed = known.partition(":")
        if hmac.compare_digest(hashed, hash_of(key)):
            found = name
    if found is None:
        raise Forbidden("No kiosk has this key.")
    return found


def _foreign_origin() -> str | None:
    """The listed origin of the page that asks; None where the page is ours or its origin is not listed."""
    origin = request.headers.get("Origin")
    if origin is None or origin not in parts().settings.kiosk_origins or urlsplit(origin).netloc == request.host:
        return None
    return origin


def _let_listed_origins_read(response: Response) -> Response:
    if parts().settings.kiosk_origins:
        response.vary.add("Origin")
    origin = _foreign_origin()
    if origin is None:
        return response
    response.headers["Access-Control-Allow-Origin"] = origin
    response.headers["Access-Control-Expose-Headers"] = MAY_READ
    if request.method == "OPTIONS":
        response.headers["Access-Control-Allow-Methods"] = "GET, POST"
        response.headers["Access-Control-Allow-Headers"] = MAY_SEND
        response.headers["Access-Control-Max-Age"] = str(REMEMBER_S)
    return response
