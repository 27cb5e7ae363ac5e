"""How much is cut, in words: the amounts that rules conclude, each with the range that is taught where there is one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.domain.units import Language, quantity_text
from service.present.sentences import Sentences
from service.reasoning.conclusions import Judgement
from service.reasoning.limits import Limit
from service.reasoning.rulebook import Rulebook

_PHRASES: Mapping[str, Mapping[Language, str]] = {
    "share_percent": {"en": "about {amount} of {of}", "es": "cerca del {amount} de {of}"},
    "below_sign_in": {"en": "{amount} below the last sign", "es": "{amount} por debajo de la última señal"},
    "cut_at_in": {"en": "cut at {amount}", "es": "corte a {amount}"},
    "bring_down_to_ft": {"en": "down to {amount}", "es": "hasta {amount}"},
    "keep_count": {"en": "keep {amount}", "es": "deje {amount}"},
    "apart_in": {"en": "{amount} apart", "es": "a {amount} uno de otro"},
    "longest_in": {"en": "while no longer than {amount}", "es": "mientras no pasen de {amount}"},
    "angle_deg": {"en": "{amount} from the vertical", "es": "a {amount} de la vertical"},
}
_OF: Mapping[str, Mapping[Language, str]] = {
    "last_years_growth": {"en": "last year's growth", "es": "los brotes del último año"},
    "living_canopy": {"en": "the living canopy", "es": "la copa viva"},
    "each_shoot": {"en": "the length of each shoot", "es": "el largo de cada brote"},
    "each_limb": {"en": "the length of each limb", "es": "el largo de cada rama"},
    "excess": {"en": "what stands above the wanted height", "es": "lo que sobrepasa la altura deseada"},
    "": {"en": "it", "es": "ello"},
}
_TAUGHT: Mapping[Language, str] = {
    "en": "{phrase} ({low} to {high} is taught)",
    "es": "{phrase} (se enseña {low} a {high})",
}


@dataclass(frozen=True, slots=True)
class Amount:
    """One amount: its name in the vocabulary, its value, the limit that it came from, and what it is a share of."""

    name: str
    value: float
    unit: str
    limit: Limit | None
    of: str | None


def amounts_of(judgement: Judgement, rulebook: Rulebook) -> tuple[Amount, ...]:
    """The amounts that a judgement holds, in the order of the phrases."""
    found = []
    for name in _PHRASES:
        value = judgement.concluded.get(name)
        if isinstance(value, int | float):
            unit = rulebook.vocabulary.conclusions[name].unit or ""
            of = judgement.concluded.get("share_of") if name == "share_percent" else None
            limit = _limit(judgement, rulebook, name=name, unit=unit)
            found.append(Amount(name, value, unit, limit, of if isinstance(of, str) else None))
    return tuple(found)


def _limit(judgement: Judgement, rulebook: Rulebook, *, name: str, unit: str) -> Limit | None:
    """The limit behind a concluded number: one that a rule concluding it names, of its unit and value."""
    value = judgement.concluded[name]
    named = (limit for rule in judgement.rules if rule.conclude.get(name) == value for limit in rule.limits)
    limits = (rulebook.limits[limit] for limit in named)
    return next((limit for limit in limits if limit.unit == unit and limit.value == value), None)


def amount_text(amount: Amount, *, language: Language = "en") -> str:
    """An amount as it stands in a plan."""

    def shown(value: float) -> str:
        return quantity_text(value, amount.unit, language=language)

    phrase = _PHRASES[amount.name][language].format(amount=shown(amount.value), of=_OF[amount.of or ""][language])
    limit = amount.limit
    if limit is None or limit.low == limit.high:
        return phrase
    return _TAUGHT[language].format(phrase=phrase, low=shown(limit.low), high=shown(limit.high))


def amount_told(amount: Amount, sentences: Sentences, *, language: Language) -> dict[str, Any]:
    """An amount as plain data."""
    limit = amount.limit
    return {
        "amount": amount.name,
        "meaning": sentences.fact(amount.name).meaning,
        "value": amount.value,
        "unit": amount.unit,
        "of": amount.of,
        "taught_from": None if limit is None else limit.low,
        "taught_to": None if limit is None else limit.high,
        "shown": amount_text(amount, language=language),
    }
