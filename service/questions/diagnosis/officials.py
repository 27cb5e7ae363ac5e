"""Which disorders officials must be asked about: everywhere, or because the state of the place regulates them."""

from __future__ import annotations

from collections.abc import Iterable

from service.domain.disorder import Disorder
from service.knowledge.catalogue import Catalogue
from service.reasoning.vocabulary import Value

_EVERYWHERE = ("eradicated_report", "federal_quarantine", "report_if_suspected")


def regulated_in(state: str | None, disorder: Disorder, catalogue: Catalogue) -> bool | None:
    """Whether a state regulates a disorder; None where nobody named one, or no state is known to regulate it."""
    treatment = catalogue.label.treatments.get(disorder.id)
    laws = catalogue.use_law.states.values()
    states = {one.state for one in laws if one.topic == "quarantine" and disorder.id in one.pests}
    states.update(treatment.regulated_in if treatment else ())
    return state in states if state is not None and states else None


def official_facts(likelier: Iterable[Disorder], state: str | None, catalogue: Catalogue) -> dict[str, Value]:
    """What officials have to do with the likelier suspects."""
    suspects = tuple(likelier)
    here = tuple(one.id for one in suspects if regulated_in(state, one, catalogue))
    asked = any(one.do_not_move or one.regulated in _EVERYWHERE or one.id in here for one in suspects)
    facts: dict[str, Value] = {"answer.regulated_suspected": asked}
    return facts if state is None else {**facts, "answer.regulated_in_state": here}
