"""Names that are spelt almost so: one is guessed only where it stands well above all others."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import fuzz, process

from service.domain.planting_list import Near
from service.intake.planting_list.lexicon import Lexicon
from service.knowledge.spelling import spaced

OFFERED_FROM = 70.0
GUESSED_FROM = 84.0
AHEAD_BY = 4.0
_OFFERED = 5
_LOOKED_AT = 12
_SHORTEST = 3
_CUT_SHORT = 93.0


class NearNames:
    """Finds near spellings among the cultivars of some crops, or among the rootstocks."""

    def __init__(self, lexicon: Lexicon) -> None:
        catalogue = lexicon.catalogue
        self.of_crop: dict[str, list[tuple[str, str]]] = {crop: [] for crop in catalogue.crops}
        for cultivar in catalogue.cultivars.values():
            for name in (cultivar.denomination, *cultivar.synonyms):
                self.of_crop[cultivar.crop].append((spaced(name), cultivar.id))
        self.shown = {cultivar.id: cultivar.denomination for cultivar in catalogue.cultivars.values()}
        self.shown |= {root.id: root.name for root in catalogue.rootstocks.values()}
        roots = catalogue.rootstocks.values()
        self.roots = [(spaced(name), root.id) for root in roots for name in (root.name, *root.synonyms)]
        self._shelves: dict[frozenset[str], tuple[list[str], list[str]]] = {}

    def cultivars(self, text: str, crops: frozenset[str]) -> tuple[Near, ...]:
        """The near cultivars of some crops (of all where none are said), the nearest first."""
        if crops not in self._shelves:
            chosen = [one for crop in sorted(crops or self.of_crop) for one in self.of_crop.get(crop, ())]
            self._shelves[crops] = ([name for name, _ in chosen], [owner for _, owner in chosen])
        return self._near(text, *self._shelves[crops])

    def rootstocks(self, text: str) -> tuple[Near, ...]:
        """The near rootstocks, the nearest first."""
        return self._near(text, [name for name, _ in self.roots], [owner for _, owner in self.roots])

    def _near(self, text: str, names: list[str], owners: list[str]) -> tuple[Near, ...]:
        wanted = spaced(text[:80])
        if len(wanted) < _SHORTEST:
            return ()
        places = _candidates(wanted, names)
        best: dict[str, float] = {}
        for place in places:
            score = likeness(wanted, names[place])
            if score >= OFFERED_FROM:
                best[owners[place]] = max(score, best.get(owners[place], 0.0))
        ranked = sorted(best.items(), key=lambda one: (-one[1], one[0]))[:_OFFERED]
        return tuple(Near(owner, self.shown[owner], round(score, 1)) for owner, score in ranked)


def guess(near: tuple[Near, ...]) -> Near | None:
    """The one that may be guessed: near enough, and well ahead of the next."""
    if not near or near[0].score < GUESSED_FROM:
        return None
    return near[0] if len(near) == 1 or near[0].score - near[1].score >= AHEAD_BY else None


def likeness(wanted: str, name: str) -> float:
    """Likeness to 100: of the letters, of the words in any order, of shared words, of words cut short.

    >>> likeness("honneycrisp", "honeycrisp") > 90, likeness("delicious golden", "golden delicious") > 90
    (True, True)
    >>> likeness("gold del", "golden delicious") > 84, likeness("golden", "golden delicious") < 84
    (True, True)
    """
    whole = fuzz.ratio(wanted, name)
    sorted_words = 0.97 * fuzz.token_sort_ratio(wanted, name)
    joined = 0.99 * fuzz.ratio(wanted.replace(" ", ""), name.replace(" ", ""), score_cutoff=92)
    shorter, longer = sorted((len(wanted), len(name)))
    share = 0.75 + 0.25 * shorter / longer if len(name) <= len(wanted) else 0.7 + 0.13 * shorter / longer
    shared = fuzz.token_set_ratio(wanted, name) * share
    return max(whole, sorted_words, joined, shared, _CUT_SHORT if _cut_short(wanted, name) else 0.0)


def _cut_short(wanted: str, name: str) -> bool:
    """Whether every word is the beginning of the word at its place."""
    mine, theirs = wanted.split(), name.split()
    return (
        len(mine) == len(theirs) > 1
        and all(long.startswith(short) for short, long in zip(mine, theirs, strict=True))
        and all(len(short) > 2 or short == long for short, long in zip(mine, theirs, strict=True))
    )


def _candidates(wanted: str, names: list[str]) -> Iterable[int]:
    """The places of the names worth a closer look."""
    found: set[int] = set()
    for scorer, least in ((fuzz.ratio, 55.0), (fuzz.token_set_ratio, 88.0), (fuzz.partial_ratio, 85.0)):
        hits = process.extract(wanted, names, scorer=scorer, processor=None, limit=_LOOKED_AT, score_cutoff=least)
        found.update(place for _, _, place in hits)
    return found
