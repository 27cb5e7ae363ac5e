"""What is asked for where something could not be judged, in Spanish; the vocabulary words it in English."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.units import Language

SPANISH: Mapping[str, str] = {
    "a chill need and a chill figure of the place in the same count":
        "una necesidad de frío y el frío del lugar en la misma cuenta",
    "a published chill need": "una necesidad de frío publicada",
    "a published hardiness zone": "una zona de rusticidad publicada",
    "a published harvest time": "una época de cosecha publicada",
    "a published statement on self-fertility": "un dato publicado sobre la autofertilidad",
    "how many trees are wanted": "cuántos árboles se desean",
    "how many trees are wanted at the most": "cuántos árboles se desean como máximo",
    "how the soil drains": "cómo drena el suelo",
    "the date of the first autumn frost": "la fecha de la primera helada de otoño",
    "the date of the last spring frost": "la fecha de la última helada de primavera",
    "the dates of the last spring and first autumn frost":
        "las fechas de la última helada de primavera y la primera de otoño",
    "the hardiness zone of the place": "la zona de rusticidad del lugar",
    "the height that the trees may reach": "la altura que pueden alcanzar los árboles",
    "the hours of direct sun": "las horas de sol directo",
    "the mature height of the tree": "la altura adulta del árbol",
    "the mean temperature of the warmest month": "la temperatura media del mes más cálido",
    "the pH of the soil": "el pH del suelo",
    "the size of the plot": "el tamaño del terreno",
    "the state": "el estado",
    "the stock of the store": "las existencias de la tienda",
    "the winter chill of the place": "el frío invernal del lugar",
    "the winter chill of the place in chill portions": "el frío invernal del lugar en porciones de frío",
    "whether fruit trees stood here before": "si antes hubo frutales aquí",
    "whether summers are dry or humid": "si los veranos son secos o húmedos",
    "which fruit trees stand near": "qué frutales hay cerca",
}  # fmt: skip


def needed(words: str, language: Language) -> str:
    """What is asked for, in the language of the reader where there are words for it.

    >>> needed("the state", "es"), needed("the state", "en")
    ('el estado', 'the state')
    """
    return SPANISH.get(words, words) if language == "es" else words
