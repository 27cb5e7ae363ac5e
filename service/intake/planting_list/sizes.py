"""How big a tree is: its container, its box, bare roots, height, caliper, or how big it is said to grow."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import Any

from service.domain.crop import TreeSize
from service.domain.planting_list import Form, ReadSize

_N = r"\d{1,3}(?:[.,]\d{1,2})?"
_FRACTION = r"(?:\d{1,2}[ -])?\d{1,2}/\d{1,2}|" + _N
_INCH = r"(?:\"|”|''|in\b\.?|inch(?:es)?\b|pulgadas?\b|pulg\b\.?)"
_FOOT = r"(?:'|’|ft\b\.?|feet\b|foot\b|pies\b)"
_FREE = r"(?<![\w.,/#])"
_TO = r"(?:\s?(?:-|–|to|a)\s?(?P<high>{})"
_END = r"(?=[\s,;)|]|$)"
_ITEMS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (kind, re.compile(pattern, re.IGNORECASE))
    for kind, pattern in (
        ("box", rf"{_FREE}(?P<low>{_N})\s?-?{_INCH}?\s?(?:box(?:ed)?|caj[oó]n|caja)\b"),
        (
            "container",
            rf"(?<![\w.,/])#\s?(?P<low>{_N})(?:\s?(?:gal(?:lons?)?|container|cont|pot)\b\.?)?(?![\w/])"
            rf"|{_FREE}(?P<other>{_N})\s?-?(?:gal\b\.?|gallons?\b|galones\b|gal[oó]n\b|g{_END}(?!\s?\d))"
            r"(?:\s?(?:container|pot|cont|can)\b\.?)?",
        ),
        (
            "caliper",
            rf"{_FREE}(?P<low>{_FRACTION})(?:\s?{_INCH})?{_TO.format(_FRACTION)})?"
            rf"\s?{_INCH}?\s?(?:caliper|cal\b\.?|calibre)",
        ),
        (
            "height",
            rf"{_FREE}(?P<low>{_N})\s?{_FOOT}?{_TO.format(_N)})?\s?{_FOOT}(?:\s?(?:tall|high|whips?|de alto))?",
        ),
        ("inches", rf"{_FREE}(?P<low>{_FRACTION})(?:\s?{_INCH})?{_TO.format(_FRACTION)})?\s?{_INCH}"),
        (
            "height_m",
            rf"{_FREE}(?P<low>{_N}){_TO.format(_N)})?\s?(?:(?-i:m)(?![\w.]|\s?\d)|metros?\b|cm\b)(?:\s?de alto)?",
        ),
        ("bare_root", rf"\bbare[ -]?root(?:ed|s)?\b|(?:\ba\s)?\bra[ií]z desnuda\b|(?<!\w)B\.?R\.?{_END}"),
        ("balled", r"\bB\s?&\s?B\b|\bballed\b(?: (?:and|&) burlapped\b)?|\bcepell[oó]n\b"),
        ("potted", r"\bpotted\b|\bin (?:a )?pots?\b|\ben maceta\b|\bcontainer(?:ized)?\b|\bcontenedor\b"),
        ("semi_dwarf", rf"\bsemi[ -]?dwarf(?:ing)?\b|\bsemi[ -]?enan[oa]s?\b|(?<!\w)S\.?D\.?{_END}"),
        ("dwarf", r"\b(?:ultra[ -])?dwarf(?:ing)?\b|\benan[oa]s?\b|\bmini(?:ature)?\b"),
        ("standard", r"\bstandard(?:[ -]size)?\b|\bfull[ -]size(?:d)?\b|\best[aá]ndar\b"),
    )
)
_FEET_PER_METER = 1 / 0.3048
_THICKEST_IN = 3.0  # inches up to here are told of a stem, more of a height
_TREE: dict[str, TreeSize] = {"semi_dwarf": "semi_dwarf", "dwarf": "dwarf", "standard": "standard"}
_FORMS: dict[str, Form] = {"bare_root": "bare_root", "balled": "balled", "potted": "potted"}
_HINT = re.compile(r"(?i)\d|root|ra[ií]z|b\.?r\b|ball|burlap|cepell|pot|maceta|cont|dwarf|enan|s\.?d\b|mini|standard|"
                   r"full|est[aá]nd|b\s?&\s?b")  # fmt: skip


def take_size(text: str) -> tuple[str, ReadSize | None]:
    """The text with every word on size replaced by a bar, and the size.

    >>> rest, size = take_size("Liberty, semi-dwarf, 5 gal")
    >>> rest, size.tree, size.form, size.container
    ('Liberty, ¦, ¦', 'semi_dwarf', 'container', 5.0)
    >>> take_size("Bing 5-6 ft bare root")[1].height_ft
    (5.0, 6.0)
    """
    if not _HINT.search(text):
        return text, None
    size, written = ReadSize(""), list[tuple[int, str]]()
    for kind, pattern in _ITEMS:
        match = pattern.search(text)
        if match and (change := _read(kind, match)):
            written.append((match.start(), match[0].strip()))
            size = replace(size, **{name: value for name, value in change.items() if getattr(size, name) is None})
            text = text[: match.start()] + "¦".ljust(len(match[0]), "\x01") + text[match.end() :]
    if not written:
        return text, None
    return text.replace("\x01", ""), replace(size, written=", ".join(what for _, what in sorted(written)))


@lru_cache(maxsize=4096)
def read_size(text: str) -> ReadSize | None:
    """The size of a cell that holds nothing else; a bare number is a container.

    >>> read_size("7").container, read_size("15G").container, read_size("big")
    (7.0, 15.0, None)
    """
    found = take_size(text)[1]
    if found is None and re.fullmatch(_N, text.strip()):
        return ReadSize(text.strip(), form="container", container=_number(text.strip()))
    return None if found is None else replace(found, written=text.strip())


def _read(kind: str, match: re.Match[str]) -> dict[str, Any]:
    if kind in _TREE or kind in _FORMS:
        return {"tree": _TREE[kind]} if kind in _TREE else {"form": _FORMS[kind]}
    return _measured(kind, match)


def _measured(kind: str, match: re.Match[str]) -> dict[str, Any]:
    groups = match.groupdict()
    low = _number(groups["low"] or groups.get("other") or "")
    high = _number(groups.get("high") or "") or low
    if not low or not high or high < low:
        return {}
    if kind in ("box", "container"):
        return {"form": kind, "box_in" if kind == "box" else "container": low}
    if kind in ("caliper", "inches"):
        stem = kind == "caliper" or high <= _THICKEST_IN
        return {"caliper_in": (low, high)} if stem else {"height_ft": (low / 12, high / 12)}
    if kind == "height_m":
        unit = 0.01 if match[0].lower().rstrip().removesuffix(" de alto").endswith("cm") else 1.0
        return {"height_ft": (round(low * unit * _FEET_PER_METER, 2), round(high * unit * _FEET_PER_METER, 2))}
    return {"height_ft": (low, high)}


def _number(text: str) -> float:
    """A number, whole, with a point or comma, or as a fraction.

    >>> _number("1-1/4"), _number("2,5"), _number("")
    (1.25, 2.5, 0.0)
    """
    total = 0.0
    for part in re.split(r"[ -]", text):
        above, _, below = part.partition("/")
        if below:
            total += int(above) / int(below) if int(below) else 0.0
        elif part:
            total += float(part.replace(",", "."))
    return total
