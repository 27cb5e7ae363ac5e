"""The names of two trees, turned into ids of the catalogue; a near miss is offered and never assumed."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.knowledge.names import Found, NameBook
from service.questions.suggestion.naming import not_found


@dataclass(frozen=True, slots=True)
class PairNamed:
    """A pair as a person names it; crops are needed where a name belongs to several."""

    cultivar: str
    partner: str
    crop: str | None = None
    partner_crop: str | None = None


def find_pair(book: NameBook, named: PairNamed) -> tuple[str, str]:
    """The ids behind the names of a pair; without a crop of its own the partner is of the tree's crop where it can be.

    NotUnderstood lists every name that is not known, with near names.
    """
    reader = _Reader(book)
    crop, partner_crop = reader.crop("/crop", named.crop), reader.crop("/partner_crop", named.partner_crop)
    tree = reader.cultivar("/cultivar", named.cultivar, crop)
    home = crop if tree is None else tree.partition(".")[0]
    if partner_crop is None and home is not None and book.cultivar(named.partner, crop=home).exact is not None:
        partner_crop = home
    partner = reader.cultivar("/partner", named.partner, partner_crop)
    if tree is None or partner is None or reader.faults:
        raise NotUnderstood(*reader.faults)
    return tree, partner


class _Reader:
    def __init__(self, book: NameBook) -> None:
        self.book = book
        self.faults: list[tuple[str, str]] = []

    def crop(self, pointer: str, name: str | None) -> str | None:
        return None if name is None else self._exact(pointer, name, "crop", self.book.crop(name))

    def cultivar(self, pointer: str, name: str, crop: str | None) -> str | None:
        return self._exact(pointer, name, "cultivar", self.book.cultivar(name, crop=crop))

    def _exact(self, pointer: str, name: str, what: str, found: Found) -> str | None:
        if found.exact is None:
            self.faults.append((pointer, not_found(name, what, found)))
        return found.exact
