"""The few phrases of a diagnosis that no rule writes, in English and Spanish."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.domain.units import Language

_LEANS: Mapping[Language, str] = {
    "en": "Then the likeliest is {name}: about {chance} in 100.",
    "es": "Entonces lo más probable es {name}: unas {chance} de cada 100.",
}
_NOTHING_STANDS_OUT: Mapping[Language, str] = {
    "en": "Then nothing stands out yet.",
    "es": "Entonces todavía no se destaca nada.",
}
_SOMETHING_ELSE: Mapping[Language, str] = {
    "en": "something that is not on the list",
    "es": "algo que no está en la lista",
}
_NO_HOST: Mapping[Language, str] = {
    "en": "{crop} is no host of {disorder}.",
    "es": "{crop} no es hospedero de {disorder}.",
}


@dataclass(frozen=True, slots=True)
class Phrases:
    """The phrases of one language."""

    language: Language

    def of(self, english: str, spanish: str) -> str:
        """The one of two wordings that is in this language."""
        return spanish if self.language == "es" else english

    def leans(self, name: str | None, likelihood: float, *, floor: float) -> str:
        """Where an answer would lean; below the floor it leans nowhere.

        >>> Phrases("en").leans("peach leaf curl", 0.914, floor=0.35)
        'Then the likeliest is peach leaf curl: about 91 in 100.'
        >>> Phrases("en").leans("fire blight", 0.05, floor=0.35)
        'Then nothing stands out yet.'
        """
        if likelihood < floor:
            return _NOTHING_STANDS_OUT[self.language]
        said = _SOMETHING_ELSE[self.language] if name is None else name
        return _LEANS[self.language].format(name=said, chance=round(100 * likelihood))

    def no_host(self, crop: str, disorder: str) -> str:
        """That a disorder does not live on a crop."""
        return _NO_HOST[self.language].format(disorder=disorder, crop=crop[:1].upper() + crop[1:])
