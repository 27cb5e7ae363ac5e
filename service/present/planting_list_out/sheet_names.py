"""Names of sheets that every spreadsheet takes."""

from __future__ import annotations

import re

_REFUSED = re.compile(r"[\[\]:*?/\\\x00-\x1f]")
LONGEST = 31
_RESERVED = "history"


class SheetNames:
    """Gives each sheet a name of its own, as near as can be to the one that is wished.

    >>> names = SheetNames()
    >>> names.take("a/b.csv"), names.take("A b.csv"), names.take("'"), names.take("x" * 40)
    ('a b.csv', 'A b.csv 2', '-', 'xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx')
    """

    def __init__(self) -> None:
        self._taken = {_RESERVED}

    def take(self, wished: str) -> str:
        """A name that is not taken yet."""
        plain = _REFUSED.sub(" ", wished)[:LONGEST].strip(" '") or "-"
        name, number = plain, 1
        while name.casefold() in self._taken:
            number += 1
            end = f" {number}"
            name = plain[: LONGEST - len(end)] + end
        self._taken.add(name.casefold())
        return name
