"""Numbers in lists: how many trees, and at what price, with a decimal point or a comma."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import lru_cache

from service.domain.planting_list import Currency, ReadPrice

_COUNT = re.compile(
    r"[x×]?\s*(\d{1,3}(?:[,. ]\d{3})+|\d{1,7})(?:[.,]0{1,2})?\s*[x×]?"
    r"(?:\s*(?:ea|each|trees?|pcs?|ct|st|stk|uds?|unidades|[aá]rbol(?:es)?|c/u)\.?)?",
    re.IGNORECASE,
)
_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "dozen": 12, "couple": 2, "pair": 2, "single": 1, "un": 1, "uno": 1, "una": 1, "dos": 2,
    "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10, "doce": 12,
    "docena": 12, "par": 2,
}  # fmt: skip
_NUMBER = r"\d{1,3}(?:[,.' ]\d{3})+(?:[.,]\d{1,2})?|\d{1,7}(?:[.,]\d{1,2})?"
_EACH = (
    r"(?:\s*(?P<each>/\s*(?:ea|each|tree|árbol|arbol|pc|c/u)\b|each\b|ea\b\.?|apiece\b|per tree\b|c/u|cada uno\b|"
    r"total\b|in total\b))?"
)
_BEFORE = r"(?P<before>US\$|USD|EUR|GBP|MXN|MX\$|\$|€|£)"
_AFTER = r"(?P<after>€|\$|£|USD\b|EUR\b|GBP\b|MXN\b|dollars?\b|bucks\b|euros?\b|d[oó]lares\b|pesos\b)"
_PRICE = re.compile(
    rf"(?:{_BEFORE}\s?(?P<first>{_NUMBER})(?:\s?(?P<also>USD|EUR|GBP|MXN)\b)?"
    rf"|(?<![\w#.,/])(?P<second>{_NUMBER})\s?{_AFTER}"
    rf"|@\s?(?P<third>{_NUMBER})"
    rf"|(?<![\w#.,/–-])(?P<fourth>\d{{1,6}}[.,]\d{{2}})(?![\w.,/%\"”'-])){_EACH}",
    re.IGNORECASE,
)
_CURRENCIES: tuple[tuple[str, Currency], ...] = (
    ("mx", "MXN"), ("pesos", "MXN"), ("usd", "USD"), ("us$", "USD"), ("dol", "USD"), ("dól", "USD"), ("buck", "USD"),
    ("€", "EUR"), ("eur", "EUR"), ("£", "GBP"), ("gbp", "GBP"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Count:
    """A number of trees as written; `trees` is None where it cannot be read."""

    trees: int | None


@lru_cache(maxsize=4096)
def read_count(text: str) -> Count | None:
    """How many, of a cell that holds nothing else; None where it is empty or says "none given".

    >>> read_count("2x"), read_count("3 each"), read_count("1,000"), read_count("a dozen"), read_count("2-3")
    (Count(trees=2), Count(trees=3), Count(trees=1000), Count(trees=12), Count(trees=None))
    """
    bare = text.strip().lower()
    if bare in ("", "-", "–", "?", "n/a", "na", "tbd"):
        return None
    match = _COUNT.fullmatch(bare)
    if match:
        return Count(int(re.sub(r"[,. ]", "", match[1])))
    words = [word for word in re.split(r"[^\w]+", bare) if word and word not in ("a", "of", "de", "trees", "tree", "x")]
    if words[:2] == ["half", "dozen"] or words[:2] == ["media", "docena"]:
        return Count(6)
    if words and words[0] in _WORDS and len(words) <= 2:
        dozen = len(words) == 2 and words[1] in ("dozen", "docenas")
        return Count(_WORDS[words[0]] * (12 if dozen else 1))
    return Count(None)


def word_count(word: str) -> int | None:
    """The number that a word says.

    >>> word_count("Three"), word_count("tres"), word_count("tree")
    (3, 3, None)
    """
    return _WORDS.get(word.lower())


def take_price(text: str) -> tuple[str, ReadPrice | None]:
    """The text with the first price replaced by a bar, and the price.

    >>> take_price("2 Liberty @ $39.50 each")
    ('2 Liberty @ ¦', ReadPrice(written='$39.50 each', amount=Decimal('39.50'), currency='USD', each=True))
    >>> take_price("Liberty 39,50 €")[1].amount
    Decimal('39.50')
    """
    match = _PRICE.search(text) if any(letter.isdigit() for letter in text) else None
    if match is None:
        return text, None
    number = next(match[name] for name in ("first", "second", "third", "fourth") if match[name])
    amount = read_amount(number)
    if amount is None:
        return text, None
    sign = (match["also"] or match["before"] or match["after"] or "").lower()
    price = ReadPrice(match[0].strip(), amount, _currency(sign), _each(match["each"]))
    return f"{text[: match.start()]}¦{text[match.end() :]}", price


@lru_cache(maxsize=4096)
def read_price(text: str, *, each: bool | None = None) -> ReadPrice | None:
    """The price of a cell that holds nothing else; None where it is none.

    >>> read_price("1.234,50").amount, read_price("29").amount, read_price("ask")
    (Decimal('1234.50'), Decimal('29'), None)
    """
    found = take_price(text)[1]
    if found is None:
        amount = read_amount(text.strip())
        return None if amount is None else ReadPrice(text.strip(), amount, None, each)
    return ReadPrice(text.strip(), found.amount, found.currency, found.each if found.each is not None else each)


def read_amount(text: str) -> Decimal | None:
    """A number with a decimal point or comma; a comma before three figures parts thousands.

    >>> read_amount("1,234"), read_amount("1,5"), read_amount("1.234,5"), read_amount("1'200.00")
    (Decimal('1234'), Decimal('1.5'), Decimal('1234.5'), Decimal('1200.00'))
    """
    bare = text.replace("'", "").replace(" ", "")
    if len(bare) > 15 or not re.fullmatch(r"\d+(?:[.,]\d+)*", bare, re.ASCII):
        return None
    last = max(bare.rfind("."), bare.rfind(","))
    if last >= 0 and len(bare) - last - 1 == 3 and (bare[last] == "," or bare.count(".") > 1):
        last = -1
    whole, part = (bare, "") if last < 0 else (bare[:last], bare[last + 1 :])
    try:
        return Decimal(re.sub(r"[.,]", "", whole) + (f".{part}" if part else ""))
    except InvalidOperation:
        return None


def _currency(sign: str) -> Currency | None:
    return next((currency for start, currency in _CURRENCIES if sign.startswith(start)), "USD" if sign == "$" else None)


def _each(word: str | None) -> bool | None:
    return None if word is None else "total" not in word.lower()
