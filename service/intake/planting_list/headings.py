"""What the columns of a list are called, in English and Spanish, in any order and wording."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from service.knowledge.spelling import spaced

Role = Literal["quantity", "name", "crop", "rootstock", "size", "price", "total", "note", "ignored"]
_EXACT: dict[Role, str] = {
    "quantity": "qty|quantity|quant|q|no|nr|number|count|how many|trees|no trees|amount|amt|pcs|pieces|units"
                "|cant|cantidad|cantidades|unidades|uds|num|numero|n|anzahl|ordered|order|trees wanted|arboles|ct"
                "|no of trees|menge|stuck|stueck",
    "name": "variety|varieties|cultivar|cultivars|name|tree name|item name|item|description|plant|plants|selection"
            "|variedad|variedades|nombre|cultivar name|sorte|fruit variety|product|producto|descripcion|choice"
            "|first choice|tree|variety name|articulo|what|name of tree|arbol|nombre de variedad|plant name",
    "crop": "crop|fruit|type|kind|species|fruit type|tree type|fruit tree|category|group|fruta|tipo|cultivo|especie"
            "|frutal|clase|obstart|type of fruit|type of tree|tipo de fruta|kind of tree|kind of fruit",
    "rootstock": "rootstock|root stock|root|rs|r s|understock|portainjerto|portainjertos|patron|pie|unterlage|roots",
    "size": "size|container|pot|pot size|container size|caliper|height|form|format|grade|tamano|maceta|contenedor"
            "|altura|calibre|formato|tree size|gal|gallons|presentacion",
    "price": "price|unit price|each|price each|cost|unit cost|rate|retail|precio|precio unitario|costo|preis|usd|eur"
             "|price usd|price ea|ea|precio c u|unit|msrp",
    "total": "total|ext|extended|line total|subtotal|importe|total price|ext price|amount due|sum|total usd",
    "note": "note|notes|comment|comments|remark|remarks|notas|nota|observaciones|comentarios|comentario|instructions"
            "|special instructions|location|where|placement|spot|ubicacion|lugar|second choice|substitute|sub"
            "|2nd choice|alternative|segunda opcion|purpose|use|uso",
    "ignored": "sku|item no|item number|code|codigo|id|line|row|date|fecha|zone|zona|chill|chill hours|page|bin|lot"
               "|barcode|upc|status|plu|catalog no|catalogue no|ref|done|ok|ripens|harvest|pollination|bloom|linea",
}  # fmt: skip
_PARTS: tuple[tuple[Role, re.Pattern[str]], ...] = (
    ("ignored", re.compile(r"\b(?:sku|code|codigo|date|fecha|zone|chill|barcode|ripen\w*|harvest|bloom)\b")),
    ("rootstock", re.compile(r"\b(?:rootstock|root stock|portainjerto|patron|understock)\b")),
    ("quantity", re.compile(r"\b(?:qty|quantity|how many|cantidad|cuantos|number of|no of)\b")),
    ("total", re.compile(r"\b(?:total|extended|subtotal)\b")),
    ("price", re.compile(r"\b(?:price|cost|precio|costo)\b")),
    ("note", re.compile(r"\b(?:notes?|comments?|remarks?|notas?|observaciones|instructions|substitute|location)\b")),
    ("size", re.compile(r"\b(?:size|container|caliper|tamano|maceta|height)\b")),
    ("name", re.compile(r"\b(?:variety|cultivar|variedad|name|nombre|description|descripcion)\b")),
    ("crop", re.compile(r"\b(?:fruit|crop|species|fruta|cultivo|especie)\b")),
)
_ROLES: dict[str, Role] = {word: role for role, words in _EXACT.items() for word in words.split("|")}
_BROAD = frozenset(
    ("tree", "plant", "plants", "item", "what", "arbol", "product", "producto", "articulo", "description")
)
_LONGEST = 40
_ROWS = 25


def role_of(text: str) -> Role | None:
    """What a column of that heading holds; None where the heading says nothing.

    >>> role_of("Qty."), role_of("Root-stock"), role_of("Variedad"), role_of("# of trees"), role_of("Liberty")
    ('quantity', 'rootstock', 'name', 'quantity', None)
    """
    bare = spaced(text.replace("#", " no ")) if len(text) <= _LONGEST else ""
    if bare in _ROLES:
        return _ROLES[bare]
    if not bare and text.strip() in ("$", "€"):
        return "price"
    return next((role for role, pattern in _PARTS if bare and pattern.search(bare)), None)


def heading_row(rows: Sequence[Sequence[str]], known: Sequence[bool]) -> int | None:
    """The place of the row of headings among the first rows; `known` says which rows hold a name of the catalogue."""
    for place, cells in enumerate(rows[:_ROWS]):
        filled = [cell for cell in cells if cell.strip()]
        roles = [role for cell in filled if (role := role_of(cell))]
        if known[place] or not roles or any(len(cell) > _LONGEST for cell in filled):
            continue
        single = len(filled) == 1 and roles[0] == "name" and max(len(row) for row in rows) <= 2 and place < 3
        if single or (len(set(roles)) >= 2 and len(roles) * 2 >= len(filled)):
            return place
    return None


def roles_of(cells: Sequence[str]) -> tuple[Role | None, ...]:
    """The role of each column: one column holds the names, a broader word beside it ("tree") is the crop's.

    >>> roles_of(["Tree", "Variety", "Qty", "Price", "Where"])
    ('crop', 'name', 'quantity', 'price', 'note')
    """
    told = [role_of(cell) for cell in cells]
    names = [place for place, role in enumerate(told) if role == "name"]
    best = next((place for place in names if spaced(cells[place]) not in _BROAD), names[0] if names else None)
    roles: list[Role | None] = []
    for place, first in enumerate(told):
        other: Role = "crop" if spaced(cells[place]) in _BROAD and "crop" not in told else "note"
        role = other if first == "name" and place != best else first
        roles.append(role if role in ("note", "ignored") or role not in roles else None)
    if best is None and "crop" in roles:
        roles[roles.index("crop")] = "name"
    return tuple(roles)
