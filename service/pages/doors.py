"""The addresses of the pages, and the headers that keep them to themselves."""

from __future__ import annotations

from typing import cast

import flask
from flask import Blueprint, Flask, Response, current_app, render_template

from service.api.document import document_of
from service.api.house import parts
from service.api.problems import SENTENCES
from service.pages.docs import chapters, refusal, schemas
from service.pages.label_form import label_form

blueprint = Blueprint("pages", __name__, template_folder="templates", static_folder="static", static_url_path="/static")
POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
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
    """The page for the counter: which varieties suit a site."""
    crops = sorted(parts().rulebook.catalogue.crops.values(), key=lambda crop: crop.name)
    return render_template("counter.html", crops=crops)


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
    )


@blueprint.get("/openapi.json")
def openapi() -> Response:
    """The API's document for programs."""
    response = flask.jsonify(document_of(current_app.extensions["fruitwright_api"]))
    response.add_etag()
    response.headers["Cache-Control"] = "public, max-age=60"
    return cast(Response, response.make_conditional(flask.request))


def _guard(response: Response) -> Response:
    response.headers["Content-Security-Policy"] = POLICY
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Referrer-Policy"] = "no-referrer"
    return response
