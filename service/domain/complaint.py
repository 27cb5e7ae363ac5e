"""A complaint as customers bring it to the counter, with the causes that it may have and the signs to ask for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

ComplaintGroup = Literal["cropping", "growth_and_leaves", "structure", "trunk", "fruit_damage", "advice"]
COMPLAINT_GROUPS: tuple[ComplaintGroup, ...] = get_args(ComplaintGroup)


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause that a complaint may have: a disorder of the knowledge, or in words where none stands there.

    `from_memory`: the sources name a wider cause, and that it is this disorder was recalled.
    """

    disorder: str | None
    name: str
    name_es: str
    sources: tuple[str, ...]
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Complaint:
    """One complaint: `says` are the words of customers; `signs` are those that it makes worth asking for.

    `crops` is empty where any crop may have it. `shows` are signs that the complaint itself states.
    """

    id: str
    group: ComplaintGroup
    name: str
    name_es: str
    says: tuple[str, ...]
    says_es: tuple[str, ...]
    causes: tuple[Cause, ...]
    crops: tuple[str, ...] = ()
    shows: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()

    @property
    def disorders(self) -> tuple[str, ...]:
        """The disorders among its causes."""
        return tuple(cause.disorder for cause in self.causes if cause.disorder is not None)
