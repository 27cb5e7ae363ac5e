"""What binds the use of a product besides its label: the law of states, and what follows from the kind of an active."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Literal, get_args

from service.domain.treatment import Active

StateTopic = Literal[
    "retail_bar", "pest_on_label", "adviser_licence", "farm_adviser_licence", "quarantine", "control_duty",
    "exempt_registration",
]  # fmt: skip
STATE_TOPICS: tuple[StateTopic, ...] = get_args(StateTopic)
Family = Literal[
    "antibiotic", "captan", "carbaryl", "chlorothalonil", "copper", "lime_sulfur", "neonicotinoid", "oil",
    "phosphonate", "pyrethroid", "soap", "sulfur",
]  # fmt: skip
FAMILIES: tuple[Family, ...] = get_args(Family)


@dataclass(frozen=True, slots=True)
class StateLaw:
    """One thing that a state adds to the label; `starts` None: it has long been so."""

    id: str
    state: str
    topic: StateTopic
    says: str
    sources: tuple[str, ...]
    actives: tuple[str, ...] = ()
    pests: tuple[str, ...] = ()
    starts: date | None = None
    from_memory: bool = False

    def binds(self, state: str, day: date) -> bool:
        """Whether it is in force in a state on a day."""
        return self.state == state and (self.starts is None or day >= self.starts)


@dataclass(frozen=True, slots=True)
class ActiveFamily:
    """Actives that share what they do to plants, bees or the law; one match of name, group or kind is enough."""

    id: Family
    actives: tuple[str, ...] = ()
    moa: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()

    def holds(self, iso_name: str, active: Active | None) -> bool:
        """Whether an active belongs here; None: it is not among the actives that we know, and only its name counts."""
        if iso_name in self.actives:
            return True
        if active is None:
            return False
        return f"{active.moa.scheme} {active.moa.code}" in self.moa or not set(self.kinds).isdisjoint(active.kinds)


@dataclass(frozen=True, slots=True)
class UseLaw:
    """The law of states, the families of actives, and groups of mode of action that may be repeated."""

    states: Mapping[str, StateLaw] = field(default_factory=lambda: MappingProxyType({}))
    families: Mapping[str, ActiveFamily] = field(default_factory=lambda: MappingProxyType({}))
    many_sites: frozenset[str] = frozenset()

    def of_state(self, topic: StateTopic, state: str, day: date) -> tuple[StateLaw, ...]:
        """What is in force on a topic in a state on a day."""
        return tuple(law for law in self.states.values() if law.topic == topic and law.binds(state, day))

    def families_of(self, iso_name: str, active: Active | None) -> tuple[Family, ...]:
        """The families of an active, in the order of the file."""
        return tuple(family.id for family in self.families.values() if family.holds(iso_name, active))
