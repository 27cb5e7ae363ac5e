"""The names of a tree to be pruned, turned into ids of the catalogue; a near miss is offered and never assumed."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.domain.pruned_tree import GraftedVariety
from service.knowledge.names import Found, NameBook
from service.questions.suggestion.naming import not_found


@dataclass(frozen=True, slots=True)
class NamedPruning:
    """A tree as a person names it; `varieties` are the names of all that grow on it, each with its shoot length."""

    crop: str
    cultivar: str | None = None
    varieties: tuple[tuple[str, float | None], ...] = ()


@dataclass(frozen=True, slots=True)
class FoundPruning:
    """The ids behind the names."""

    crop: str
    cultivar: str | None
    varieties: tuple[GraftedVariety, ...]


def find_pruned(book: NameBook, named: NamedPruning) -> FoundPruning:
    """The ids behind the names of a request; a variety of a grafted tree may also be called by a name of its owner's.

    NotUnderstood lists every name that is not known, with near names.
    """
    faults: list[tuple[str, str]] = []

    def exact(pointer: str, name: str, found: Found) -> str | None:
        if found.exact is None:
            faults.append((pointer, not_found(name, pointer[1:], found)))
        return found.exact

    crop = exact("/crop", named.crop, book.crop(named.crop))
    cultivar = None
    if named.cultivar is not None and crop is not None:
        cultivar = exact("/cultivar", named.cultivar, book.cultivar(named.cultivar, crop=crop))
    if crop is None or faults:
        raise NotUnderstood(*faults)
    varieties = tuple(
        GraftedVariety(name, book.cultivar(name).exact, shoot_length_in) for name, shoot_length_in in named.varieties
    )
    return FoundPruning(crop, cultivar, varieties)
