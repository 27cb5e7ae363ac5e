"""The nearest right word for a wrong one, so that a message says what to write instead."""

from __future__ import annotations

from collections.abc import Iterable

from rapidfuzz import fuzz, process

_NEAR_ENOUGH = 60.0  # percent of letters alike; below it a suggestion misleads more than it helps
_FEW = 12


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like this one, or None when nothing is like it.

    >>> nearest("cultivar.blom", ["crop", "cultivar.bloom"])
    'cultivar.bloom'
    >>> nearest("zzz", ["crop"]) is None
    True
    """
    found = process.extractOne(word, sorted(known), scorer=fuzz.ratio, score_cutoff=_NEAR_ENOUGH)
    return found[0] if found else None


def instead(word: object, known: Iterable[str]) -> str:
    """The end of a message: the nearest right word, or all right words when they are few.

    >>> instead("erly", ["early", "late"])
    "; the nearest right word is 'early'"
    >>> instead("zzz", ["early", "late"])
    '; write one of: early, late'
    """
    words = sorted(known)
    near = nearest(str(word), words)
    if near is not None:
        return f"; the nearest right word is '{near}'"
    return f"; write one of: {', '.join(words)}" if 0 < len(words) <= _FEW else ""
