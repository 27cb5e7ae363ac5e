"""The words of the vocabulary with which the catalogue describes trees and their troubles, for the look-ups."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from service.domain.disorder import DISORDER_KINDS, HOST_LEVELS, STAGES
from service.domain.sign import PARTS, TOOLS
from service.knowledge.catalogue import Catalogue
from service.present.reference import known

WORD = re.compile(r"[a-z][a-z0-9_]*")


def words_known(catalogue: Catalogue) -> set[str]:
    """Every word that a fact of a cultivar or a rootstock takes, and those of signs and disorders."""
    described = (*catalogue.cultivars.values(), *catalogue.rootstocks.values())
    found = {word for one in described for word in _words(known(one))}
    return found | {*PARTS, *TOOLS, *HOST_LEVELS, *DISORDER_KINDS, *STAGES}


def _words(told: Any) -> Iterator[str]:
    """The words among the values of facts, however deep they lie."""
    if isinstance(told, dict):
        for name, inner in told.items():
            yield from _texts(inner) if name == "value" else _words(inner)
    elif isinstance(told, list):
        for inner in told:
            yield from _words(inner)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str) and WORD.fullmatch(value):
        yield value
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(inner)
    elif isinstance(value, dict):
        for inner in value.values():
            yield from _texts(inner)
