"""The names of a treatment request turned into ids: crops that only labels know, causes, cultivars and products."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from service.domain.errors import NotUnderstood
from service.domain.label_use import Offered
from service.knowledge.catalogue import Catalogue
from service.knowledge.entry import nearest
from service.knowledge.names import NameBook
from service.knowledge.spelling import plain


class Names:
    """Finds what a request names; what is not found is gathered as faults with their pointers."""

    def __init__(self, book: NameBook, catalogue: Catalogue) -> None:
        self._book, self._catalogue = book, catalogue
        self.faults: list[tuple[str, str]] = []

    def stop_if_any(self) -> None:
        """Raise NotUnderstood with everything that was not found."""
        if self.faults:
            raise NotUnderstood(*self.faults)

    def crop(self, name: str) -> str:
        """The id of a crop of ours, or of one that only stands on labels."""
        only_on_labels = {plain(one): one for one in self._catalogue.label.model.other_crops}
        if plain(name) in only_on_labels:
            return only_on_labels[plain(name)]
        found = self._book.crop(name)
        if found.exact is None:
            near = ", ".join(one.name for one in found.near)
            self.faults.append(("/crop", f"no crop is called “{name}”" + (f"; near it are: {near}" if near else "")))
        return found.exact or ""

    def cause(self, pointer: str, name: str) -> str:
        """The id of a disorder, by id or by name, or of a pest that only stands on labels."""
        catalogue = self._catalogue
        ids = {*catalogue.disorders, *catalogue.label.treatments}
        if name in ids:
            return name
        by_name = {plain(each): one.id for one in catalogue.disorders.values() for each in (one.name, one.name_es)}
        by_name |= {plain(one.name): one.id for one in catalogue.label.treatments.values() if one.name}
        found = by_name.get(plain(name))
        if found is None:
            self.faults.append((pointer, f"there is no disorder “{name}”{nearest(name, ids)}"))
        return found or ""

    def cultivar(self, name: str | None, crop: str) -> str | None:
        """The denomination of a cultivar; a name that the catalogue does not hold stays as it was written."""
        if name is None:
            return None
        found = self._book.cultivar(name, crop=crop if crop in self._catalogue.crops else None)
        return name if found.exact is None else self._catalogue.cultivars[found.exact].denomination

    def plant(self, name: str) -> str:
        """The id of a crop that grows under the tree; a plant that is no fruit tree stays as it was written."""
        only_on_labels = self._catalogue.label.model.other_crops
        return self._book.crop(name).exact or next((one for one in only_on_labels if plain(one) == plain(name)), name)

    def product(self, pointer: str, name: str, shelf: Mapping[str, Offered]) -> Offered | None:
        """The product of a shelf or of the request under an id."""
        if name not in shelf:
            self.faults.append((pointer, _no_product(name, shelf)))
        return shelf.get(name)

    def active(self, pointer: str, name: str) -> str:
        """The ISO common name of an active ingredient."""
        known = {plain(one): one for one in self._catalogue.label.actives}
        if plain(name) not in known:
            self.faults.append((pointer, f"no active ingredient is called “{name}”{nearest(name, known.values())}"))
        return known.get(plain(name), name)


def _no_product(name: str, shelf: Collection[str]) -> str:
    hint = nearest(name, shelf) or "; GET /v1/shelf-products lists them"
    return f"no product of the shelf or of this request has the id “{name}”{hint}"
