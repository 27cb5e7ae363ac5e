"""Fills the sentences of rules: every placeholder becomes a value with its unit, in the words of the reader.

A sentence is cut into its pieces once; filling it is then a walk over the pieces. Values know their units from the
vocabulary, limits from limits.yaml, so that a sentence cannot show a length as if it were a count.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from service.domain.complaint import Complaint
from service.domain.cut import Wording
from service.domain.disorder import Disorder
from service.domain.sign import Sign
from service.domain.units import Language, quantity_text
from service.present.choice_words import choice_text
from service.reasoning.conclusions import Conclusion
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Fact, Value

_PLACEHOLDER = re.compile(r"\{([a-z][a-z0-9_.-]*)\}")
_LIMIT = "limit."
_OF_DIAGNOSIS = (
    "disorder", "signs.present", "signs.absent", "complaint", "recent.infection", "suspect.looks_like", "answer.top",
    "answer.second", "answer.regulated", "answer.regulated_in_state", "answer.not_to_be_moved", "cause",
    "quarantine.here", "quarantine.nursery",
)  # fmt: skip  # facts whose values have a name of their own in the catalogue
_CROPS = ("crop", "use.crop", "line.crop", "list.crops", "quarantine.crops")
_KEPT = 20_000
_AND: Mapping[Language, str] = {"en": "and", "es": "y"}
_YES_NO: Mapping[Language, tuple[str, str]] = {"en": ("no", "yes"), "es": ("no", "sí")}
_NOT_KNOWN: Mapping[Language, str] = {"en": "unknown", "es": "desconocido"}


class Sentences:
    """Writes conclusions of one rulebook in one language, for a place north or south of the equator."""

    def __init__(self, rulebook: Rulebook, *, language: Language = "en", southern: bool = False) -> None:
        self._book = rulebook
        self._language: Language = language
        self._southern = southern
        self._wordings = rulebook.wording.get(language, {})
        self._written: dict[tuple[str, Value], str] = {}

    def text(self, conclusion: Conclusion) -> str:
        """The sentence of a conclusion, filled."""
        text = self._filled(self._wording(conclusion.rule.id, conclusion.rule.text), conclusion.values)
        return text[:1].upper() + text[1:]  # it may begin with a name that is written small

    def why(self, conclusion: Conclusion) -> str:
        """The reason behind the rule of a conclusion."""
        wording = self._wordings.get(conclusion.rule.id)
        return conclusion.rule.why if wording is None or wording.why is None else wording.why

    def value(self, name: str, value: Value | None) -> str:
        """A value of a fact or a conclusion as it stands in a sentence."""
        if value is None:
            return _NOT_KNOWN[self._language]
        written = self._written.get((name, value))
        if written is None:
            if len(self._written) >= _KEPT:
                self._written.clear()  # names in long lists are without end
            written = self._written[name, value] = self._value(self.fact(name), value)
        return written

    def fact(self, name: str) -> Fact:
        """What the vocabulary says of a fact, or of a conclusion by its bare name."""
        vocabulary = self._book.vocabulary
        found = vocabulary.facts.get(name)
        return found if found is not None else vocabulary.conclusions[name.removeprefix(CONCLUDED)]

    def crop(self, crop_id: str) -> str:
        """The name of a crop."""
        crop = self._book.catalogue.crops[crop_id]
        return crop.name_es if self._language == "es" else crop.name

    def name(self, named: Disorder | Sign | Complaint) -> str:
        """The name of a disorder, a sign or a complaint."""
        return named.name_es if self._language == "es" else named.name

    def wording(self, wording: Wording) -> str:
        """A phrase that stands in both languages."""
        return wording.text_es if self._language == "es" else wording.text

    def word(self, word: str) -> str:
        """A word of the vocabulary."""
        return choice_text(word, language=self._language)

    def caution(self, name: str) -> str:
        """The text of a caution."""
        caution = self._book.cautions[name]
        return caution.text_es if self._language == "es" else caution.text

    def _wording(self, rule_id: str, text: str) -> str:
        wording = self._wordings.get(rule_id)
        return text if wording is None else wording.text

    def _filled(self, template: str, values: Mapping[str, Value]) -> str:
        pieces = list(_pieces(template))  # plain text and names in turn, plain text first
        pieces[1::2] = [self._placed(name, values) for name in pieces[1::2]]
        return "".join(pieces)

    def _placed(self, name: str, values: Mapping[str, Value]) -> str:
        if name.startswith(_LIMIT):
            limit = self._book.limits[name.removeprefix(_LIMIT)]
            return quantity_text(limit.value, limit.unit, language=self._language, southern=self._southern)
        return self.value(name, values.get(name))

    def _value(self, fact: Fact, value: Value) -> str:
        if isinstance(value, bool):
            return _YES_NO[self._language][value]
        if isinstance(value, tuple):
            return listed([self._word(fact, word) for word in value], language=self._language)
        if isinstance(value, int | float):
            assert fact.unit is not None
            return quantity_text(value, fact.unit, language=self._language, southern=self._southern)
        return value if fact.type == "name" else self._word(fact, value)

    def _word(self, fact: Fact, word: str) -> str:
        catalogue = self._book.catalogue
        if fact.name in _CROPS and word in catalogue.crops:
            return self.crop(word)
        if word in catalogue.cultivars:
            return catalogue.cultivars[word].denomination
        named = catalogue.disorders.get(word) or catalogue.signs.get(word) or catalogue.complaints.get(word)
        if named is not None and fact.name in _OF_DIAGNOSIS:
            return self.name(named)
        return choice_text(word, language=self._language)


def listed(words: Sequence[str], *, language: Language = "en") -> str:
    """Words as a person lists them.

    >>> listed(["scab", "rust", "canker"]), listed(["roya", "sarna"], language="es")
    ('scab, rust and canker', 'roya y sarna')
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {_AND[language]} {words[-1]}"


@lru_cache(maxsize=4096)
def _pieces(template: str) -> tuple[str, ...]:
    return tuple(_PLACEHOLDER.split(template))
