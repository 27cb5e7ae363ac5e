"""Words of the year of a tree in Spanish, and the few sentences that a calendar and a year strip add of their own."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.units import Language

SPANISH: Mapping[str, str] = {
    # stages
    "delayed_dormant": "fin del reposo",
    "pink": "botón de color",
    "petal_fall": "caída de pétalos",
    "shuck_split": "caída del cáliz",
    "june_drop": "caída de junio",
    "pit_hardening": "endurecimiento del hueso",
    "fruit_sizing": "engorde",
    "harvest": "cosecha",
    "postharvest": "después de la cosecha",
    "full_bloom": "plena floración",
    "last_spring_frost": "última helada de primavera",
    "first_autumn_frost": "primera helada de otoño",
    "rains_begin": "comienzo de las lluvias",
    # parts of the work
    "planting": "plantación",
    "frost": "heladas",
    "pruning": "poda",
    "feeding": "abonado",
    "water": "riego",
    "thinning": "aclareo",
    "pests": "plagas y enfermedades",
    "protection": "protección",
    "sanitation": "limpieza",
    # the place and the tree
    "sand": "arena",
    "loam": "franco",
    "clay": "arcilla",
    "bare": "suelo desnudo",
    "mulch": "acolchado",
    "grass": "césped",
    "leaf_curl": "abolladura",
    "scab": "sarna",
    "codling_moth": "carpocapsa",
    "brown_rot": "podredumbre parda",
    "shot_hole": "cribado",
    "bacterial_canker": "chancro bacteriano",
    "aphids": "pulgones",
    "scale": "cochinillas",
    "mites": "ácaros",
    "borers": "barrenadores",
    "birds": "pájaros",
    "spotted_wing_fruit_fly": "drosófila de alas manchadas",
    "voles": "topillos",
    "sunburn": "quemadura de sol",
    "fruit_cracking": "rajado de frutos",
    # what things rest on
    "observed": "observado",
    "estimated": "estimado",
    "neighbour": "lugar vecino",
    "last_year": "el año anterior",
    "region": "región",
    "temperatures": "temperaturas",
    "young_tree": "árbol joven",
    "first_year": "primer año",
    "age": "edad",
    "trunk": "tronco",
    "cap": "tope",
    "mild_wet": "suave y lluvioso",
    "mild_dry": "suave y seco",
    "freezing": "con heladas",
    "less": "menos",
    "usual": "lo usual",
    "more": "más",
}
ESTIMATE: Mapping[Language, str] = {
    "en": "The dates are an estimate; they may come {days} earlier or later.",
    "es": "Las fechas son una estimación; pueden adelantarse o atrasarse {days}.",
}
BY_CALENDAR: Mapping[Language, str] = {
    "en": "The dates follow the calendar and not this tree.",
    "es": "Las fechas siguen el calendario y no a este árbol.",
}
IF_SEEN: Mapping[Language, str] = {
    "en": "Only where it shows.",
    "es": "Sólo donde se presente.",
}
CALENDAR_NAME: Mapping[Language, str] = {"en": "The year of your fruit trees", "es": "El año de sus frutales"}
LEGEND: Mapping[Language, str] = {
    "en": "Full line: seen or by the calendar. Broken line: estimate; the thin line shows how early or late it may "
    "come. White bar: leave it alone.",
    "es": "Línea entera: observado o según el calendario. Línea cortada: estimación; la línea fina muestra cuánto "
    "puede adelantarse o atrasarse. Barra blanca: no hacerlo.",
}
STAGES: Mapping[Language, str] = {"en": "stages", "es": "estados"}
BLOOM: Mapping[Language, str] = {"en": "full bloom {day}", "es": "plena floración {day}"}
