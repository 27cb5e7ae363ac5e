"""The crop and the varieties of a tree as people name them, turned into ids; a near miss is offered, never assumed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.knowledge.names import Found, NameBook
from service.questions.suggestion.naming import not_found


@dataclass(frozen=True, slots=True)
class NamedVariety:
    """A variety as a person names it, and where in the request it stands."""

    name: str | None
    pointer: str


def find_varieties(
    book: NameBook, crop: str, varieties: Sequence[NamedVariety]
) -> tuple[str, tuple[str | None, ...]]:
    """The id of the crop and of each variety; NotUnderstood lists every name that is not known, with near names."""
    faults: list[tuple[str, str]] = []

    def exact(pointer: str, name: str, *, what: str, found: Found) -> str | None:
        if found.exact is None:
            faults.append((pointer, not_found(name, what, found)))
        return found.exact

    crop_id = exact("/crop", crop, what="crop", found=book.crop(crop))
    ids = [
        None if each.name is None
        else exact(each.pointer, each.name, what="cultivar", found=book.cultivar(each.name, crop=crop_id))
        for each in varieties
    ]  # fmt: skip
    if crop_id is None or faults:
        raise NotUnderstood(*faults)
    return crop_id, tuple(ids)
