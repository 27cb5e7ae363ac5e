"""What one text says of a tree: names, crop, number, rootstock, size, price and what is left as a note.

Nothing is decided here about names of the same spelling; that takes the rest of the list (see naming.py).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from service.domain.planting_list import How, ReadPrice, ReadSize
from service.intake.planting_list.amounts import Count, take_price
from service.intake.planting_list.counting import count_of
from service.intake.planting_list.lexicon import Bearer, Lexicon
from service.intake.planting_list.scan import Piece, kind_of_word, pieces_of
from service.intake.planting_list.sizes import take_size

_SEVERAL = re.compile(
    r"\b\d{1,2}[ -]?(?:in|en|n|on)[ -]?(?:1|one|uno)\b|\b(?:\d|two|three|four|five|six)[ -]way\b"
    r"|\bmulti[ -]?(?:graft(?:ed)?|variety|budded|injert\w{1,6})\b|\bcombo\b|\bcombination\b|\bfamily tree\b"
    r"|\bfruit salad\b|\binjertos? múltiples?\b|\binjertos? multiples?\b|\bvarias variedades\b",
    re.IGNORECASE,
)
_BULLET = re.compile(r"\s*(?:[-*•·–—>□☐✓✔o]\s+|[•·□☐✓✔]|\[[ xX]?\]\s*|\(?\d{1,3}[.)]\s+|[a-z]\)\s+)")
_SIGNS = re.compile(r"[™®©\u200b\ufeff\ufffd]|\((?:tm|r|c)\)", re.IGNORECASE)
_LONGEST_NAME = 120
_CONNECT = frozenset("/+&,|¦")


@dataclass(frozen=True, slots=True)
class Called:
    """A name as it was written, with the cultivars of exactly that name, or with those named inside of it."""

    written: str
    bearers: tuple[Bearer, ...] = ()
    inner: tuple[Bearer, ...] = ()
    lower: bool = False


@dataclass(frozen=True, slots=True)
class Phrase:
    """A text as it was understood; `several` says that the names stand on one tree, `choice` that one is wanted."""

    called: tuple[Called, ...] = ()
    crops: tuple[str, ...] = ()
    crop_written: str = ""
    several: bool = False
    choice: bool = False
    count: Count | None = None
    root: tuple[str, tuple[str, How] | None] | None = None
    size: ReadSize | None = None
    price: ReadPrice | None = None
    note: str | None = None


def read_phrase(text: str, lexicon: Lexicon) -> Phrase:
    """The phrase of a text."""
    bare = _SIGNS.sub(" ", without_bullet(text))
    bare, several = _take_several(bare)
    bare, price = take_price(bare)
    bare, size = take_size(bare)
    return _Sorter(pieces_of(bare, lexicon), bare, several).phrase(size, price)


def without_bullet(text: str) -> str:
    """The text without the mark or number that leads it.

    >>> without_bullet("- 2 Liberty"), without_bullet("3) Liberty"), without_bullet("3 Liberty")
    ('2 Liberty', 'Liberty', '3 Liberty')
    """
    match = _BULLET.match(text)
    rest = text[match.end() :] if match else text
    return rest.strip() or text.strip()


def _take_several(text: str) -> tuple[str, bool]:
    rest, count = _SEVERAL.subn("¦", text)
    return rest, count > 0


class _Sorter:
    """Sorts the pieces of a text; each is used once, and what is left is the note."""

    def __init__(self, pieces: Sequence[Piece], text: str, several: bool) -> None:
        self.pieces, self.several = pieces, several
        self.mixed = text != text.lower() and text != text.upper()
        self.used: set[int] = set()

    def phrase(self, size: ReadSize | None, price: ReadPrice | None) -> Phrase:
        """The phrase."""
        root = self._root()
        crops, crop_written = self._crops()
        count, counted = count_of(self.pieces, self.used)
        self.used |= counted
        called, choice = self._called()
        note = self._note()
        return Phrase(called, crops, crop_written, self.several, choice, count, root, size, price, note)

    def _root(self) -> tuple[str, tuple[str, How] | None] | None:
        for place, piece in enumerate(self.pieces):
            if piece.kind == "root":
                self.used.add(place)
                return piece.text, piece.root
        for place, piece in enumerate(self.pieces):
            if piece.kind == "on" and (words := self._words_after(place)) and self._named_elsewhere(words):
                self.used |= set(words)
                return " ".join(self.pieces[at].text for at in words), None
        return None

    def _words_after(self, place: int) -> list[int]:
        words = []
        for at in range(place + 1, min(len(self.pieces), place + 5)):
            if self.pieces[at].kind not in ("word", "number", "name"):
                break
            words.append(at)
        return words if words and self.pieces[words[0]].kind == "word" else []

    def _named_elsewhere(self, words: list[int]) -> bool:
        return any(piece.kind in ("name", "word", "crop") for at, piece in enumerate(self.pieces) if at < words[0])

    def _crops(self) -> tuple[tuple[str, ...], str]:
        said = [(at, piece) for at, piece in enumerate(self.pieces) if piece.kind == "crop" and not piece.inside]
        said = said or [(at, piece) for at, piece in enumerate(self.pieces) if piece.kind == "crop"]
        self.used |= {at for at, _ in said}
        if not said:
            return (), ""
        return tuple(dict.fromkeys(crop for _, piece in said for crop in piece.crops)), said[0][1].text

    def _called(self) -> tuple[tuple[Called, ...], bool]:
        runs = self._runs(inside=self.several) or self._runs(inside=True)
        named = [run for run in runs if any(self.pieces[at].kind == "name" for at in run)]
        if self.several:
            chosen, choice = runs, False
        elif named:
            chosen, choice = self._connected(named)
        else:
            chosen, choice = [run for run in runs if _says_something(self.pieces, run)][:1], False
        self.used |= {at for run in chosen for at in run}
        return tuple(self._call(run) for run in chosen), choice

    def _runs(self, *, inside: bool) -> list[list[int]]:
        """Stretches of names and unknown words that nothing parts."""
        runs: list[list[int]] = []
        last = -2
        for at, piece in enumerate(self.pieces):
            if at in self.used or (piece.inside and not inside) or piece.kind not in ("name", "word"):
                continue
            if last == at - 1 or self._is_bridge(last, at):
                runs[-1].extend(range(last + 1, at + 1))
            else:
                runs.append([at])
            last = at
        return runs

    def _is_bridge(self, last: int, at: int) -> bool:
        """Whether one small word such as "of" joins two words of a name."""
        between = self.pieces[last + 1] if last == at - 2 and last >= 0 else None
        return between is not None and between.text.lower() in ("of", "de", "la", "the", "d", "del")

    def _connected(self, named: list[list[int]]) -> tuple[list[list[int]], bool]:
        """The first name and those that a stroke, a comma or an "and" puts beside it."""
        chosen, choice = [named[0]], False
        for run in named[1:]:
            between = [self.pieces[at] for at in range(chosen[-1][-1] + 1, run[0])]
            marks = [piece for piece in between if piece.kind != "crop"]
            if len(run) > 1 or not marks or not all(_connects(piece) for piece in marks):
                break
            choice = choice or any(piece.kind == "or" for piece in marks)
            chosen.append(run)
        return chosen, choice

    def _call(self, run: list[int]) -> Called:
        pieces = [self.pieces[at] for at in run]
        names = [piece for piece in pieces if piece.kind == "name"]
        written = " ".join(piece.text for piece in pieces)[:_LONGEST_NAME]
        if len(pieces) == 1:
            return Called(written, names[0].bearers if names else ())
        if len(names) == 1 and self.mixed and all(piece.text.islower() for piece in pieces if piece.kind == "word"):
            self.used -= {at for at in run if self.pieces[at].kind != "name"}
            return Called(names[0].text, names[0].bearers)
        lower = len(names) == 1 and pieces[0].kind == "name" and not self.mixed
        return Called(written, inner=tuple(bearer for piece in names for bearer in piece.bearers), lower=lower)

    def _note(self) -> str | None:
        left = [
            piece.text
            for at, piece in enumerate(self.pieces)
            if at not in self.used and piece.kind not in ("mark", "and", "or", "times")
        ]
        while left and _is_silent(left[0]):
            left.pop(0)
        while left and _is_silent(left[-1]):
            left.pop()
        return " ".join(left) or None


def _is_silent(word: str) -> bool:
    return len(word) < 2 or kind_of_word(word.lower()) in ("filler", "on")


def _connects(piece: Piece) -> bool:
    return piece.text in _CONNECT or piece.kind in ("and", "or")


def _says_something(pieces: Sequence[Piece], run: list[int]) -> bool:
    return any(sum(letter.isalpha() for letter in pieces[at].text) > 1 for at in run)
