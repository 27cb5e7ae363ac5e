"""A text cut into pieces: names, rootstocks, crops, numbers, words of no weight, marks, and what nobody knows.

The longest name that begins at a word wins, so that "Quince A" is a rootstock and "Winter Nelis seedling" as well.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from service.domain.planting_list import How
from service.intake.planting_list.amounts import word_count
from service.intake.planting_list.lexicon import Bearer, Lexicon
from service.knowledge.spelling import plain

Kind = Literal["name", "root", "crop", "number", "range", "times", "on", "or", "and", "filler", "mark", "word"]
_TOKEN = re.compile(r"\d{1,3}(?:,\d{3})+(?!\d)|\d{1,4}/\d{1,4}(?![\d/])|"
                    r"[^\s,;:()\[\]{}/|¦&+*•·\"“”=]+|[,;:()\[\]{}/|¦&+*]")  # fmt: skip
_MARKS = frozenset(",;:()[]{}/|¦&+*-–—.…")
_TIMES = re.compile(r"[x×](\d{1,6})|(\d{1,6})[x×]", re.IGNORECASE)
_RANGE = re.compile(r"\d{1,4}[-–]\d{1,4}")
_ORDINAL = re.compile(r"#?(\d{1,6}|\d{1,3}(?:,\d{3})+)\.?")
_FILLERS = frozenset(
    (*("a", "an", "the", "of", "please", "tree", "trees", "each", "ea", "variety", "fruit", "plant", "plants", "pcs"),
     *("pc", "ct", "qty", "quantity", "count", "espalier", "espaliered", "organic", "healthy", "young", "maiden"),
     *("whip", "whips", "feathered", "grafted", "year", "old", "1yr", "2yr", "yr", "size", "budded", "multi", "my"),
     *("some", "also", "more", "nice", "good", "big", "small", "large", "for", "with", "want", "would", "like", "need"),
     *("order", "de", "del", "el", "la", "los", "las", "árbol", "árboles", "arbol", "arboles", "cantidad", "cant"),
     *("c/u", "uds", "ud", "favor", "por", "frutal", "variedad", "injertado", "at", "is", "i", "we", "i'd", "we'd"),
     *("quiero", "quisiera", "para", "mi"))
)  # fmt: skip
_ON = frozenset(("on", "sobre", "rootstock", "rootstocks", "r/s", "rs", "portainjerto", "portainjertos", "patrón",
                 "patron", "stock", "roots", "pie"))  # fmt: skip
_OR, _AND = frozenset(("or", "o", "ó")), frozenset(("and", "y", "e", "plus", "with", "con"))
_JOINING = _ON | _OR | _AND
_BY_KIND: tuple[tuple[Kind, frozenset[str]], ...] = (
    ("filler", frozenset(("x", "×"))), ("on", _ON), ("or", _OR), ("and", _AND), ("filler", _FILLERS)
)  # fmt: skip
_ORDINARY = frozenset(  # everyday words that are names as well: in small letters among others they are those words
    ("price", "so", "van", "sam", "gold", "wells", "bell", "hunt", "index", "frost", "sentry", "orange", "mango",
     "coral", "chestnut", "president", "champion", "advance", "premier", "excel", "vista", "granada", "texas", "king")
)  # fmt: skip
_COUNTERS = frozenset(("x", "×", "ea", "each", "trees", "tree", "pcs", "pc", "ct", "qty", "quantity", "count", "cant",
                       "cantidad", "of", "árboles", "arboles", "uds", "ud", "c/u", "no."))  # fmt: skip


_plain = lru_cache(maxsize=32_768)(plain)


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of a text; which field is filled goes by `kind`."""

    kind: Kind
    text: str
    bearers: tuple[Bearer, ...] = ()
    crops: tuple[str, ...] = ()
    root: tuple[str, How] | None = None
    number: int = 0
    inside: bool = False


def pieces_of(text: str, lexicon: Lexicon) -> list[Piece]:
    """The pieces of a text in order; `inside` are those in brackets."""
    tokens = _TOKEN.findall(text)
    plains = [_plain(token) for token in tokens]
    return list(_pieces(tokens, plains, lexicon))


def is_counter(piece: Piece) -> bool:
    """Whether a word says that the number beside it counts trees."""
    return piece.kind == "times" or piece.text.lower() in _COUNTERS


def _pieces(tokens: list[str], plains: list[str], lexicon: Lexicon) -> Iterator[Piece]:
    place, depth = 0, 0
    while place < len(tokens):
        token = tokens[place]
        if token in _MARKS:
            depth = max(0, depth + (token in "([{") - (token in ")]}"))
            yield Piece("mark", token)
            place += 1
            continue
        found, length = _longest(tokens, plains, (place, lexicon))
        piece = found or _single(token, plains[place])
        place += length
        yield Piece(piece.kind, piece.text, piece.bearers, piece.crops, piece.root, piece.number, depth > 0)


def _longest(tokens: list[str], plains: list[str], at: tuple[int, Lexicon]) -> tuple[Piece | None, int]:
    """The longest known name that begins at a place, and its length in words."""
    place, lexicon = at
    if not plains[place] or not lexicon.begins(plains[place]):
        return None, 1
    end = place
    while end < len(tokens) and end < place + lexicon.longest and tokens[end] not in _MARKS:
        end += 1
    for stop in range(end, place, -1):
        key = "".join(plains[place:stop])
        small = stop - place == 1 and tokens[place].lower() in _JOINING
        if small or not plains[stop - 1]:
            continue
        text = " ".join(tokens[place:stop])
        if (root := lexicon.root(key)) is not None:
            return Piece("root", text, root=root), stop - place
        if (bearers := lexicon.cultivars.get(key)) is not None and not (text in _ORDINARY and len(tokens) > 3):
            return Piece("name", text, bearers=bearers), stop - place
        if crops := lexicon.crops_of(key):
            return Piece("crop", text, crops=crops), stop - place
    return None, 1


def _single(token: str, key: str) -> Piece:
    """What a word is that names nothing."""
    lower = token.lower()
    if match := _ORDINAL.fullmatch(token):
        return Piece("number", token, number=int(match[1].replace(",", "")))
    if match := _TIMES.fullmatch(token):
        return Piece("times", token, number=int(match[1] or match[2]))
    if not key:
        return Piece("mark", token)
    if token[0].isupper() and token.endswith(".") and len(token) > 3:
        return Piece("word", token)  # a name cut short
    number = word_count(token)
    return Piece("number" if number else kind_of_word(lower), token, number=number or 0)


def kind_of_word(word: str) -> Kind:
    """What a small word does in a list, be it nothing."""
    if _RANGE.fullmatch(word):
        return "range"
    for kind, words in _BY_KIND:
        if word in words or word.rstrip(".") in words:
            return kind
    return "word"
