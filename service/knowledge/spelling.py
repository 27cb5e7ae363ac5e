"""Spellings that do not matter: case, accents, punctuation, quotes and spaces."""

from __future__ import annotations

import unicodedata


def plain(text: str) -> str:
    """The letters and digits of a name, small and without accents.

    >>> plain("'Reine Claude Conducta'"), plain("J.H. Hale"), plain("Melocotón"), plain("Red Haven")
    ('reineclaudeconducta', 'jhhale', 'melocoton', 'redhaven')
    """
    return "".join(letter for letter in _bare(text) if letter.isalnum())


def spaced(text: str) -> str:
    """The same with single spaces between the words, for finding near misses.

    >>> spaced("Cox's  Orange-Pippin")
    'coxs orange pippin'
    """
    joined = _bare(text).replace("'", "").replace("’", "")
    return " ".join("".join(letter if letter.isalnum() else " " for letter in joined).split())


def _bare(text: str) -> str:
    parts = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in parts if not unicodedata.combining(letter))
