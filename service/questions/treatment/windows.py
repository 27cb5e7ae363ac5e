"""The days of a product: the first picking after a use, the last use before it, and when the label opens again."""

from __future__ import annotations

from datetime import date

from service.compute.label_days import earliest_harvest, first_day_again, first_day_of_next_year
from service.domain.label_use import Use
from service.questions.treatment.log_facts import PAIRS, Log
from service.questions.treatment.question import Dates, Facts
from service.reasoning.rulebook import Rulebook


def dates_of(log: Log, facts: Facts, rulebook: Rulebook) -> Dates:
    """What the label and the log say of days; nothing where the label does not print the crop."""
    use, phi = log.use, log.direction.phi_days
    if not log.is_printed:
        return Dates()
    return Dates(
        earliest_harvest=None if phi is None else earliest_harvest(use.on, phi),
        last_use_before_harvest=_last_use(use, phi),
        opens_again=_opens_again(log, facts, rulebook),
    )


def _last_use(use: Use, phi: int | None) -> date | None:
    harvest = use.harvest_from
    return None if phi is None or harvest is None or harvest < use.on else first_day_again(harvest, -phi)


def _opens_again(log: Log, facts: Facts, rulebook: Rulebook) -> date | None:
    """The first day on which no gap and no count keeps the product back; None where none does today."""
    use, ends = log.use, [log.gaps_end()]
    for pair in PAIRS:
        limit, met = rulebook.limits.get(f"treatment.{pair}.days"), log.met(pair)
        if met is not None and limit is not None and not facts.get(f"product.{pair}_printed"):
            ends.append(first_day_again(met.on, int(limit.value)))
    left = facts.get("product.uses_left")
    if isinstance(left, int) and left <= 0:
        ends.append(first_day_of_next_year(use.on))
    return max((end for end in ends if end is not None and end > use.on), default=None)


