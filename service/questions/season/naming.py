"""The trees of a plan as people name them, turned into ids; a near miss is offered, never assumed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.knowledge.names import Found, NameBook
from service.questions.suggestion.naming import not_found


@dataclass(frozen=True, slots=True)
class NamedTree:
    """A tree by the names of its crop and its cultivar."""

    crop: str
    cultivar: str | None = None


def find_trees(book: NameBook, named: Sequence[NamedTree]) -> tuple[NamedTree, ...]:
    """The ids behind the names; NotUnderstood lists every name that is not known, with near names."""
    faults: list[tuple[str, str]] = []

    def exact(place: int, what: str, *, name: str, found: Found) -> str:
        if found.exact is None:
            faults.append((f"/trees/{place}/{what}", not_found(name, what, found)))
        return found.exact or ""

    trees = []
    for place, tree in enumerate(named):
        crop = exact(place, "crop", name=tree.crop, found=book.crop(tree.crop))
        cultivar = None
        if tree.cultivar is not None and crop:
            found = book.cultivar(tree.cultivar, crop=crop)
            cultivar = exact(place, "cultivar", name=tree.cultivar, found=found)
        trees.append(NamedTree(crop, cultivar))
    if faults:
        raise NotUnderstood(*faults)
    return tuple(trees)
