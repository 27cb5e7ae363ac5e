"""Names as people give them, turned into ids of the catalogue; a near miss is offered and never assumed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.domain.site import Spot, StandingTree
from service.knowledge.names import Found, NameBook


@dataclass(frozen=True, slots=True)
class NamedTree:
    """A standing tree as a person names it; `grafted` are further cultivars that grow on the same tree."""

    crop: str | None = None
    cultivar: str | None = None
    grafted: tuple[str, ...] = ()
    distance_ft: float | None = None
    spot: Spot | None = None


@dataclass(frozen=True, slots=True)
class Named:
    """The names of one request after they were found."""

    crops: tuple[str, ...]
    consider: tuple[str, ...]
    trees: tuple[StandingTree, ...] | None


class _Reader:
    def __init__(self, book: NameBook) -> None:
        self.book = book
        self.faults: list[tuple[str, str]] = []

    def crop(self, pointer: str, text: str) -> str | None:
        return self._found(pointer, text, what="crop", found=self.book.crop(text))

    def cultivar(self, pointer: str, text: str, *, crop: str | None = None) -> str | None:
        return self._found(pointer, text, what="cultivar", found=self.book.cultivar(text, crop=crop))

    def each(self, pointer: str, texts: Iterable[str], read: Callable[[str, str], str | None]) -> tuple[str, ...]:
        found = (read(f"{pointer}/{index}", text) for index, text in enumerate(texts))
        return tuple(dict.fromkeys(one for one in found if one is not None))

    def tree(self, pointer: str, named: NamedTree) -> StandingTree | None:
        crop = None if named.crop is None else self.crop(f"{pointer}/crop", named.crop)
        own = None if named.cultivar is None else self.cultivar(f"{pointer}/cultivar", named.cultivar, crop=crop)
        grafted = self.each(f"{pointer}/grafted", named.grafted, lambda at, text: self.cultivar(at, text, crop=crop))
        grown = tuple(dict.fromkeys(one for one in (own, *grafted) if one is not None))
        if named == NamedTree(distance_ft=named.distance_ft, spot=named.spot):
            self.faults.append((pointer, "say which crop or which cultivar stands there"))
        if crop is None and not grown:
            return None
        return StandingTree(crop or self.crop_of(grown[0]), grown, distance_ft=named.distance_ft, spot=named.spot)

    def crop_of(self, cultivar: str) -> str:
        """The crop of a cultivar, which its id begins with."""
        return cultivar.partition(".")[0]

    def _found(self, pointer: str, text: str, *, what: str, found: Found) -> str | None:
        if found.exact is not None:
            return found.exact
        self.faults.append((pointer, not_found(text, what, found)))
        return None


def not_found(text: str, what: str, found: Found) -> str:
    """The sentence for a name that is not one thing exactly, with the names near it."""
    if found.same_name_in:
        return f"“{text}” is a name in {', '.join(found.same_name_in)}; give the id or the crop as well"
    if found.near:
        return f"no {what} “{text}” is known here; near names: {', '.join(near.name for near in found.near)}"
    return f"no {what} “{text}” is known here"


def find_names(
    book: NameBook, *, crops: Sequence[str], consider: Sequence[str], trees: Sequence[NamedTree] | None
) -> Named:
    """The ids behind the names of a request; NotUnderstood lists every name that is not known, with near names."""
    reader = _Reader(book)
    found = Named(
        crops=reader.each("/wishes/crops", crops, reader.crop),
        consider=reader.each("/consider", consider, reader.cultivar),
        trees=None if trees is None else tuple(_trees(reader, trees)),
    )
    if reader.faults:
        raise NotUnderstood(*reader.faults)
    return found


def _trees(reader: _Reader, trees: Sequence[NamedTree]) -> Iterable[StandingTree]:
    for index, named in enumerate(trees):
        tree = reader.tree(f"/existing_trees/{index}", named)
        if tree is not None:
            yield tree
