"""Whether the service can answer: the rulebook is loaded, both matchers agree, the database answers and is migrated."""

from __future__ import annotations

from dataclasses import dataclass

from service.parts import Parts
from service.reasoning.accord import AccordFault, check_accord
from service.storage.migration import newest_revision, revision_of

FEW_CASES = 8  # the start compares many; this only shows that both still answer


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was looked at, and what was found."""

    name: str
    ok: bool
    detail: str


def checks_of(parts: Parts) -> tuple[Check, ...]:
    """Look at everything that a question needs."""
    return (_rulebook(parts), _matchers(parts), _database(parts))


def _rulebook(parts: Parts) -> Check:
    rules = len(parts.rulebook.rules)
    return Check("rulebook", rules > 0, f"{rules} rules are loaded, digest {parts.rulebook.digest[:12]}.")


def _matchers(parts: Parts) -> Check:
    try:
        compared = check_accord(parts.rulebook, parts.asking, parts.sweeping, cases=FEW_CASES)
    except AccordFault as fault:
        return Check("matchers", False, str(fault))
    return Check("matchers", True, f"Both matchers judge {compared} cases alike.")


def _database(parts: Parts) -> Check:
    if not parts.database.answers():
        return Check("database", False, "The database cannot be reached.")
    stands_at, wanted = revision_of(parts.database), newest_revision()
    if stands_at != wanted:
        return Check("database", False, f"The database stands at {stands_at}, not at {wanted}: fruitwright db upgrade.")
    return Check("database", True, "The database answers and is migrated.")
