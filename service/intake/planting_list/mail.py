"""A mail taken apart: the lists that are attached, the mails that are forwarded in it, and the words of its body."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from email.utils import parseaddr
from typing import Literal

from service.domain.planting_list import MailHead
from service.intake.planting_list.decoded import text_from
from service.intake.planting_list.html_text import html_text
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.mail_text import own_text

_LONGEST_ADDRESS, _LONGEST_HEADER = 254, 500
_NO_LISTS = ("image/", "audio/", "video/", "application/pgp-", "application/pkcs7-", "text/calendar", "text/vcard")


@dataclass(frozen=True, slots=True)
class MailPart:
    """A body or an attachment of a mail; a body is text already, an attachment bytes."""

    sort: Literal["body", "attachment"]
    name: str
    text: str = ""
    data: bytes = b""


def head_of(data: bytes) -> MailHead:
    """Who sent a mail, and what it is about."""
    message = message_from_bytes(data, policy=default)
    address = parseaddr(_header(message, "Reply-To") or _header(message, "From") or "")[1]
    plain = re.fullmatch(r"[!-~]+@[!-~]+", address)
    return MailHead(
        sender=address if plain and len(address) <= _LONGEST_ADDRESS else None,
        subject=_header(message, "Subject"),
        message_id=_header(message, "Message-ID"),
    )


def _header(message: EmailMessage, name: str) -> str | None:
    """One header on one line; None where it is not there or cannot be read."""
    try:
        said = message.get(name)
    except (ValueError, LookupError, AttributeError, IndexError, TypeError):  # the library stumbles over odd headers
        return None
    text = "".join(letter if letter.isprintable() else " " for letter in str(said or ""))
    return " ".join(text.split())[:_LONGEST_HEADER] or None


def parts_of(data: bytes, limits: ListLimits, hit: list[str]) -> Iterator[MailPart]:
    """The parts of a mail in which a list may stand, attachments first; `hit` gathers what was left out."""
    found = list(_Walk(limits, hit).parts(message_from_bytes(data, policy=default), 0))
    yield from sorted(found, key=lambda part: part.sort == "body")


class _Walk:
    """Goes through the parts of a mail, no deeper and no longer than the limits."""

    def __init__(self, limits: ListLimits, hit: list[str]) -> None:
        self.limits, self.hit, self.count = limits, hit, 0

    def parts(self, message: EmailMessage, depth: int) -> Iterator[MailPart]:
        """The parts of a message or of a part of it."""
        self.count += 1
        if depth > 4 * self.limits.mail_depth or self.count > self.limits.mail_parts:
            self._left_out(f"The mail has more than {self.limits.mail_parts} parts; the rest was not read.")
            return
        kind = message.get_content_type()
        if kind == "multipart/alternative":
            yield from self._alternative(message, depth)
        elif kind == "message/rfc822":
            yield from self._nested(message, depth)
        elif message.is_multipart():
            for part in _children(message):
                yield from self.parts(part, depth + 1)
        else:
            yield from self._leaf(message, kind)

    def _alternative(self, message: EmailMessage, depth: int) -> Iterator[MailPart]:
        """Of several forms of one body the plain one, where it says anything."""
        found = [part for child in _children(message) for part in self.parts(child, depth + 1)]
        bodies = [part for part in found if part.sort == "body"]
        yield from (part for part in found if part.sort != "body")
        yield from bodies[:1]

    def _nested(self, message: EmailMessage, depth: int) -> Iterator[MailPart]:
        if depth >= self.limits.mail_depth:
            self._left_out(f"Mails inside mails are read {self.limits.mail_depth} deep; deeper ones were not read.")
            return
        for part in _children(message):
            yield from self.parts(part, depth + 1)

    def _leaf(self, message: EmailMessage, kind: str) -> Iterator[MailPart]:
        if kind.startswith(_NO_LISTS):
            return
        data = message.get_payload(decode=True)
        content = data if isinstance(data, bytes) else b""
        name = _name_of(message)
        if name or message.get_content_disposition() == "attachment" or not kind.startswith("text/"):
            if content:
                yield MailPart("attachment", name or "attachment", data=content)
            return
        text = text_from(content, said=_charset(message))[: 20 * self.limits.body_characters]
        longest = self.limits.body_characters
        body = own_text(html_text(text, longest=longest) if kind == "text/html" else text[:longest])
        if len(text) > longest and kind != "text/html":
            self._left_out(f"The mail is longer than {longest:,} letters; the rest was not read.")
        if body.strip():
            yield MailPart("body", "body", text=body)

    def _left_out(self, sentence: str) -> None:
        if sentence not in self.hit:
            self.hit.append(sentence)


def _children(message: EmailMessage) -> list[EmailMessage]:
    payload = message.get_payload()
    return [part for part in payload if isinstance(part, EmailMessage)] if isinstance(payload, list) else []


def _name_of(message: EmailMessage) -> str | None:
    """The name of an attachment, cut to what a person can read."""
    try:
        name = message.get_filename()
    except (ValueError, LookupError, AttributeError, IndexError, TypeError):  # the library stumbles over odd headers
        return "attachment"
    return "".join(letter for letter in name if letter.isprintable())[:120] if name else None


def _charset(message: EmailMessage) -> str | None:
    try:
        return message.get_content_charset()
    except (ValueError, LookupError, AttributeError, IndexError, TypeError):
        return None
