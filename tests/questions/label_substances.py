"""What the active ingredients of the leak search are, written down a second time from the published tables.

Bee classes: UC IPM (I not on flowering plants, II only at night if the label allows, III no care beyond the label).
Groups: IRAC and FRAC lists. Refused: cancelled, withdrawn or never labelled for homes (from memory).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Substance(NamedTuple):
    """One active: what it works against and is made of, bee class of insecticides, whether nobody may point to it."""

    kinds: frozenset[str]
    bees: str | None = None
    scheme: str = "none"
    group: str = ""
    refused: bool = False


def _of(kinds: str, bees: str | None = None, group: str = "none ", *, refused: bool = False) -> Substance:
    scheme, _, code = group.partition(" ")
    return Substance(frozenset(kinds.split()), bees, scheme, code, refused)


SUBSTANCES: Mapping[str, Substance] = {
    "acetamiprid": _of("insecticide neonicotinoid systemic", "II", "IRAC 4A"),
    "imidacloprid": _of("insecticide neonicotinoid systemic", "I", "IRAC 4A"),
    "azadirachtin": _of("insecticide", "II", "IRAC UN"),
    "Bacillus thuringiensis subsp. kurstaki": _of("insecticide", "III", "IRAC 11A"),
    "carbaryl": _of("insecticide carbaryl", "I", "IRAC 1A"),
    "malathion": _of("insecticide", "I", "IRAC 1B"),
    "zeta-cypermethrin": _of("insecticide pyrethroid", "I", "IRAC 3A"),
    "lambda-cyhalothrin": _of("insecticide pyrethroid", "I", "IRAC 3A"),
    "permethrin": _of("insecticide pyrethroid", "I", "IRAC 3A"),
    "spinosad": _of("insecticide", "II", "IRAC 5"),
    "kaolin": _of("insecticide barrier", None),
    "mineral oil": _of("insecticide miticide fungicide oil", "II", "IRAC UNM"),
    "clarified hydrophobic extract of neem oil": _of("insecticide miticide fungicide oil", "II", "IRAC UNE"),
    "potassium salts of fatty acids": _of("insecticide miticide soap", None),
    "sulfur": _of("fungicide miticide sulfur", "III", "FRAC M02"),
    "calcium polysulfide": _of("fungicide insecticide lime_sulfur", None, "FRAC M02"),
    "captan": _of("fungicide captan", None, "FRAC M04"),
    "myclobutanil": _of("fungicide", None, "FRAC 3"),
    "chlorothalonil": _of("fungicide chlorothalonil", None, "FRAC M05"),
    "copper octanoate": _of("fungicide bactericide copper", None, "FRAC M01"),
    "basic copper sulfate": _of("fungicide bactericide copper", None, "FRAC M01"),
    "streptomycin": _of("bactericide antibiotic", None, "FRAC 25"),
    "diazinon": _of("insecticide", None, "IRAC 1B", refused=True),
    "benomyl": _of("fungicide", None, "FRAC 1", refused=True),
    "oxytetracycline": _of("bactericide antibiotic", None, "FRAC 41", refused=True),
}
