"""The text of the pages in English and Spanish: read once from `words/`, a file a subject with both languages in it.

    title: {en: "Too much fruit on the tree", es: "Demasiada fruta en el árbol"}

The key of a text is the name of its file, a dot and its own name. A text takes values in braces. Where a text has two
forms for one and for many, they are keyed `name_one` and `name`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

from service.domain.errors import KnowledgeFault
from service.domain.units import Language
from service.knowledge import strict_yaml
from service.present.choice_words import choice_text

FOLDER = Path(__file__).parent / "words"
LANGUAGES: tuple[Language, ...] = ("en", "es")


@cache
def page_words(language: Language) -> Mapping[str, str]:
    """Every text of the pages in one language, by key."""
    return {key: texts[language] for file in sorted(FOLDER.glob("*.yaml")) for key, texts in _texts(file).items()}


def choice_words(words: Iterable[str], language: Language) -> dict[str, str]:
    """Words of the vocabulary as a person reads them, keyed for the pages."""
    return {f"choice.{word}": choice_text(word, language=language) for word in sorted(words)}


def _texts(file: Path) -> dict[str, Mapping[str, str]]:
    shown = f"words/{file.name}"
    entries = strict_yaml.read(file, shown_as=shown)
    for name, texts in entries.items():
        if not isinstance(texts, dict) or set(texts) != set(LANGUAGES):
            raise KnowledgeFault(shown, entries.key_lines[name], "a text is told in en and in es", entry=name)
    return {f"{file.stem}.{name}": texts for name, texts in entries.items()}
