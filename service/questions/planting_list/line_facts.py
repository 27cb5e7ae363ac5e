"""One name of a line as facts: how it was read, the root and the size that the line asks for, and how often."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.checked_list import Repeats
from service.domain.planting_list import ReadLine, ReadName, ReadSize
from service.domain.rootstock import Rootstock
from service.knowledge.catalogue import Catalogue
from service.reasoning.vocabulary import Fact, Value

_LONGEST = 120
_OTHER_CROP = "rootstock_of_another_crop"
Open = dict[str, Value | None]


def line_facts(
    line: ReadLine, name: ReadName | None, repeats: Repeats, *, catalogue: Catalogue
) -> Open:
    """What is known of the line for this name, before anything is said of the tree; what is unknown is None."""
    facts: Open = {
        "line.marks": line.marks,
        "line.names": len(line.names),
        "line.quantity": line.quantity,
        "line.trees": line.trees,
        "line.repeats": repeats,
        **_name(line, name, catalogue),
        **_root(line, name, catalogue.rootstocks),
    }
    if line.size is not None:
        facts |= _size(line.size)
    return facts


def within(facts: Open, testable: Mapping[str, Fact]) -> dict[str, Value]:
    """The facts that are known; counts beyond the range of the vocabulary stand at its end, other figures are left out.

    A list may ask for any number of trees and a cell may hold any figure, and neither may stop the rules.
    """
    kept = ((name, _in_range(testable[name], value)) for name, value in facts.items())
    return {name: value for name, value in kept if value is not None}


def _in_range(fact: Fact, value: Value | None) -> Value | None:
    if fact.type != "number" or not isinstance(value, int | float) or fact.low <= value <= fact.high:
        return value
    return int(min(max(value, fact.low), fact.high)) if fact.unit == "count" else None


def _name(line: ReadLine, name: ReadName | None, catalogue: Catalogue) -> Open:
    if name is None:
        return {"line.written": _short(line.written) or "?", "line.how": "no_name", "line.alternatives": 0}
    others = [one for one in name.alternatives if one.id != name.cultivar]
    crop = None if name.crop is None else catalogue.crops.get(name.crop)
    facts: Open = {
        "line.written": _short(name.written) or _short(line.written) or "?",
        "line.how": name.how,
        "line.alternatives": len(others),
        "line.first_alternative": others[0].name if others else None,
    }
    if name.cultivar is None and crop is not None:
        facts |= {"line.crop": crop.id, "line.crop_kind": crop.kind}
    return facts


def _root(line: ReadLine, name: ReadName | None, rootstocks: Mapping[str, Rootstock]) -> Open:
    if line.rootstock is None:
        return {}
    asked = line.rootstock
    known = None if asked.rootstock is None else rootstocks.get(asked.rootstock)
    crop = None if name is None else name.crop
    other = known is not None and crop is not None and crop not in known.crops
    return {
        "line.root_written": _short(asked.written) or None,
        "line.root_how": asked.how,
        "line.root_of_other_crop": other or _OTHER_CROP in line.marks,
    }


def _size(size: ReadSize) -> Open:
    return {
        "line.size_tree": size.tree,
        "line.form": size.form,
        "line.container_gal": size.container,
        "line.caliper_in": None if size.caliper_in is None else size.caliper_in[0],
        "line.sold_height_ft": None if size.height_ft is None else size.height_ft[0],
    }


def _short(text: str) -> str:
    """A text that goes into a sentence.

    >>> _short("  a  long   name ")
    'a long name'
    """
    plain = " ".join(text.split())
    return plain if len(plain) <= _LONGEST else plain[: _LONGEST - 1] + "…"
