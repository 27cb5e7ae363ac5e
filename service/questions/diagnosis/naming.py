"""The names in a diagnosis, turned into ids of the catalogue; a near miss is offered and never assumed."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from service.domain.errors import NotUnderstood
from service.knowledge.catalogue import Catalogue
from service.knowledge.entry import nearest
from service.knowledge.names import NameBook
from service.questions.suggestion.naming import not_found


@dataclass(frozen=True, slots=True)
class NamedDiagnosis:
    """The names of one request as a person or a client gives them; `signs` by the field that they stand in."""

    crop: str
    cultivar: str | None = None
    complaint: str | None = None
    suspected: Sequence[str] = ()
    insects: Sequence[str] = ()
    signs: Mapping[str, Sequence[str]] | None = None


def find_diagnosed(book: NameBook, catalogue: Catalogue, named: NamedDiagnosis) -> tuple[str, str | None]:
    """The ids of the crop and the cultivar; NotUnderstood lists every name that is not known, with near names."""
    faults = list(_unknown(catalogue, named))
    crop, cultivar = book.crop(named.crop), None
    if crop.exact is None:
        faults.append(("/crop", not_found(named.crop, "crop", crop)))
    elif named.cultivar is not None:
        found = book.cultivar(named.cultivar, crop=crop.exact)
        cultivar = found.exact
        if cultivar is None:
            faults.append(("/cultivar", not_found(named.cultivar, "cultivar", found)))
    if crop.exact is None or faults:
        raise NotUnderstood(*faults)
    return crop.exact, cultivar


def _unknown(catalogue: Catalogue, named: NamedDiagnosis) -> Iterator[tuple[str, str]]:
    for field, signs in (named.signs or {}).items():
        for place, sign in enumerate(signs):
            if sign not in catalogue.signs:
                yield f"/signs/{field}/{place}", _no_such("sign", sign, catalogue.signs)
    if named.complaint is not None and named.complaint not in catalogue.complaints:
        yield "/complaint", _no_such("complaint", named.complaint, catalogue.complaints)
    for place, disorder in enumerate(named.suspected):
        if disorder not in catalogue.disorders:
            yield f"/suspected/{place}", _no_such("disorder", disorder, catalogue.disorders)
    clocks = catalogue.diagnosis.insect_clocks
    for place, insect in enumerate(named.insects):
        if insect not in clocks:
            known = ", ".join(sorted(clocks))
            yield f"/weather/insect_heat/{place}/disorder", f"degree days are known for {known}, not for “{insect}”"


def _no_such(what: str, name: str, known: Collection[str]) -> str:
    return f"there is no {what} “{name}”{nearest(name, known)}"
