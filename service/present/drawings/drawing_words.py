"""The words that stand in drawings, in both languages."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.units import Language

SKETCH: Mapping[str, Mapping[Language, str]] = {
    "title": {"en": "Planting sketch to scale", "es": "Croquis de plantación a escala"},
    "plot": {
        "en": "Plot {width} wide and {depth} deep, {count} trees with the width that they grow to.",
        "es": "Terreno de {width} de ancho y {depth} de fondo, {count} árboles con el ancho que alcanzan.",
    },
    "plot_one": {
        "en": "Plot {width} wide and {depth} deep, one tree with the width that it grows to.",
        "es": "Terreno de {width} de ancho y {depth} de fondo, un árbol con el ancho que alcanza.",
    },
    "plot_none": {
        "en": "Plot {width} wide and {depth} deep; none of the trees goes in.",
        "es": "Terreno de {width} de ancho y {depth} de fondo; no cabe ninguno de los árboles.",
    },
    "place": {
        "en": "{tag} {name}: {x} from the left, {y} from the front, grows {spread} wide.",
        "es": "{tag} {name}: a {x} de la izquierda, a {y} del frente, alcanza {spread} de ancho.",
    },
    "stands": {"en": "stands already", "es": "ya está plantado"},
    "front": {"en": "front", "es": "frente"},
    "depth": {"en": "depth", "es": "fondo"},
    "goes_on": {
        "en": "The plot goes on where its edge is broken.",
        "es": "El terreno sigue donde su borde es discontinuo.",
    },
    "left_over": {"en": "No room was found for: {trees}.", "es": "No hubo lugar para: {trees}."},
    "of_line": {"en": "{trees} of line {line}", "es": "{trees} de la línea {line}"},
    "note": {
        "en": "Places are measured from the left front corner. Where north lies is not known.",
        "es": "Las medidas parten de la esquina izquierda del frente. No se sabe dónde queda el norte.",
    },
    "tag": {"en": "Line", "es": "Línea"},
    "name": {"en": "Tree", "es": "Árbol"},
    "x": {"en": "From the left", "es": "De la izquierda"},
    "y": {"en": "From the front", "es": "Del frente"},
    "spread": {"en": "Grows wide", "es": "Ancho adulto"},
    "nearest": {"en": "Nearest trunk", "es": "Tronco vecino"},
    "trees": {"en": "Trees", "es": "Árboles"},
}

HARVEST: Mapping[str, Mapping[Language, str]] = {
    "title": {"en": "Harvest by month and tree", "es": "Cosecha por mes y árbol"},
    "row": {"en": "{name}: {first} to {last}", "es": "{name}: del {first} al {last}"},
    "per_week": {"en": "Trees in picking by week", "es": "Árboles por semana"},
    "busiest": {
        "en": "The fullest week begins on {day}: {trees} trees in picking, {share}% of those drawn.",
        "es": "La semana más cargada empieza el {day}: {trees} árboles en cosecha, el {share} % de los dibujados.",
    },
    "busiest_one": {
        "en": "The fullest week begins on {day}: one tree in picking, {share}% of those drawn.",
        "es": "La semana más cargada empieza el {day}: un árbol en cosecha, el {share} % de los dibujados.",
    },
    "gap": {"en": "none", "es": "nada"},
    "gaps": {"en": "Months without harvest between: {months}.", "es": "Meses intermedios sin cosecha: {months}."},
    "more": {"en": "… and {count} more, counted below", "es": "… y {count} más, contados abajo"},
    "unknown": {
        "en": "Not drawn: {count} trees whose time of harvest nobody published.",
        "es": "Sin dibujar: {count} árboles cuya época de cosecha nadie ha publicado.",
    },
    "unknown_one": {
        "en": "Not drawn: one tree whose time of harvest nobody published.",
        "es": "Sin dibujar: un árbol cuya época de cosecha nadie ha publicado.",
    },
    "estimate": {
        "en": "A broken edge is an estimate from the ripening class or from another cultivar.",
        "es": "Un borde discontinuo es una estimación por la clase de maduración o por otra variedad.",
    },
}

MONTHS: Mapping[Language, tuple[str, ...]] = {
    "en": ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
    "es": ("ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"),
}
