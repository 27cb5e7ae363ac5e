"""The addresses of the pages, and the headers that keep them to themselves."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, cast

import flask
from flask import Blueprint, Flask, Response, current_app, render_template, request
from werkzeug.exceptions import NotFound

from service.api.document import document_of, path_in_document
from service.api.house import parts
from service.api.kiosk_door import HEADER, OPEN
from service.api.problems import SENTENCES
from service.pages.catalogue_words import words_known
from service.pages.docs import chapters, refusal, schemas
from service.pages.form_fields import form_fields, words_in
from service.pages.label_form import label_form
from service.pages.shell import shell_files, shell_tag
from service.pages.wording import LANGUAGES, choice_words, page_words

blueprint = Blueprint("pages", __name__, template_folder="templates", static_folder="static", static_url_path="/static")
PAGES_KEPT = ("/counter", "/kiosk")
KIOSK_LEANS_ON = {f"/static/lib/{name}.mjs" for name in ("ask", "dom", "marks", "store", "units", "words")}
POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)


def guard_pages(app: Flask) -> None:
    """Let browsers load nothing from elsewhere and guess no media types, on every answer."""
    app.after_request(_guard)


@blueprint.get("/")
def index() -> str:
    """The way in."""
    return render_template("index.html")


@blueprint.get("/counter")
def counter() -> str:
    """The page for the counter: one customer, their place, and what they came for."""
    language = request.accept_languages.best_match(LANGUAGES) or "en"
    return render_template("counter.html", language=language, words=page_words(language), modules=_modules("counter"))


@blueprint.get("/kiosk")
def kiosk() -> str:
    """The page for customers: three ways in, and none out."""
    language = request.accept_languages.best_match(LANGUAGES) or "en"
    return render_template(
        "kiosk.html",
        language=language,
        words=page_words(language),
        modules=[name for name in shell_files() if name.startswith("/static/kiosk/") or name in KIOSK_LEANS_ON],
        idle_seconds=parts().settings.kiosk_idle_seconds,
    )


@blueprint.get("/words/<language>.json")
def words(language: str) -> Response:
    """Every text of the pages in one language, and the words that choices take."""
    known = next((one for one in LANGUAGES if one == language), None)
    if known is None:
        raise NotFound("The pages speak en and es.")
    return _told({**choice_words(words_in(_fields()), known), **page_words(known)})


@blueprint.get("/words/catalogue/<language>.json")
def catalogue_words(language: str) -> Response:
    """The words with which the catalogue describes trees and troubles, for those who look something up."""
    known = next((one for one in LANGUAGES if one == language), None)
    if known is None:
        raise NotFound("The pages speak en and es.")
    return _told(choice_words(_words_of(parts().rulebook.digest), known))


@blueprint.get("/fields.json")
def fields() -> Response:
    """The fields of every question, for the forms of the pages."""
    return _told(_fields())


@blueprint.get("/sw.js")
def service_worker() -> Response:
    """The script that keeps the pages for a time without a connection; it changes whenever they do."""
    kept = [*PAGES_KEPT, *(f"/words/{language}.json" for language in LANGUAGES), "/fields.json", *shell_files()]
    tag = f"{shell_tag()}-{parts().settings.kiosk_idle_seconds}"  # the kiosk page holds that setting
    script = render_template("sw.js", tag=tag, kept=kept)
    return Response(script, content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"})


@blueprint.get("/shelf")
def shelf() -> str:
    """The page of the shelf: its products, and the whole of it from a file."""
    return render_template("shelf.html")


@blueprint.get("/shelf/new")
def new_product() -> str:
    """The form of a label record for a product that is not on the shelf yet."""
    return render_template("shelf_product.html", product=None, sections=label_form())


@blueprint.get("/shelf/products/<product>")
def shelf_product(product: str) -> str:
    """The form of one product's label record."""
    return render_template("shelf_product.html", product=product, sections=label_form())


@blueprint.get("/docs")
def docs() -> str:
    """The API's document for people."""
    document = document_of(current_app.extensions["fruitwright_api"])
    return render_template(
        "docs.html",
        document=document,
        chapters=chapters(document),
        schemas=schemas(document),
        problems=SENTENCES,
        refusal=refusal(document),
        kiosk_header=HEADER,
        kiosk_open={method: [path_in_document(one) for one in addresses] for method, addresses in OPEN.items()},
    )


@blueprint.get("/openapi.json")
def openapi() -> Response:
    """The API's document for programs."""
    response = flask.jsonify(document_of(current_app.extensions["fruitwright_api"]))
    response.add_etag()
    response.headers["Cache-Control"] = "public, max-age=60"
    return cast(Response, response.make_conditional(flask.request))


@lru_cache(maxsize=2)
def _words_of(digest: str) -> frozenset[str]:
    """The words of the catalogue, gathered once for each rulebook."""
    assert digest == parts().rulebook.digest
    return frozenset(words_known(parts().rulebook.catalogue))


def _fields() -> dict[str, Any]:
    return form_fields(document_of(current_app.extensions["fruitwright_api"]))


def _modules(page: str) -> list[str]:
    """The scripts that a page needs at once, so that a browser asks for all of them together."""
    return [name for name in shell_files() if name.startswith("/static/lib/") or name == f"/static/{page}/main.mjs"]


def _told(content: dict[str, Any]) -> Response:
    response = flask.jsonify(content)
    response.add_etag()
    response.headers["Cache-Control"] = "no-cache"
    return cast(Response, response.make_conditional(request))


def _guard(response: Response) -> Response:
    response.headers["Content-Security-Policy"] = POLICY
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Referrer-Policy"] = "no-referrer"
    return response
