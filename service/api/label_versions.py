"""All versions of the label records of the shelf; they outlive the product on it."""

from __future__ import annotations

import re
from typing import Any

from werkzeug.exceptions import NotFound

from service.api.house import Resource, at_id, parts
from service.api.label_asked import ID_PATTERN
from service.api.shelf_told import ShelfProductTold, VersionsTold
from service.domain.shelf import ShelfProduct
from service.present.shelf import product_told
from service.storage.shelf import find_version, versions_of

blueprint = Resource("label-versions", "Every version of every label record, of withdrawn products as well.")
OF_PRODUCT = at_id("product", "Id of a product that is or was on the shelf.", example="P-0042")
OF_VERSION = at_id("version", "Number of a version, from 1.", example="1")
VERSION_PATTERN = "[1-9][0-9]{0,8}"


@blueprint.route("/label-versions/<product>", parameters=[OF_PRODUCT])
@blueprint.answers(VersionsTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def list_versions(product: str) -> dict[str, Any]:
    """List the versions of a product's label record.

    Of a product that was withdrawn as well.
    """
    versions = versions_of(parts().database, product) if re.fullmatch(ID_PATTERN, product) else ()
    if not versions:
        raise NotFound("No product that is or was on the shelf has this id.")
    return {"id": product, "withdrawn_at": versions[0].withdrawn_at, "items": [_in_short(one) for one in versions]}


@blueprint.route("/label-versions/<product>/<version>", parameters=[OF_PRODUCT, OF_VERSION])
@blueprint.answers(ShelfProductTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_version(product: str, version: str) -> dict[str, Any]:
    """Show one version of a product's label record.

    This is the label that an answer of that time was made with.
    """
    readable = re.fullmatch(ID_PATTERN, product) and re.fullmatch(VERSION_PATTERN, version)
    found = find_version(parts().database, product, int(version)) if readable else None
    if found is None:
        raise NotFound("There is no such version; GET /v1/label-versions/{product} lists them.")
    return product_told(found, parts().rulebook.catalogue.label.model)


def _in_short(one: ShelfProduct) -> dict[str, Any]:
    day = one.record.label_version_date
    return {"version": one.version, "entered_at": one.entered_at, "label_version_date": day and day.isoformat()}
