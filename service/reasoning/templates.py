"""Sentences with placeholders: `{fact.name}`, `{conclusion_name}`, `{limit.name.of.limit}`."""

from __future__ import annotations

import re

_PLACEHOLDER = re.compile(r"\{([a-z][a-z0-9_.-]*)\}")
LIMIT = "limit."


def placeholders(text: str) -> tuple[str, ...]:
    """The names in braces, in order, each once. Raises ValueError with a sentence for a stray brace.

    >>> placeholders("{cultivar} asks for {chill.need_low_hours}; {cultivar} is late.")
    ('cultivar', 'chill.need_low_hours')
    """
    rest = _PLACEHOLDER.sub("", text)
    if "{" in rest or "}" in rest:
        raise ValueError("a brace stands alone; a placeholder is a name in braces, such as {cultivar}")
    return tuple(dict.fromkeys(_PLACEHOLDER.findall(text)))
