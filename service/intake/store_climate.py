"""Reads the climate of a store: what staff reckon with where a customer knows nothing of their own place.

A store writes it once from its nearest weather station (`fruitwright climate` sums a series up) and names the file in
its settings. `rules/demo/climate.yaml` shows the form.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from service.domain.errors import KnowledgeFault, NotUnderstood
from service.domain.month_day import read_month_day
from service.domain.site import Site, read_zone
from service.domain.store import StoreClimate, StoreWinter
from service.knowledge.strict_yaml import Mapping, read

FACTS = ("hardiness_zone", "chill_hours", "chill_portions", "latitude", "last_spring_frost", "first_autumn_frost",
         "summer", "rain", "rains_begin")  # fmt: skip
_READ: dict[str, Callable[[str], Any]] = {
    "hardiness_zone": read_zone,
    **dict.fromkeys(("last_spring_frost", "first_autumn_frost", "rains_begin"), read_month_day),
}


def read_store_climate(file: Path) -> StoreClimate:
    """The climate in a file; a fact that cannot be is a fault with its line."""
    shown = f"{file.parent.name}/{file.name}"
    data = read(file, shown_as=shown)
    facts = data.get("facts", Mapping())
    _refuse_unknown(shown, facts)
    values = {name: _value(shown, facts, name) for name in facts}
    try:
        Site(**values)
    except NotUnderstood as fault:
        raise KnowledgeFault(shown, facts.line, str(fault)) from None
    return StoreClimate(data["name"], data["invented"], dict(facts), tuple(_winters(data.get("winters", ()))))


def _refuse_unknown(shown: str, facts: Mapping) -> None:
    for name in facts:
        if name not in FACTS:
            raise KnowledgeFault(shown, facts.key_lines[name], f"'{name}' is none of {', '.join(FACTS)}")


def _value(shown: str, facts: Mapping, name: str) -> Any:
    try:
        return _READ[name](facts[name]) if name in _READ else facts[name]
    except ValueError as fault:
        raise KnowledgeFault(shown, facts.key_lines[name], str(fault)) from None


def _winters(told: list[Mapping] | tuple[()]) -> Iterator[StoreWinter]:
    for one in told:
        yield StoreWinter(one["winter"], one.get("chill_hours"), one.get("chill_portions"))
