"""Fruitwright: advice for home growers of fruit trees, made of rules that say why and on whose authority."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask

    from service.reasoning.rulebook import Rulebook
    from service.settings import Settings


def create_app(settings: Settings, rulebook: Rulebook | None = None) -> Flask:
    """The web application with all its parts joined; reads the rulebook when none is given."""
    from service.assembly import assemble  # noqa: PLC0415  (a pure room must not load the web with its parent package)

    return assemble(settings, rulebook)
