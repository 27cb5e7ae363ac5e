"""The words of headings and cells in what goes out of a checked planting list, in English and Spanish."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.units import Language

Texts = Mapping[Language, str]

WORDS: Mapping[str, Texts] = {
    "title": {"en": "Planting list, checked", "es": "Lista de plantación, revisada"},
    "made": {"en": "Checked on {day}. Rules: edition {digest}.", "es": "Revisada el {day}. Reglas: edición {digest}."},
    "totals": {
        "en": "{lines}, {trees}. {verdicts}",
        "es": "{lines}, {trees}. {verdicts}",
    },
    "place": {"en": "Judged for: {known}.", "es": "Juzgada para: {known}."},
    "no_place": {"en": "Judged without knowing the place.", "es": "Juzgada sin conocer el lugar."},
    "p_hardiness_zone": {"en": "hardiness zone {value}", "es": "zona de rusticidad {value}"},
    "p_chill_hours": {"en": "{value} of winter chill", "es": "{value} de frío invernal"},
    "p_chill_portions": {"en": "{value}", "es": "{value}"},
    "p_plot": {"en": "a plot of {value}", "es": "un terreno de {value}"},
    "p_by": {"en": "{width} by {depth}", "es": "{width} por {depth}"},
    "p_max_height_ft": {"en": "trees of at most {value}", "es": "árboles de hasta {value}"},
    "p_sun_hours": {"en": "{value} of sun", "es": "{value} de sol"},
    "p_state": {"en": "state {value}", "es": "estado {value}"},
    "line_one": {"en": "1 line", "es": "1 línea"},
    "lines": {"en": "{count} lines", "es": "{count} líneas"},
    "tree_one": {"en": "1 tree", "es": "1 árbol"},
    "trees": {"en": "{count} trees", "es": "{count} árboles"},
    "passes": {"en": "The list works at this place.", "es": "La lista funciona en este lugar."},
    "passes_with_care": {"en": "The list works here with care.", "es": "La lista funciona aquí, con cuidado."},
    "does_not_pass": {"en": "The list does not work here as it stands.",
                      "es": "Tal como está, la lista no funciona aquí."},
    "fits": {"en": "fits", "es": "va bien"},
    "caution": {"en": "fits with care", "es": "va bien, con cuidado"},
    "does_not_fit": {"en": "does not fit", "es": "no va bien"},
    "not_recognised": {"en": "not recognised", "es": "no reconocido"},
    "h_list": {"en": "The list as a whole", "es": "La lista en conjunto"},
    "h_lines": {"en": "Line by line", "es": "Línea por línea"},
    "h_mend": {"en": "The list mended, with what changes", "es": "La lista corregida, con lo que cambia"},
    "h_add": {"en": "To add for pollination", "es": "Por añadir para la polinización"},
    "h_order": {"en": "Order of planting", "es": "Orden de plantación"},
    "h_sketch": {"en": "Planting sketch", "es": "Croquis de plantación"},
    "h_mended_sketch": {"en": "Planting sketch of the mended list", "es": "Croquis de la lista corregida"},
    "h_harvest": {"en": "Harvest", "es": "Cosecha"},
    "h_cautions": {"en": "Take care", "es": "Cuidado"},
    "h_ask": {"en": "Not judged, for nobody told us", "es": "Sin juzgar, porque nadie lo dijo"},
    "h_sources": {"en": "Who says so", "es": "Quién lo dice"},
    "h_limits": {"en": "Not read", "es": "Sin leer"},
    "c_line": {"en": "Line", "es": "Línea"},
    "c_written": {"en": "As written, and as we read it", "es": "Como está escrito y como se leyó"},
    "c_verdict": {"en": "Verdict", "es": "Dictamen"},
    "c_findings": {"en": "What to know", "es": "Qué saber"},
    "c_read_as": {"en": "Read as", "es": "Leído como"},
    "c_crop": {"en": "Crop", "es": "Cultivo"},
    "c_root": {"en": "Judged on rootstock", "es": "Juzgado sobre portainjerto"},
    "c_trees": {"en": "Trees", "es": "Árboles"},
    "c_fit": {"en": "Fit, 0 to 100", "es": "Aptitud, 0 a 100"},
    "c_spacing": {"en": "Distance between trees", "es": "Distancia entre árboles"},
    "c_height": {"en": "Grows to", "es": "Llega a"},
    "c_harvest": {"en": "Picked", "es": "Cosecha"},
    "c_stock": {"en": "In stock", "es": "En existencia"},
    "c_short": {"en": "Short by", "es": "Faltan"},
    "c_substitutes": {"en": "Nearest that fit", "es": "Lo más parecido que va bien"},
    "c_why": {"en": "Why", "es": "Por qué"},
    "c_change": {"en": "Change", "es": "Cambio"},
    "c_cultivar": {"en": "Variety", "es": "Variedad"},
    "c_rootstock": {"en": "Rootstock", "es": "Portainjerto"},
    "c_cell": {"en": "Written {number}", "es": "Escrito {number}"},
    "s_summary": {"en": "Summary", "es": "Resumen"},
    "s_list": {"en": "List", "es": "Lista"},
    "s_mended": {"en": "Mended list", "es": "Lista corregida"},
    "read": {"en": "read as {what}", "es": "leído como {what}"},
    "guessed": {"en": "{what} (a guess; ask)", "es": "{what} (una suposición; pregunte)"},
    "several": {"en": "could be {what}", "es": "puede ser {what}"},
    "on": {"en": "{what} on {root}", "es": "{what} sobre {root}"},
    "or": {"en": "or", "es": "o"},
    "no_name": {"en": "no name read", "es": "no se leyó ningún nombre"},
    "keep": {"en": "as listed", "es": "como está"},
    "rootstock": {"en": "other rootstock", "es": "otro portainjerto"},
    "replace": {"en": "other variety", "es": "otra variedad"},
    "drop": {"en": "left out", "es": "se omite"},
    "added": {"en": "added", "es": "se añade"},
    "m_rootstock": {"en": "Line {line}: take {what} instead of the root listed.",
                    "es": "Línea {line}: tome {what} en vez del portainjerto indicado."},
    "m_replace": {"en": "Line {line}: plant {what} in place of {was}.",
                  "es": "Línea {line}: plante {what} en lugar de {was}."},
    "m_drop": {"en": "Line {line}: leave out {what}.", "es": "Línea {line}: omita {what}."},
    "m_added": {"en": "Add {what}, the partner of {serves}.", "es": "Añada {what}, polinizador de {serves}."},
    "m_added_alone": {"en": "Add {what}.", "es": "Añada {what}."},
    "m_after": {"en": "After these changes: {verdict}", "es": "Tras estos cambios: {verdict}"},
    "m_none": {"en": "No change of a few trees makes this list work.",
               "es": "Ningún cambio de unos pocos árboles hace que la lista funcione."},
    "in_stock": {"en": "{what} ({count} in stock)", "es": "{what} ({count} en existencia)"},
    "unserved": {"en": "No partner is known for {names}.", "es": "No se conoce polinizador para {names}."},
    "order": {"en": "{season}: {names}", "es": "{season}: {names}"},
    "more_lines": {"en": "Here stand the lines that need most; the other {count} are in the spreadsheet.",
                   "es": "Aquí están las líneas que más necesitan; las otras {count}, en la hoja de cálculo."},
    "more_changes": {"en": "And {count} more, in the spreadsheet.", "es": "Y {count} más, en la hoja de cálculo."},
    "more_findings": {"en": "More stands in the spreadsheet.", "es": "Hay más en la hoja de cálculo."},
    "more_sources": {"en": "and {count} more in the spreadsheet", "es": "y {count} más en la hoja de cálculo"},
    "from_memory": {"en": "some of it recalled, not read anew", "es": "en parte citado de memoria, sin releer"},
    "common_practice": {"en": "What names no source is common practice.",
                        "es": "Lo que no cita fuente es práctica común."},
    "page": {"en": "Page {page} of {pages}", "es": "Página {page} de {pages}"},
    "nothing_drawn": {"en": "Nothing to draw: the size of the plot and the time of harvest are not known.",
                      "es": "Nada que dibujar: no se conocen el tamaño del terreno ni la época de cosecha."},
    "reply": {"en": "Your planting list", "es": "Su lista de plantación"},
    "greeting": {"en": "Hello,", "es": "Buenos días:"},
    "thanks": {
        "en": "thank you for your list. We have checked each tree against your place; this is what we found.",
        "es": "gracias por su lista. Revisamos cada árbol según su lugar; esto es lo que encontramos.",
    },
    "attached": {
        "en": "Attached are your list as a spreadsheet with our columns beside yours, and a sheet to print.",
        "es": "Adjuntamos su lista en hoja de cálculo, con nuestras columnas junto a las suyas, y una hoja impresa.",
    },
    "closing": {"en": "Write or come by with your questions.", "es": "Escríbanos o visítenos con sus preguntas."},
}  # fmt: skip
SKIPPED: Mapping[str, Texts] = {
    "heading": {"en": "headings", "es": "encabezados"},
    "crop_heading": {"en": "a heading with the crop", "es": "un encabezado con el cultivo"},
    "total": {"en": "a total", "es": "un total"},
    "comment": {"en": "words, no tree", "es": "palabras, ningún árbol"},
    "empty_of_trees": {"en": "no tree", "es": "ningún árbol"},
}

SEASONS: Mapping[str, Texts] = {
    "autumn_or_winter": {"en": "Autumn or winter", "es": "Otoño o invierno"},
    "late_winter": {"en": "Late winter", "es": "Fines del invierno"},
    "early_spring": {"en": "Early spring", "es": "Principios de la primavera"},
    "after_last_frost": {"en": "After the last frost", "es": "Después de la última helada"},
}


def said(key: str, language: Language, **values: object) -> str:
    """A text of this room with its values.

    >>> said("more_lines", "en", count=3)
    'Here stand the lines that need most; the other 3 are in the spreadsheet.'
    """
    return WORDS[key][language].format(**values)


def counted(count: int, one: str, many: str, *, language: Language) -> str:
    """A number of things.

    >>> counted(1, "line_one", "lines", language="en"), counted(3, "tree_one", "trees", language="es")
    ('1 line', '3 árboles')
    """
    shown = f"{count:,}" if language == "en" else str(count)
    return said(one, language) if count == 1 else said(many, language, count=shown)
