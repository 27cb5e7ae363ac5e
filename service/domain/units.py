"""How a value reads: US customary first, SI beside it, in English or Spanish.

Units are those of the vocabulary of facts. The value comes with its unit, so a sentence adds none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import partial
from typing import Literal

from service.domain.month_day import season_day
from service.domain.site import zone_text

Language = Literal["en", "es"]

FOOT_M = 0.3048
INCH_CM = 2.54
POUND_KG = 0.45359237
OUNCE_G = POUND_KG * 1000 / 16
PSI_MPA = 0.006894757293168
GALLON_L = 3.785411784
SQUARE_FOOT_M2 = FOOT_M * FOOT_M
MILE_KM = 1.609344

_MONTHS: Mapping[Language, tuple[str, ...]] = {
    "en": ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December"),
    "es": ("enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre",
           "noviembre", "diciembre"),
}  # fmt: skip
_WORDS: Mapping[str, Mapping[Language, tuple[str, str]]] = {
    "hours": {"en": ("hour", "hours"), "es": ("hora", "horas")},
    "days": {"en": ("day", "days"), "es": ("día", "días")},
    "weeks": {"en": ("week", "weeks"), "es": ("semana", "semanas")},
    "months": {"en": ("month", "months"), "es": ("mes", "meses")},
    "years": {"en": ("year", "years"), "es": ("año", "años")},
    "uses": {"en": ("use", "uses"), "es": ("aplicación", "aplicaciones")},
    "zones": {"en": ("zone", "zones"), "es": ("zona", "zonas")},
    "points": {"en": ("point", "points"), "es": ("punto", "puntos")},
    "portions": {"en": ("chill portion", "chill portions"), "es": ("porción de frío", "porciones de frío")},
}
_SI: Mapping[str, tuple[str, Callable[[float], float], str]] = {
    "ft": ("ft", lambda value: value * FOOT_M, "m"),
    "in": ("in", lambda value: value * INCH_CM, "cm"),
    "lb": ("lb", lambda value: value * POUND_KG, "kg"),
    "oz": ("oz", lambda value: value * OUNCE_G, "g"),
    "psi": ("psi", lambda value: value * PSI_MPA, "MPa"),
    "gal": ("gal", lambda value: value * GALLON_L, "L"),
    "sq_ft": ("sq ft", lambda value: value * SQUARE_FOOT_M2, "m²"),
    "f": ("°F", lambda value: (value - 32) / 1.8, "°C"),
    "f_apart": ("°F", lambda value: value / 1.8, "°C"),
    "mph": ("mph", lambda value: value * MILE_KM, "km/h"),
}


def number_text(value: float, *, language: Language = "en") -> str:
    """A number without needless decimals: whole from a hundred up, grouped thousands where it is large.

    >>> number_text(1200), number_text(12.5), number_text(0.1234), number_text(7.0)
    ('1,200', '12.5', '0.12', '7')
    >>> number_text(1200, language="es"), number_text(3.66, language="es")
    ('1200', '3,7')
    """
    return _rounded(value, 0 if abs(value) >= 100 else 1 if abs(value) >= 1 else 2, language)


def _rounded(value: float, digits: int, language: Language) -> str:
    text = f"{value:,.{digits}f}"
    if digits:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text in ("-0", "") else text.replace("-", "−")
    return text if language == "en" else text.replace(",", "").replace(".", ",")


def feet_to_metres(feet: float) -> float:
    """Metres, to the centimetre (1 ft is 0.3048 m by definition).

    >>> feet_to_metres(12)
    3.66
    """
    return round(feet * FOOT_M, 2)


def day_text(number: float, *, language: Language = "en", southern: bool = False) -> str:
    """A day of the season as people say it.

    >>> day_text(293), day_text(79, language="es"), day_text(112, southern=True)
    ('October 20', '20 de marzo', 'October 20')
    """
    day = season_day(round(number), southern=southern)
    name = _MONTHS[language][day.month - 1]
    return f"{name} {day.day}" if language == "en" else f"{day.day} de {name}"


def month_text(month: int, *, language: Language = "en") -> str:
    """The name of a month.

    >>> month_text(9), month_text(9, language="es")
    ('September', 'septiembre')
    """
    return _MONTHS[language][month - 1]


def quantity_text(value: float, unit: str, *, language: Language = "en", southern: bool = False) -> str:
    """A value with its unit, as it stands in a sentence; an unnamed unit raises KeyError.

    >>> quantity_text(12, "ft"), quantity_text(8, "in"), quantity_text(45, "f")
    ('12 ft (3.7 m)', '8 in (20 cm)', '45 °F (7.2 °C)')
    >>> quantity_text(1, "days"), quantity_text(0.85, "share"), quantity_text(7.5, "zone"), quantity_text(2, "count")
    ('1 day', '85%', '7b', '2')
    >>> quantity_text(18, "mm"), quantity_text(6, "per_cm2"), quantity_text(12, "per_ft"), quantity_text(73, "bbch")
    ('0.71 in (18 mm)', '6 per cm² (38.7 per sq in)', '12 per ft (39.4 per m)', 'BBCH 73')
    >>> quantity_text(45, "portions", language="es"), quantity_text(1.5, "years", language="es")
    ('45 porciones de frío', '1,5 años')
    """
    if unit in _SI:
        us_name, convert, si_name = _SI[unit]
        us, si = number_text(value, language=language), _si_text(convert(value), si_name, language)
        return f"{us} {us_name} ({si} {si_name})"
    if unit in _WORDS:
        number = number_text(value, language=language)
        return f"{number} {_WORDS[unit][language][number != '1']}"
    return _BARE[unit](value, language, southern)


def _si_text(value: float, unit: str, language: Language) -> str:
    return _rounded(value, 1 if abs(value) < 10 or unit == "°C" else 0, language)


def _mm_text(value: float, language: Language) -> str:
    return f"{_rounded(value / 10 / INCH_CM, 2, language)} in ({_rounded(value, 0, language)} mm)"


def _each(unit: str, value: float, language: Language, southern: bool) -> str:
    """So many to a length or an area; fruit to a section of wood is published by the square centimetre."""
    first, convert, second = _EACH[unit]
    said, beside = (number_text(number, language=language) for number in (value, convert(value)))
    word = _EACH_WORD[language]
    return f"{said} {word} {first} ({beside} {word} {second})"


_TIMES: Mapping[Language, str] = {"en": "times", "es": "veces"}
_EACH_WORD: Mapping[Language, str] = {"en": "per", "es": "por"}
_EACH: Mapping[str, tuple[str, Callable[[float], float], str]] = {
    "per_ft": ("ft", lambda value: value / FOOT_M, "m"),
    "per_cm2": ("cm²", lambda value: value * INCH_CM * INCH_CM, "sq in"),
    "per_m2": ("m²", lambda value: value * SQUARE_FOOT_M2, "sq ft"),
}
_BARE: Mapping[str, Callable[[float, Language, bool], str]] = {
    "zone": lambda value, language, southern: zone_text(value),
    "share": lambda value, language, southern: f"{math.floor(value * 100 + 0.5)}%",
    "percent": lambda value, language, southern: f"{number_text(value, language=language)}%",
    "count": lambda value, language, southern: number_text(value, language=language),
    "deg": lambda value, language, southern: f"{number_text(value, language=language)}°",
    "times": lambda value, language, southern: f"{number_text(value, language=language)} {_TIMES[language]}",
    "bbch": lambda value, language, southern: f"BBCH {value:02.0f}",
    "mm": lambda value, language, southern: _mm_text(value, language),
    **{unit: partial(_each, unit) for unit in _EACH},
    "ph": lambda value, language, southern: _rounded(value, 1, language),
    "day_of_year": lambda value, language, southern: day_text(value, language=language, southern=southern),
}

UNITS = frozenset((*_SI, *_WORDS, *_BARE))
