"""The few words that a hand-out adds to what the answers say, in English and Spanish."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from service.domain.units import Language, month_text

Texts = Mapping[Language, str]

TITLE: Texts = {"en": "Advice for your fruit trees", "es": "Consejos para sus frutales"}
TAKE_CARE: Texts = {"en": "Take care", "es": "Cuidado"}
SOURCES: Texts = {"en": "Who says so", "es": "Quién lo dice"}
OF_SHEET: Mapping[str, Texts] = {
    "made": {"en": "Given on {day}.", "es": "Dado el {day}."},
    "expires": {
        "en": "This page can be opened until {day}. It holds nothing that says who you are.",
        "es": "Esta página se puede abrir hasta el {day}. No contiene nada que diga quién es usted.",
    },
    "calendar": {"en": "Put the dates into your calendar", "es": "Poner las fechas en su calendario"},
    "pdf": {"en": "Sheet to print (PDF)", "es": "Hoja para imprimir (PDF)"},
    "code": {"en": "Opens this page on a phone", "es": "Abre esta página en un teléfono"},
    "rulebook": {"en": "Rules: edition {digest}.", "es": "Reglas: edición {digest}."},
}
TITLES: Mapping[str, Texts] = {
    "variety-suggestions": {"en": "Trees that suit your place", "es": "Árboles que convienen a su lugar"},
    "thinning-plans": {"en": "Thinning the fruit: {tree}", "es": "Aclareo de la fruta: {tree}"},
    "pruning-plans": {"en": "Pruning: {tree}", "es": "Poda: {tree}"},
    "season-plans": {"en": "The year of your trees", "es": "El año de sus árboles"},
    "diagnoses": {"en": "What is wrong: {tree}", "es": "Qué le pasa: {tree}"},
    "treatment-pointers": {"en": "Against {cause}: {tree}", "es": "Contra {cause}: {tree}"},
    "planting-lists": {"en": "Your planting list", "es": "Su lista de plantación"},
}
HEADINGS: Mapping[str, Texts] = {
    "steps": {"en": "What to do", "es": "Qué hacer"},
    "later": {"en": "Not now", "es": "Ahora no"},
    "set": {"en": "A set that goes together", "es": "Un conjunto que va bien"},
    "fit": {"en": "These fit", "es": "Éstos convienen"},
    "misfit": {"en": "These do not fit", "es": "Éstos no convienen"},
    "look": {"en": "Look at this next", "es": "Mire esto ahora"},
    "bring": {"en": "What to bring", "es": "Qué traer"},
    "measures": {"en": "What helps without a product", "es": "Lo que ayuda sin un producto"},
    "leave": {"en": "Leave this", "es": "Esto no"},
    "products": {"en": "Products whose label fits", "es": "Productos cuya etiqueta lo permite"},
    "before": {"en": "Before you spray, look at", "es": "Antes de aplicar, mire"},
    "whole": {"en": "The list as a whole", "es": "La lista en conjunto"},
    "lines": {"en": "Line by line", "es": "Línea por línea"},
}
PHRASES: Mapping[str, Texts] = {
    "on": {"en": "on {root}", "es": "sobre {root}"},
    "apart": {"en": "{feet} apart", "es": "a {feet} uno de otro"},
    "high": {"en": "grows to {feet}", "es": "llega a {feet}"},
    "picked": {"en": "picked {days}", "es": "cosecha {days}"},
    "alone": {"en": "bears alone", "es": "da fruto solo"},
    "partners": {"en": "needs another variety near it", "es": "necesita otra variedad cerca"},
    "come_back": {"en": "come back {days}", "es": "vuelva {days}"},
    "allowed": {"en": "the label allows it", "es": "la etiqueta lo permite"},
    "caution": {"en": "only with care", "es": "sólo con cuidado"},
    "fits": {"en": "fits", "es": "conviene"},
    "care": {"en": "fits with care", "es": "conviene con reservas"},
    "does_not_fit": {"en": "does not fit", "es": "no conviene"},
    "not_recognised": {"en": "a name that we do not know", "es": "un nombre que no conocemos"},
    "invented": {"en": "invented product, for trying out", "es": "producto inventado, para probar"},
    "registration": {"en": "EPA Reg. No. {number}", "es": "N.º de reg. EPA {number}"},
    "passes": {"en": "The list passes.", "es": "La lista está bien."},
    "passes_with_care": {"en": "The list passes with care.", "es": "La lista pasa, con reservas."},
    "does_not_pass": {"en": "The list does not pass yet.", "es": "La lista aún no está bien."},
    "now": {"en": "now", "es": "ahora"},
}


def day_of(text: str, *, language: Language) -> str:
    """A day as people say it.

    >>> day_of("2026-04-09", language="en"), day_of("04-09", language="es")
    ('April 9, 2026', '9 de abril')
    """
    full = len(text) > len("04-09")
    day = date.fromisoformat(text if full else f"2024-{text}")
    month = month_text(day.month, language=language)
    if language == "es":
        return f"{day.day} de {month}" + (f" de {day.year}" if full else "")
    return f"{month} {day.day}" + (f", {day.year}" if full else "")


def days_of(first: str, last: str, *, language: Language) -> str:
    """A span of days as people say it.

    >>> days_of("09-20", "10-05", language="en"), days_of("09-20", "09-20", language="en")
    ('September 20 – October 5', 'September 20')
    """
    days = dict.fromkeys(day_of(day, language=language) for day in (first, last))
    return " – ".join(days)
