"""One topic of a hand-out: a heading, a sentence, and blocks of lines; what an answer says becomes nothing but that."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Literal

from service.domain.units import Language
from service.present.hand_out.words import HEADINGS, PHRASES, TITLES

Kind = Literal["steps", "lines"]


class Scribe:
    """Writes the topic of one answer in one language."""

    def __init__(self, question: str, answer: Mapping[str, Any], language: Language) -> None:
        self.question, self.answer, self.language = question, answer, language
        self.blocks: list[dict[str, Any]] = []

    def add(self, heading: str, lines: Iterable[str | None], *, kind: Kind = "lines") -> None:
        """Add a block; one without lines is left out."""
        said = list(dict.fromkeys(line for line in lines if line))
        if said:
            self.blocks.append({"heading": HEADINGS[heading][self.language], "kind": kind, "lines": said})

    def phrase(self, name: str, **values: str) -> str:
        """A phrase of the hand-out with its values."""
        return PHRASES[name][self.language].format(**values)

    def tree(self) -> str:
        """The tree that the answer is about, by cultivar and crop."""
        cultivar, crop = self.answer.get("name"), self.answer["crop_name"]
        known = cultivar and self.question != "treatment-pointers"
        return f"{cultivar} ({crop})" if known else str(crop)

    def topic(self, text: str | None = None, **values: str) -> dict[str, Any]:
        """The topic as plain data."""
        title = TITLES[self.question][self.language].format(**values)
        return {"question": self.question, "title": title, "text": text or None, "blocks": self.blocks}


def joined(*parts: str | None) -> str:
    """Parts of a line, those that are there, with commas between them.

    >>> joined("Liberty", None, "8 ft apart")
    'Liberty, 8 ft apart'
    """
    return ", ".join(part for part in parts if part)
