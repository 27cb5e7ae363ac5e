"""What a customer takes home: the answers of one visit as headings, sentences and dates, and nothing that was typed.

The sheet is plain data. It is made of the answers alone, so that no name, no address and no word that somebody wrote
can stand in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from service.domain.units import Language
from service.present.hand_out import care, trees, trouble
from service.present.hand_out.topic import Scribe
from service.present.hand_out.words import TITLE

TOPICS: Mapping[str, Callable[[Scribe], dict[str, Any]]] = {
    "variety-suggestions": trees.varieties,
    "thinning-plans": care.thinning,
    "pruning-plans": care.pruning,
    "season-plans": care.year,
    "diagnoses": trouble.diagnosis,
    "treatment-pointers": trouble.treatment,
    "planting-lists": trees.planting_list,
}
Answered = tuple[str, Mapping[str, Any]]


def hand_out_sheet(answered: Sequence[Answered], *, on: date, language: Language) -> dict[str, Any]:
    """The sheet of these answers, each a noun of a question and the envelope that answered it."""
    return {
        "language": language,
        "title": TITLE[language],
        "made_on": on.isoformat(),
        "rulebook": answered[0][1]["rulebook"],
        "topics": [TOPICS[noun](Scribe(noun, told["answer"], language)) for noun, told in answered],
        "cautions": _cautions(answered),
        "sources": _sources(answered),
        "dated": [tree for noun, told in answered for tree in care.dated_trees(noun, told["answer"])],
    }


def _cautions(answered: Iterable[Answered]) -> list[str]:
    return list(dict.fromkeys(one["text"] for _, told in answered for one in told["cautions"]))


def _sources(answered: Iterable[Answered]) -> list[str]:
    """Who stands behind the sentences that are told, each once."""
    cited = (source for noun, told in answered for one in _told(noun, told) for source in one["sources"])
    return sorted({", ".join(part for part in (one["title"], one["publisher"]) if part) for one in cited})


def _told(noun: str, told: Mapping[str, Any]) -> Iterable[Mapping[str, Any]]:
    """The conclusions that a sheet speaks of: not those on products and trees that it leaves out."""
    answer = told["answer"]
    named = {one["cultivar"] for name in ("suggestions", "considered") for one in answer.get(name, ())}
    named |= {one["product"] for one in answer.get("products", ()) if one["verdict"] != "forbidden"}
    narrow = noun in ("variety-suggestions", "treatment-pointers")
    return (one for one in told["conclusions"] if not narrow or one["about"] is None or one["about"] in named)
