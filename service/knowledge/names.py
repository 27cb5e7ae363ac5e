"""Names looked up as people write them: exactly, by synonym, then by near miss.

A near miss is offered and never assumed: `Found.exact` is set only where the spelling leaves no doubt. One name can
belong to two crops (Gala is an apple and a peach); then nothing is exact until the crop is said.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from rapidfuzz import fuzz

from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.planting_list import Near
from service.domain.rootstock import Rootstock
from service.knowledge.catalogue import Catalogue
from service.knowledge.spelling import plain, spaced

How = Literal["denomination", "synonym", "id"]
_NEAR_SCORE = 72.0
_ALL_WORDS = 0.95
_OFFERED = 5


@dataclass(frozen=True, slots=True)
class Found:
    """What a name was read as: one thing exactly, or several of the same name, or only near misses."""

    exact: str | None
    how: How | None = None
    near: tuple[Near, ...] = ()
    same_name_in: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Spelling:
    id: str
    name: str
    how: Literal["denomination", "synonym"]


class _Shelf:
    """The spellings of one kind of thing."""

    def __init__(self, spellings: Iterable[_Spelling]) -> None:
        self.all = tuple(spellings)
        self.ids = frozenset(spelling.id for spelling in self.all)
        self.loose = [spaced(spelling.name) for spelling in self.all]
        self.exact: dict[str, list[_Spelling]] = {}
        for spelling in self.all:
            self.exact.setdefault(plain(spelling.name), []).append(spelling)

    def find(self, text: str, *, start: str = "") -> Found:
        if text.strip() in self.ids and text.strip().startswith(start):
            return Found(text.strip(), "id")
        hits = [each for each in self.exact.get(plain(text), ()) if each.id.startswith(start)]
        ids = sorted({hit.id for hit in hits})
        if len(ids) == 1:
            return Found(ids[0], min(hits, key=lambda hit: hit.how).how)
        return Found(None, same_name_in=tuple(ids)) if ids else Found(None, near=self.near(text, start=start))

    def near(self, text: str, *, start: str) -> tuple[Near, ...]:
        wanted = spaced(text)
        best: dict[str, Near] = {}
        for spelling, name in zip(self.all, self.loose, strict=True):
            score = _likeness(wanted, name) if spelling.id.startswith(start) else 0.0
            if score >= _NEAR_SCORE and (spelling.id not in best or score > best[spelling.id].score):
                best[spelling.id] = Near(spelling.id, spelling.name, round(score, 1))
        return tuple(sorted(best.values(), key=lambda near: (-near.score, near.id))[:_OFFERED])


def _likeness(wanted: str, name: str) -> float:
    """Likeness to 100: of the whole spelling, or a little less when the one holds all words of the other."""
    return max(fuzz.ratio(wanted, name), _ALL_WORDS * fuzz.token_set_ratio(wanted, name))


class NameBook:
    """The names of a catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._crops = _Shelf(each for crop in catalogue.crops.values() for each in _spellings(crop, crop.name))
        self._cultivars = _Shelf(
            each for cultivar in catalogue.cultivars.values() for each in _spellings(cultivar, cultivar.denomination)
        )
        self._rootstocks = _Shelf(
            each for root in catalogue.rootstocks.values() for each in _spellings(root, root.name)
        )

    def crop(self, text: str) -> Found:
        """The crop of that name, English or Spanish."""
        return self._crops.find(text)

    def rootstock(self, text: str) -> Found:
        """The rootstock of that name."""
        return self._rootstocks.find(text)

    def cultivar(self, text: str, *, crop: str | None = None) -> Found:
        """The cultivar of that name, of one crop where the crop is said; "Gala apple" says it as well."""
        found = self._cultivars.find(text, start=f"{crop}." if crop else "")
        if found.exact or crop:
            return found
        return next((better for better in self._with_crop_word(text) if better.exact), found)

    def _with_crop_word(self, text: str) -> Iterator[Found]:
        words = text.split()
        for cut in range(1, min(len(words), 3)):
            for name, crop_words in ((words[:-cut], words[-cut:]), (words[cut:], words[:cut])):
                named = self.crop(" ".join(crop_words))
                for crop in filter(None, (named.exact, *named.same_name_in)):
                    yield self._cultivars.find(" ".join(name), start=f"{crop}.")


def _spellings(thing: Crop | Cultivar | Rootstock, name: str) -> Iterator[_Spelling]:
    yield _Spelling(thing.id, name, "denomination")
    if isinstance(thing, Crop):
        yield _Spelling(thing.id, thing.name_es, "synonym")
    for synonym in thing.synonyms:
        yield _Spelling(thing.id, synonym, "synonym")
