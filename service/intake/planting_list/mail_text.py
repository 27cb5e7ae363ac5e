"""The words of a mail that are its own: without quoted replies, without a signature, with what was forwarded."""

from __future__ import annotations

import re

_FORWARDED = re.compile(r"(?i)^[ >]*[-_*]*\s*(?:begin forwarded message|(?:original )?forwarded message|"
                        r"mensaje reenviado|inicio del mensaje reenviado)\s*:?\s*[-_*]*\s*$")  # fmt: skip
_EARLIER = re.compile(r"(?i)^\s*[-_*]{2,}\s*(?:original message|mensaje original)\s*[-_*]{2,}\s*$")
_WROTE = re.compile(r"(?i)^(?:on|el|am|le)\b.{0,300}\b(?:wrote|escribió|escribio|schrieb|écrit)\s*:\s*$")
_WROTE_BEGINS = re.compile(r"(?i)^(?:on|el)\b.{4,200}$")
_WROTE_ENDS = re.compile(r"(?i)^.{0,200}\b(?:wrote|escribió|escribio)\s*:\s*$")
_HEADER = re.compile(r"(?i)^\s*\*?(?:from|to|cc|sent|date|subject|de|para|enviado(?: el)?|fecha|asunto|reply-to)\s*:")
_LISTED = re.compile(r"\s*(?:[-*•·]\s|\(?\d{1,4}\)?[.)x×\s]|[^\t]+\t|(?i:one|two|three|dos|tres|una?)\s)")
_SENT_FROM = re.compile(r"(?i)^(?:sent from (?:my|a)\b|enviado desde\b|get the app\b).{0,80}$")


def own_text(body: str) -> str:
    """What the sender wrote or forwarded; where all of it is quoted, the quoted text.

    >>> own_text("2 Liberty\\n\\nOn Monday the nursery wrote:\\n> What would you like?")
    '2 Liberty'
    >>> own_text("---------- Forwarded message ---------\\nFrom: A\\nSubject: trees\\n\\n3 Enterprise\\n-- \\nA")
    '3 Enterprise'
    """
    lines = body.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    own = _own(lines)
    if not any(line.strip() for line in own):
        own = _own([line.lstrip("> ") for line in lines if line.lstrip().startswith(">")])
    return "\n".join(own).strip("\n")


def _own(lines: list[str]) -> list[str]:
    kept: list[str] = []
    place = 0
    while place < len(lines):
        line = lines[place].rstrip()
        if _FORWARDED.match(line):
            place = _after_headers(lines, place + 1)
            rest = lines[place:]
            return kept + _own(_unquoted(rest))
        if _is_reply(lines, place) or (line in ("--", "-- ") and kept):
            return kept + _forwarded_later(lines, place)
        if _EARLIER.match(line) or (_HEADER.match(line) and _block_of_headers(lines, place)):
            if any(_LISTED.match(one) for one in kept):
                return kept
            place = _after_headers(lines, place + 1)
            continue
        if not line.lstrip().startswith(">") and not _SENT_FROM.match(line.strip()):
            kept.append(lines[place])
        place += 1
    return kept


def _is_reply(lines: list[str], place: int) -> bool:
    """Whether an earlier mail begins here."""
    line = lines[place].strip()
    if _WROTE.match(line):
        return True
    following = lines[place + 1].strip() if place + 1 < len(lines) else ""
    return _WROTE_BEGINS.match(line) is not None and _WROTE_ENDS.match(following) is not None


def _forwarded_later(lines: list[str], place: int) -> list[str]:
    """What was forwarded below a signature."""
    later = next((at for at in range(place, len(lines)) if _FORWARDED.match(lines[at].rstrip())), None)
    return [] if later is None else _own(lines[later:])


def _block_of_headers(lines: list[str], place: int) -> bool:
    """Whether at least three of the next six lines are headers of a mail."""
    return sum(_HEADER.match(line) is not None for line in lines[place : place + 6]) >= 3


def _after_headers(lines: list[str], place: int) -> int:
    """The place after a block of headers and the empty line below it."""
    while place < len(lines) and (not lines[place].strip(" >") or _HEADER.match(lines[place].lstrip("> "))):
        place += 1
    return place


def _unquoted(lines: list[str]) -> list[str]:
    """The lines without one sign of quoting where nearly all carry it, as some programs forward."""
    filled = [line for line in lines if line.strip()]
    quoted = sum(line.lstrip().startswith(">") for line in filled)
    if quoted < 0.8 * len(filled):
        return lines
    return [line.lstrip().removeprefix(">").removeprefix(" ") for line in lines]
