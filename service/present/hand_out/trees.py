"""Topics on which trees to plant: suggestions and planting lists."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.domain.units import quantity_text
from service.present.hand_out.topic import Scribe, joined
from service.present.hand_out.words import days_of

MOST_TREES = 8
_LINE_WORDS = {"fits": "fits", "caution": "care", "does_not_fit": "does_not_fit", "not_recognised": "not_recognised"}


def varieties(scribe: Scribe) -> dict[str, Any]:
    """The set that goes together, then each that fits, then what was asked about and does not."""
    answer = scribe.answer
    best = (answer["planting_set"] or {}).get("best")
    named = [one for one in answer["considered"] if one["fits"]]
    fitting = {one["cultivar"]: one for one in (*named, *answer["suggestions"])}
    scribe.add("set", (_tree_line(scribe, one) for one in (best["trees"] if best else ())))
    scribe.add("fit", [_tree_line(scribe, one) for one in fitting.values()][:MOST_TREES])
    scribe.add("misfit", (_misfit(one) for one in answer["considered"] if not one["fits"]))
    return scribe.topic()


def planting_list(scribe: Scribe) -> dict[str, Any]:
    """Each line with what it comes to and what to do, then the list as a whole."""
    answer = scribe.answer
    scribe.add("lines", (_listed(scribe, one) for one in answer["lines"]))
    scribe.add("whole", (one["text"] for one in answer["list_findings"] if one["outcome"] != "say"))
    return scribe.topic(scribe.phrase(answer["verdict"]))


def _tree_line(scribe: Scribe, tree: Mapping[str, Any]) -> str:
    root, spacing, harvest = tree["rootstock"], tree["spacing_ft"], tree["harvest"]
    return joined(
        f"{tree['name']} ({tree['crop_name']})",
        root and scribe.phrase("on", root=root["name"]),
        spacing and scribe.phrase("apart", feet=quantity_text(spacing, "ft", language=scribe.language)),
        _height(scribe, tree),
        harvest and scribe.phrase("picked", days=days_of(harvest["from"], harvest["to"], language=scribe.language)),
        _pollen(scribe, tree),
    )


def _height(scribe: Scribe, tree: Mapping[str, Any]) -> str | None:
    high = (tree.get("mature_height_ft") or {}).get("high")
    return high and scribe.phrase("high", feet=quantity_text(high, "ft", language=scribe.language))


def _pollen(scribe: Scribe, tree: Mapping[str, Any]) -> str | None:
    needed = (tree.get("pollination") or {}).get("partners_needed")
    return None if needed is None else scribe.phrase("partners" if needed else "alone")


def _misfit(tree: Mapping[str, Any]) -> str:
    against = [one["text"] for one in tree["reasons"] if one["outcome"] in ("forbid", "set_aside")]
    return f"{tree['name']}: {' '.join(against)}"


def _listed(scribe: Scribe, line: Mapping[str, Any]) -> str:
    """A line by the names it was read as; what was written and nobody knows may be a person's name, and is left out."""
    strange = [name["written"] for name in line["read_as"] if not name["name"]]
    names = [name["name"] for name in line["read_as"] if name["name"]]
    root = line["rootstock"] and line["rootstock"]["name"]
    what = joined(" / ".join(names) or f"{line['line']}.", root and scribe.phrase("on", root=root))
    count = f"{line['trees']} × " if names and line["trees"] > 1 else ""
    told = [one["text"] for one in line["findings"] if one["outcome"] != "say"] if names else []
    findings = " ".join(text for text in told if not any(each in text for each in strange))
    return f"{count}{what}: {scribe.phrase(_LINE_WORDS[line['verdict']])}. {findings}".rstrip()
