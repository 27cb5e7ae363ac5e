"""A complaint in a customer's own words, read as complaints and signs that the service knows, by likeness.

Nothing that is read here counts before the customer has agreed to it: a reading is offered, the best likeness first.
English and Spanish stand on one shelf, since a sentence often holds both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from rapidfuzz import fuzz, process

from service.domain.complaint import Complaint
from service.domain.sign import Sign
from service.knowledge.catalogue import Catalogue
from service.knowledge.spelling import spaced

_LEAST_SCORE = 62.0
_OFFERED = 5
_SMALL_WORDS = frozenset(
    (*("a", "an", "and", "are", "as", "at", "be", "but", "by", "do", "does", "for", "from", "had", "has", "have", "i"),
     *("in", "is", "it", "its", "me", "my", "of", "on", "or", "our", "that", "the", "their", "them", "there", "they"),
     *("this", "to", "very", "was", "were", "when", "with", "what", "you", "your"),
     *("al", "algo", "con", "de", "del", "el", "en", "es", "esta", "estan", "este", "esto", "hay", "la", "las", "lo"),
     *("los", "mi", "mis", "muy", "o", "para", "pero", "por", "que", "se", "su", "sus", "tiene", "un", "una", "unos"),
     *("y", "ya"))
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Offered:
    """A complaint or a sign that the words may mean, with the phrase that they are like; `score` runs to 100."""

    id: str
    phrase: str
    score: float


@dataclass(frozen=True, slots=True)
class Reading:
    """What the words may mean; to be confirmed."""

    words: str
    complaints: tuple[Offered, ...]
    signs: tuple[Offered, ...]


class _Shelf:
    """Phrases of one kind, made ready for comparing."""

    def __init__(self, phrases: Iterable[tuple[str, str]]) -> None:
        kept = [(name, phrase, content(phrase)) for name, phrase in phrases]
        self.phrases = [one for one in kept if one[2]]
        self.contents = [one[2] for one in self.phrases]

    def nearest(self, text: str, *, among: frozenset[str] | None) -> tuple[Offered, ...]:
        """The ids whose phrases are most alike, each with its best phrase."""
        if not self.contents:
            return ()
        best: dict[str, Offered] = {}
        scores = _likeness(text, self.contents)
        for place in np.argsort(-scores, kind="stable"):
            name, phrase, _ = self.phrases[place]
            if scores[place] < _LEAST_SCORE or len(best) >= _OFFERED:
                break
            if among is None or name in among:
                best.setdefault(name, Offered(name, phrase, round(float(scores[place]), 1)))
        return tuple(best.values())


class ComplaintWords:
    """Reads what customers say."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._complaints = catalogue.complaints
        self._signs = _Shelf(phrase for sign in catalogue.signs.values() for phrase in _phrases_of_sign(sign))
        self._shelf = _Shelf(phrase for one in self._complaints.values() for phrase in _phrases_of_complaint(one))

    def read(self, words: str, *, crop: str, signs: Iterable[str]) -> Reading:
        """What the words may mean on this crop; `signs` are those that can be seen on it."""
        text = content(words)
        if not text:
            return Reading(words, (), ())
        fitting = frozenset(one.id for one in self._complaints.values() if not one.crops or crop in one.crops)
        return Reading(
            words,
            complaints=self._shelf.nearest(text, among=fitting),
            signs=self._signs.nearest(text, among=frozenset(signs)),
        )


def content(text: str) -> str:
    """The words that carry meaning, in plain spelling and without the endings of plurals.

    >>> content("The leaves are curled and it's STICKY"), content("Las hojas están pegajosas")
    ('leave curled sticky', 'hoja pegajosa')
    """
    words = (word for word in spaced(text).split() if word not in _SMALL_WORDS)
    return " ".join(word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
                    for word in words)  # fmt: skip


def _likeness(text: str, contents: list[str]) -> npt.NDArray[np.float64]:
    """How alike the text is to each phrase: shared words in any order, and less where a short phrase merely occurs."""
    whole = process.cdist([text], contents, scorer=fuzz.token_sort_ratio)[0]
    shared = process.cdist([text], contents, scorer=fuzz.token_set_ratio)[0]
    words = np.array([len(phrase.split()) for phrase in contents])
    found: npt.NDArray[np.float64] = np.maximum(whole, shared * np.minimum(1.0, 0.7 + 0.1 * words)).astype(float)
    return found


def _phrases_of_sign(sign: Sign) -> Iterator[tuple[str, str]]:
    for phrase in (sign.name, sign.name_es, *sign.synonyms, *sign.synonyms_es):
        yield sign.id, phrase


def _phrases_of_complaint(complaint: Complaint) -> Iterator[tuple[str, str]]:
    for phrase in (complaint.name, complaint.name_es, *complaint.says, *complaint.says_es):
        yield complaint.id, phrase
