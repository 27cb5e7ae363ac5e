"""How the words of the vocabulary read to a person, in English and Spanish.

In English most read as they are written, with spaces; the exceptions stand here. In Spanish each has its word.
"""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.units import Language

_ENGLISH: Mapping[str, str] = {
    "self_fertile": "self-fertile",
    "partly_self_fertile": "partly self-fertile",
    "self_sterile": "self-sterile",
    "pollen_sterile": "pollen-sterile",
    "non_astringent": "non-astringent",
    "pollination_variant": "dependent on pollination",
    "early_to_mid": "early to mid-season",
    "mid": "mid-season",
    "mid_to_late": "mid-season to late",
    "open_centre": "open centre",
    "multi_stem_bush": "multi-stemmed bush",
    "juice_cider": "juice and cider",
    "offset": "days from another cultivar",
}

_SPANISH: Mapping[str, str] = {
    # the place
    "good": "bueno",
    "moderate": "moderado",
    "poor": "malo",
    "dry": "seco",
    "humid": "húmedo",
    "given": "dato del cliente",
    "series": "serie de datos del tiempo",
    "estimate": "estimación",
    # seasons
    "very_early": "muy temprano",
    "early": "temprano",
    "early_to_mid": "temprano a medio",
    "mid": "de media estación",
    "mid_to_late": "medio a tardío",
    "late": "tardío",
    "very_late": "muy tardío",
    # what a statement rests on
    "cultivar": "el cultivar",
    "crop": "el cultivo en general",
    "rootstock": "el portainjerto",
    "hours": "horas",
    "portions": "porciones",
    "cultivar_dates": "fechas del cultivar",
    "ripening_class": "época de maduración",
    "offset": "días respecto a otro cultivar",
    "share_of_seedling": "proporción de un árbol de semilla",
    # botany and pollination
    "pome": "frutal de pepita",
    "stone": "frutal de hueso",
    "nut": "frutal de nuez",
    "other": "otro",
    "astringent": "astringente",
    "non_astringent": "no astringente",
    "pollination_variant": "dependiente de la polinización",
    "self_fertile": "autofértil",
    "partly_self_fertile": "parcialmente autofértil",
    "self_sterile": "autoestéril",
    "pollen_sterile": "de polen estéril",
    "needs_caprification": "necesita caprificación",
    "compatible": "compatible",
    "partly_compatible": "parcialmente compatible",
    "incompatible": "incompatible",
    "unknown": "desconocido",
    "none": "ninguno",
    # the root
    "permanent": "permanente",
    "while_young": "mientras es joven",
    "tender": "sensible al frío",
    "hardy": "resistente al frío",
    "very_hardy": "muy resistente al frío",
    "tolerates": "tolera",
    "dislikes": "no tolera bien",
    "very_precocious": "muy precoz",
    "precocious": "precoz",
    "slow": "lento",
    "resistant": "resistente",
    "tolerant": "tolerante",
    "susceptible": "susceptible",
    # diseases
    "apple_scab": "sarna del manzano",
    "bacterial_canker": "cancro bacteriano",
    "bacterial_spot": "mancha bacteriana",
    "black_knot": "nudo negro",
    "brown_rot": "podredumbre parda",
    "cedar_apple_rust": "roya del manzano y del cedro",
    "fire_blight": "tizón de fuego",
    "peach_leaf_curl": "enrulamiento de la hoja del duraznero",
    "perennial_canker": "cancro perenne",
    "plum_leaf_scald": "escaldadura de la hoja del ciruelo",
    "powdery_mildew": "oídio",
    # conclusions
    "too_little": "demasiado poco",
    "short": "escaso",
    "enough": "suficiente",
    "ample": "abundante",
    "far_more": "mucho más de lo necesario",
    "too_cold": "demasiado frío",
    "borderline": "al límite",
    "bloom_at_risk": "floración en riesgo",
    "clear": "sin riesgo",
    "after_frost": "después de la helada",
    "close": "justo a tiempo",
    "before_frost": "antes de la helada",
    "too_far": "demasiado lejos",
    "apart": "en otra época",
    "alone": "fructifica solo",
    "better_with_partner": "mejor con otro cultivar",
    "partner_standing": "ya hay un polinizador",
    "partner_needed": "necesita un polinizador",
    "two_partners_needed": "necesita dos polinizadores",
    "cannot_be_provided": "no se puede resolver",
    "open_centre": "vaso abierto",
    "central_leader": "eje central",
    "modified_leader": "eje modificado",
    "fan": "abanico",
    "horizontal_tiers": "espaldera horizontal",
    "hedge": "seto",
    "small_tree_kept_low": "árbol pequeño mantenido bajo",
    "multi_stem_bush": "arbusto de varios tallos",
    "on_wires": "sobre alambres",
    "kept_low": "mantenido bajo",
    "root_alone": "el portainjerto solo",
    "root_and_pruning": "el portainjerto y la poda",
    "pruning_every_summer": "poda cada verano",
    "cannot": "no es posible",
    "unsuited": "inadecuado",
    "doubtful": "dudoso",
    "suited": "adecuado",
    "serious": "grave",
    "slight": "leve",
    "helpful": "favorable",
}


def choice_text(word: str, *, language: Language = "en") -> str:
    """A word of the vocabulary as it reads in a sentence; one without a translation reads as in English.

    >>> choice_text("partly_self_fertile"), choice_text("root_alone"), choice_text("late", language="es")
    ('partly self-fertile', 'root alone', 'tardío')
    """
    if language == "es" and word in _SPANISH:
        return _SPANISH[word]
    return _ENGLISH.get(word) or word.replace("_", " ")
