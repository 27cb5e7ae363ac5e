"""What a file is, told by its first bytes and never by its name: lists arrive under every ending."""

from __future__ import annotations

import re
from typing import Literal

from service.domain.errors import NotUnderstood

Sort = Literal["zip", "mail", "html", "text"]
HEAD_BYTES = 65_536
_REFUSED = (
    (b"\xd0\xcf\x11\xe0", "an old or encrypted workbook (.xls, or a workbook with a password); save it as .xlsx without"
                          " a password, or as .csv"),
    (b"%PDF", "a PDF; copy its lines as text, or send the list as a workbook or .csv"),
    (b"\x89PNG", "a picture; write the list as text"),
    (b"\xff\xd8\xff", "a picture; write the list as text"),
    (b"GIF8", "a picture; write the list as text"),
    (b"RIFF", "a picture or a recording; write the list as text"),
    (b"{\\rtf", "a document in rich text; save it as plain text or copy its lines"),
    (b"\x1f\x8b", "a packed file; send the list itself"),
    (b"7z\xbc\xaf", "a packed file; send the list itself"),
    (b"Rar!", "a packed file; send the list itself"),
    (b"BZh", "a packed file; send the list itself"),
    (b"\xfd7zXZ", "a packed file; send the list itself"),
    (b"\x7fELF", "a program; send a list"),
    (b"MZ\x90", "a program; send a list"),
    (b"SQLite format 3", "a database; send the list as a workbook or .csv"),
)  # fmt: skip
_MAIL_LINE = re.compile(rb"(?i)(?:from|to|cc|subject|date|received|sent|return-path|delivered-to|mime-version|"
                        rb"message-id|content-type|x-[a-z-]+|de|para|asunto|fecha|enviado):[ \t]")  # fmt: skip
_ANY_HEADER = re.compile(rb"[A-Za-z][A-Za-z-]{1,40}:[ \t]")
_MAIL_NEED = re.compile(rb"(?im)^(?:from|subject|mime-version|received):[ \t]")
_HTML = re.compile(rb"(?is)\s*(?:<!doctype html|<html|<head|<body|<table|<div|<meta)\b")


def sort_of(head: bytes) -> Sort:
    """The sort of a file that begins so; raises NotUnderstood for what cannot hold a list.

    >>> sort_of(b"PK" + bytes([3, 4])), sort_of(b"From: a@example.org" + bytes([10]) + b"Subject: trees" + bytes([10]))
    ('zip', 'mail')
    >>> sort_of(b"qty,variety")
    'text'
    """
    if head.startswith(b"PK"):
        return "zip"
    for start, what in _REFUSED:
        if head.startswith(start):
            raise NotUnderstood(("/file", f"this is {what}"))
    bare = head.removeprefix(b"\xef\xbb\xbf")
    if _is_mail(bare):
        return "mail"
    if _HTML.match(bare):
        return "html"
    if head.count(0) > max(2, len(head) // 50) and not _is_wide_text(head):
        raise NotUnderstood(("/file", "this is not text; send the list as .csv, .xlsx, .ods, .eml or plain text"))
    return "text"


def _is_mail(head: bytes) -> bool:
    lines = head.lstrip(b"\r\n")[:8192].splitlines()[:3]
    first = bool(lines) and (_MAIL_LINE.match(lines[0]) is not None or lines[0].startswith(b"From "))
    second = len(lines) > 1 and (_ANY_HEADER.match(lines[1]) is not None or lines[1][:1] in (b" ", b"\t"))
    return first and second and _MAIL_NEED.search(head) is not None


def _is_wide_text(head: bytes) -> bool:
    """Whether the zero bytes are those of UTF-16 or UTF-32."""
    if head[:2] in (b"\xff\xfe", b"\xfe\xff") or head[:4] == b"\0\0\xfe\xff":
        return True
    sample = head[: len(head) // 2 * 2]
    odd, even = sample[1::2].count(0), sample[::2].count(0)
    return max(odd, even) > 0.6 * (len(sample) // 2) and min(odd, even) < 0.1 * (len(sample) // 2)
