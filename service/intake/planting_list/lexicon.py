"""Every name that a list may hold, ready for a quick look: cultivars, rootstocks, crops in both languages.

The spellings are those of the catalogue; what is added is only how people vary them: the plural of a crop, the long
form of a rootstock's series.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator

from service.domain.crop import Crop
from service.domain.planting_list import How
from service.knowledge.catalogue import Catalogue
from service.knowledge.spelling import plain, spaced

Bearer = tuple[str, How]
_SERIES = (  # how the beginning of a rootstock's name is written out, or written otherwise
    ("g", ("geneva", "cg")),
    ("m", ("malling", "em")),
    ("mm", ("mallingmerton",)),
    ("v", ("vineland",)),
    ("ohxf", ("ohf", "oldhomexfarmingdale", "oldhomefarmingdale", "farmingdale")),
)
_SERIES_NAME = re.compile(r"([a-z]+)(\d+)\Z")
_BEGINNING = 3
_WORDS = 6


class Lexicon:
    """The names of a catalogue by their plain spelling."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.cultivars = _cultivars(catalogue)
        self.roots = _roots(catalogue)
        self.crops = _crops(catalogue)
        known = (*self.cultivars, *self.roots, *self.crops)
        self._beginnings = frozenset(key[:length] for key in known for length in range(1, _BEGINNING + 1))
        self.longest = min(_WORDS, max(len(name.split()) for name in _all_names(catalogue)))

    def begins(self, key: str) -> bool:
        """Whether any name may begin so, by its first letters."""
        return key[:_BEGINNING] in self._beginnings

    def root(self, key: str) -> tuple[str, How] | None:
        """The rootstock of a plain spelling."""
        return self.roots.get(key)

    def crops_of(self, key: str) -> tuple[str, ...]:
        """The crops of a plain spelling: several for a word such as plum."""
        return self.crops.get(key, ())

    def siblings(self, crops: Iterable[str]) -> frozenset[str]:
        """The crops and those that share their last word: all pears, all plums, all cherries."""
        lasts = {self._last(crop) for crop in crops}
        return frozenset(crop for crop in self.catalogue.crops if self._last(crop) in lasts)

    def root_crops(self, root: str) -> tuple[str, ...]:
        """The crops that a rootstock carries."""
        return self.catalogue.rootstocks[root].crops

    def name_of(self, cultivar: str) -> str:
        """The denomination of a cultivar."""
        return self.catalogue.cultivars[cultivar].denomination

    def crop_of(self, cultivar: str) -> str:
        """The crop of a cultivar."""
        return self.catalogue.cultivars[cultivar].crop

    def _last(self, crop: str) -> str:
        return self.catalogue.crops[crop].name.split()[-1]


def _roots(catalogue: Catalogue) -> dict[str, tuple[str, How]]:
    roots: dict[str, tuple[str, How]] = {}
    for root in catalogue.rootstocks.values():
        key = plain(root.name)
        written = [plain(synonym) for synonym in root.synonyms]
        match = _SERIES_NAME.match(key)
        longer = dict(_SERIES).get(match[1], ()) if match else ()
        for other in (*written, *(f"{series}{match[2]}" for series in longer if match)):
            roots.setdefault(other, (root.id, "synonym"))
    return roots | {plain(root.name): (root.id, "exact") for root in catalogue.rootstocks.values()}


def _cultivars(catalogue: Catalogue) -> dict[str, tuple[Bearer, ...]]:
    bearers: dict[str, dict[str, How]] = defaultdict(dict)
    for cultivar in catalogue.cultivars.values():
        for synonym in cultivar.synonyms:
            bearers[plain(synonym)].setdefault(cultivar.id, "synonym")
        bearers[plain(cultivar.denomination)][cultivar.id] = "exact"
        bearers[plain(cultivar.id)].setdefault(cultivar.id, "exact")
    return {key: tuple(sorted(of.items())) for key, of in bearers.items() if key}


def _crops(catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    named: dict[str, list[str]] = defaultdict(list)
    for crop in catalogue.crops.values():
        for word in sorted({plain(form) for name in _words(crop) for form in _plurals(name)}):
            named[word].append(crop.id)
    return {word: tuple(crops) for word, crops in named.items()}


def _words(crop: Crop) -> tuple[str, ...]:
    return (crop.id.replace("_", " "), crop.name, crop.name_es, *crop.synonyms)


def _plurals(name: str) -> Iterator[str]:
    """The name and its plurals: English puts the last word into it, Spanish every word.

    >>> list(_plurals("tart cherry")), list(_plurals("pera europea"))
    (['tart cherry', 'tart cherries', 'tarts cherries'], ['pera europea', 'pera europeas', 'peras europeas'])
    """
    words = name.split()
    yield name
    yield " ".join((*words[:-1], _plural(words[-1])))
    if len(words) > 1:
        yield " ".join(_plural(word) for word in words)
    if words[-1][-1] in "lnrd":
        yield " ".join(word + "es" for word in words)


def _plural(word: str) -> str:
    if word.endswith("y"):
        return word[:-1] + "ies"
    return word + ("es" if word.endswith(("h", "s", "x")) else "s")


def _all_names(catalogue: Catalogue) -> Iterator[str]:
    for cultivar in catalogue.cultivars.values():
        yield from (spaced(name) for name in (cultivar.denomination, *cultivar.synonyms))
    for root in catalogue.rootstocks.values():
        yield from (spaced(name) for name in (root.name, *root.synonyms))
    for crop in catalogue.crops.values():
        yield from (spaced(word) for word in _words(crop))
