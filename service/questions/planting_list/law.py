"""What an authority keeps under regulation of the crops on a list: in the state, and on nursery stock anywhere."""

from __future__ import annotations

from service.knowledge.catalogue import Catalogue
from service.reasoning.vocabulary import Value

_NURSERY = frozenset({"nursery_regulated", "state_quarantine", "federal_quarantine"})


def law_facts(crops: frozenset[str], state: str | None, catalogue: Catalogue) -> dict[str, Value]:
    """What is regulated of these crops; what hangs on the state is left out where nobody named one."""
    regulated = (one for one in catalogue.disorders.values() if one.regulated in _NURSERY)
    nursery = sorted(one.id for one in regulated if not crops.isdisjoint(one.hosts))
    facts: dict[str, Value] = {"quarantine.nursery": tuple(nursery)}
    if state is None:
        return facts
    here = [
        one
        for one in catalogue.label.treatments.values()
        if state in one.regulated_in and one.id in catalogue.disorders and not crops.isdisjoint(one.crops)
    ]
    return facts | {
        "quarantine.state": state,
        "quarantine.here": tuple(sorted(one.id for one in here)),
        "quarantine.crops": tuple(sorted({crop for one in here for crop in one.crops if crop in crops})),
    }
