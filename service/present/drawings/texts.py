"""Texts that are cut or wrapped to the room there is in a drawing."""

from __future__ import annotations

from service.present.drawings.shapes import words_length


def cut(text: str, width: float, *, size: float, bold: bool = False) -> str:
    """A text that ends in dots where it would be wider than there is room.

    >>> cut("Esopus Spitzenburg", 40, size=7.5)
    'Esopus S…'
    """
    if words_length(text, size, bold=bold) <= width:
        return text
    letters = int(width / words_length("n", size, bold=bold)) - 1
    return text[: max(1, letters)].rstrip() + "…"


def wrapped(text: str, width: float, *, size: float) -> list[str]:
    """A text on lines that are no wider than the room.

    >>> wrapped("one two three", 40, size=7.5)
    ['one two', 'three']
    """
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and words_length(longer, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines
