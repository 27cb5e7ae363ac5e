"""Lines of free text: which of them ask for trees, which are headings, and which are words around the list."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from service.domain.planting_list import Why
from service.intake.planting_list.amounts import word_count
from service.intake.planting_list.lexicon import Lexicon
from service.intake.planting_list.phrase import Phrase, without_bullet
from service.intake.planting_list.scan import Piece, pieces_of
from service.knowledge.spelling import plain

_TALK = re.compile(
    r"(?i)\s*(?:hi|hello|hey|dear|good (?:morning|afternoon|evening|day)|hola|buen[oa]s|estimad[oa]s?|thanks|thank you|"
    r"many thanks|regards|best|kind regards|best regards|cheers|sincerely|saludos|gracias|muchas gracias|atentamente|"
    r"un saludo|cordialmente|yours|see you|hope|sorry|ps|p\.s\.)\b(?![^,.!]*\d)"
)
_CLOSING = re.compile(
    r"(?i)\s*(?:(?:many )?thanks|thank you|thanks again|(?:kind |best |warm )?regards|best|cheers|sincerely|saludos|"
    r"(?:muchas )?gracias|atentamente|un saludo|cordialmente)(?: (?:so much|a lot|very much|in advance))?\s*[,.!]*\s*"
)
_TOTAL = re.compile(r"(?i)\W*(?:(?:grand |sub ?-?)?total(?:es)?|suma|summe|sum|subtotal|importe total)\b.{0,60}")
_RULE = re.compile(r"[\s\W_]*")
_CONTACT = re.compile(r"(?i)\b[\w.+-]{1,64}@[\w-]{1,64}\.\w|https?://|\bwww\.|\b(?:tel|phone|mobile|cell|fax)\b[.:]|"
                      r"\(?\d{3}\)?[ .-]\d{3}[ .-]\d{4}\b")  # fmt: skip
_EDGES = " \t:：=#*_~[]()—–-•·.,>|<!0123456789"
_TREES = re.compile(r"(?i)\b(?:trees?|árboles|arboles|de)\b")
_ENDS = re.compile(r"[.!?]\s*$")
_CUT = re.compile(r"[,;]|&|\+|\b(?:and|y|plus)\b", re.IGNORECASE)
_COUNTED = re.compile(r"\W*(?:x ?)?\d|\W*(?:qty|cant)\b", re.IGNORECASE)
_SHORT, _MANY_WORDS, _TELLING_LETTERS, _CUT_SHORT_WORDS = 5, 12, 6, 3
SIGNED_OFF_LINES = 8


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading over lines: of a crop, or of something else."""

    crops: frozenset[str]


def heading_of(text: str, lexicon: Lexicon, *, alone: bool) -> Heading | None:
    """The heading that a line is; `alone` says that a crop's bare name is one, as in a row with no other cell."""
    bare = text.strip()
    if len(bare) > 60 or bare[:1].isdigit():
        return None
    core = bare.strip(_EDGES).partition("(")[0].strip(_EDGES)
    key = plain(core)
    crops = lexicon.crops_of(key) or lexicon.crops_of(plain(_TREES.sub("", core)))
    marked = bare.endswith((":", "：")) or bare[:1] in "=#*_~[—–" or (bare.isupper() and len(key) > 3)
    if crops and (marked or alone or (key.endswith("s") and "," not in bare)):
        return Heading(frozenset(crops))
    return Heading(frozenset()) if bare.endswith(":") and len(bare.split()) <= 6 and not crops else None


def set_aside(text: str) -> Why | None:
    """Why a line is no line of the list, whatever it names."""
    if _RULE.fullmatch(text):
        return "comment"
    if _TOTAL.fullmatch(text):
        return "total"
    return "comment" if _CONTACT.search(text) else None


def is_closing(text: str) -> bool:
    """Whether a letter ends here and only a signature follows."""
    return _CLOSING.fullmatch(text) is not None


def asks_for_trees(text: str, phrase: Phrase, *, listing: bool) -> bool:
    """Whether a line of free text asks for trees; `listing` says that the lines around it do."""
    words = text.split()
    led = without_bullet(text) != text.strip() or _COUNTED.match(text) is not None or word_count(words[0]) is not None
    told = (phrase.count, phrase.root, phrase.size, phrase.price)
    detailed = led or any(one is not None for one in told)
    if any(called.bearers for called in phrase.called):
        letters = max(len(plain(called.written)) for called in phrase.called)
        spaced = any(" " in called.written for called in phrase.called)
        return detailed or len(words) <= _SHORT or spaced or letters >= _TELLING_LETTERS
    if _TALK.match(text) or len(words) > _MANY_WORDS or (_ENDS.search(text) and len(words) > _SHORT):
        return False
    if phrase.crops:
        return detailed or len(words) <= _SHORT
    return bool(phrase.called) and (led or (listing and may_list(text)))


def may_list(text: str) -> bool:
    """Whether a line is as short as the lines of lists are, and no talk."""
    words = text.split()
    ends = _ENDS.search(text) and not (len(words) <= _CUT_SHORT_WORDS and text.rstrip().endswith("."))
    return len(words) <= _SHORT and not ends and not _TALK.match(text) and not text.rstrip().endswith(":")


def items_of(text: str, lexicon: Lexicon) -> list[str]:
    """The items that one line names: each with a name of its own, or the whole line."""
    places = list(_cuts(text))
    if not places:
        return [text]
    ends = [*places, (len(text), len(text))]
    parts = [text[start:end] for start, (end, _) in zip([0, *(after for _, after in places)], ends, strict=True)]
    named = [_names(pieces_of(part, lexicon)) for part in parts]
    if sum(named) < 2:
        return [text]
    items: list[str] = []
    for part, has_name in zip(parts, named, strict=True):
        if items and not (has_name and _names(pieces_of(items[-1], lexicon))):
            items[-1] += f",{part}"
        else:
            items.append(part)
    return [item.strip(" ,;.") for item in items]


def _cuts(text: str) -> Iterator[tuple[int, int]]:
    """Where a comma or an "and" outside of brackets may part two items."""
    depth, at = 0, 0
    for match in _CUT.finditer(text):
        depth += text.count("(", at, match.start()) - text.count(")", at, match.start())
        at = match.start()
        if depth <= 0:
            yield match.start(), match.end()


def _names(pieces: list[Piece]) -> bool:
    return any(piece.kind == "name" for piece in pieces)
