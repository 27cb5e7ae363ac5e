"""A draft with which to answer a mail: what was found as text, with the spreadsheet and the sheet to print attached.

It opens in a mail program as a message that is not sent yet (`X-Unsent`), so that a person reads it first. It goes to
whoever sent the list, where the list came in a mail.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP
from typing import Any

from service.domain.units import Language
from service.present.planting_list_out.words import said

_LONGEST_SUBJECT = 200


@dataclass(frozen=True, slots=True)
class Attached:
    """A file that goes with the mail."""

    name: str
    media_type: str
    content: bytes


def draft(answer: Mapping[str, Any], text: str, attached: Iterable[Attached]) -> bytes:
    """The draft as a file that mail programs open."""
    language: Language = answer["language"]
    head = next((source["mail"] for source in answer["read"]["sources"] if source["mail"]), None) or {}
    message = EmailMessage(policy=SMTP)
    message["X-Unsent"] = "1"
    message["Subject"] = _subject(head.get("subject"), language)
    if head.get("sender"):
        name, _, domain = head["sender"].rpartition("@")
        message["To"] = Address(username=name, domain=domain)
    if head.get("message_id"):
        message["In-Reply-To"] = message["References"] = "".join(head["message_id"].split())
    words = [said(key, language) for key in ("greeting", "thanks")]
    ending = [said(key, language) for key in ("attached", "closing")]
    message.set_content("\n\n".join([*words, text.strip(), *ending]) + "\n", cte="quoted-printable")
    for file in attached:
        main, _, sub = file.media_type.partition("/")
        message.add_attachment(file.content, maintype=main, subtype=sub, filename=file.name)
    message["Content-Language"] = language  # last, for attaching moves such headers into the first part
    return message.as_bytes()


def _subject(subject: str | None, language: Language) -> str:
    if not subject:
        return said("reply", language)
    plain = "".join(letter if letter.isprintable() else " " for letter in subject)[:_LONGEST_SUBJECT].strip()
    return plain if plain.lower().startswith(("re:", "aw:")) else f"Re: {plain}"
