"""The REST API: one file a resource. A new resource is added to the list below."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from service.api.house import Resource

RESOURCES = (
    "variety_suggestions",
    "pollination",
    "thinning_plans",
    "pruning_plans",
    "diagnoses",
    "treatment_pointers",
    "applications",
    "shelf_products",
    "label_versions",
    "shelf_imports",
    "stock",
    "stock_imports",
    "actives",
    "sign_drawings",
    "signs",
    "disorders",
    "complaints",
    "season_plans",
    "planting_lists",
    "list_checks",
    "climate_summaries",
    "names",
    "store_climate",
    "crops",
    "cultivars",
    "rootstocks",
    "rules",
    "sources",
    "consultations",
    "hand_outs",
    "tickets",
    "operations",
)


def resources() -> list[Resource]:
    """The blueprint of each resource, in the order of the document.

    They are imported here and not above, so that a module of this package can be imported on its own.
    """
    return [import_module(f"service.api.{name}").blueprint for name in RESOURCES]
