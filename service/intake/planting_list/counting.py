"""The number of trees among the pieces of a text: which of its numbers counts, if any does."""

from __future__ import annotations

from collections.abc import Sequence

from service.intake.planting_list.amounts import Count
from service.intake.planting_list.scan import Piece, is_counter

_YEARS = range(1900, 2101)
_LIGHT = frozenset({"filler", "mark", "and"})


def count_of(pieces: Sequence[Piece], used: set[int]) -> tuple[Count | None, set[int]]:
    """The number of trees that is said, and the places of the pieces that say it."""
    for at, piece in enumerate(pieces):
        if piece.kind == "times":
            return Count(piece.number), {at}
    numbers = [at for at, piece in enumerate(pieces) if piece.kind in ("number", "range") and at not in used]
    chosen = next((at for at in numbers if _beside_counter(pieces, at)), None)
    if chosen is None:
        chosen = next((at for at in numbers if _leads(pieces, at) or _ends(pieces, at) or _alone(pieces, at)), None)
    if chosen is None:
        return None, set()
    return _valued(pieces, chosen)


def _valued(pieces: Sequence[Piece], at: int) -> tuple[Count, set[int]]:
    piece = pieces[at]
    if piece.kind == "range":
        return Count(None), {at}
    following = pieces[at + 1] if at + 1 < len(pieces) else None
    if following and following.kind == "number" and following.text.lower() in ("dozen", "docenas"):
        return Count(piece.number * following.number), {at, at + 1}
    before = [place for place in range(max(0, at - 2), at) if pieces[place].text.lower() in ("half", "media")]
    if before and piece.number == 12:
        return Count(6), {*range(before[0], at + 1)}
    return Count(piece.number), {at}


def _beside_counter(pieces: Sequence[Piece], at: int) -> bool:
    after = next((piece for piece in pieces[at + 1 : at + 2]), None)
    before = [piece for piece in pieces[max(0, at - 2) : at] if piece.text not in (":", "=")]
    led = bool(before) and is_counter(before[-1]) and before[-1].text.lower() != "of"
    return led or (after is not None and is_counter(after))


def _leads(pieces: Sequence[Piece], at: int) -> bool:
    """Whether the number comes before everything that weighs."""
    if pieces[at].number in _YEARS and pieces[at].text.isdecimal():
        return False
    return all(piece.kind in _LIGHT or piece.text.lower() in ("half", "media") for piece in pieces[:at])


def _ends(pieces: Sequence[Piece], at: int) -> bool:
    """Whether the number, in figures, comes after a name or a mark with nothing behind it."""
    rest = [piece for piece in pieces[at + 1 :] if piece.kind not in _LIGHT]
    figures = pieces[at].text.isdecimal() or pieces[at].kind == "range"
    if rest or not figures or pieces[at].number in _YEARS or not at:
        return False
    return pieces[at - 1].kind in ("name", "crop", "mark", "root", "filler", "word")


def _alone(pieces: Sequence[Piece], at: int) -> bool:
    """Whether the number stands alone between two marks, as in "(3)" or "| 3 |"."""
    if not pieces[at].text.isdecimal() or pieces[at].number in _YEARS:
        return False
    before = pieces[at - 1].kind == "mark" if at else True
    return before and (at + 1 == len(pieces) or pieces[at + 1].kind == "mark")
