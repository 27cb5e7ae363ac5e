"""What a label record must hold, how registration numbers look, and how printed crop names are read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, get_args

from service.domain.label import SignalWord, ToxicityCategory

FieldNeed = Literal["always", "registered", "distributor", "exempt", "home_label", "edible_crop", "if_printed"]
FIELD_NEEDS: tuple[FieldNeed, ...] = get_args(FieldNeed)


@dataclass(frozen=True, slots=True)
class LabelField:
    """One field of a record: what it holds, where on the label it stands, when it is needed and what asks for it.

    `needed` registered: not for minimum-risk products; exempt: only for those; home_label: where home use is allowed.
    """

    id: str
    meaning: str
    where: str
    needed: FieldNeed
    sources: tuple[str, ...]
    regulation: str | None = None


@dataclass(frozen=True, slots=True)
class NumberForms:
    """Patterns of the numbers on a label, matched from end to end.

    `registration` by type of registration; `not_registered` is a number of a product that is not registered yet;
    `invented` can never be issued and marks a record made up for demonstration.
    """

    registration: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    establishment: str = ""
    not_registered: str = ""
    invented: str = ""


@dataclass(frozen=True, slots=True)
class PrintedCrop:
    """A crop name as labels print it: the crops that it takes in, those it never does, and what staff must find out."""

    printed: str
    reads_as: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    ask: str | None = None


@dataclass(frozen=True, slots=True)
class RiskCondition:
    """One condition of the exemption for minimum-risk products; `checks` names the field that tells."""

    id: str
    says: str
    sources: tuple[str, ...]
    checks: str | None = None
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class LabelModel:
    """What records are held to; `other_crops` are on labels though the service does not know them otherwise.

    `also_called`: other ids of crops that records may use.
    """

    fields: Mapping[str, LabelField] = field(default_factory=lambda: MappingProxyType({}))
    numbers: NumberForms = NumberForms()
    printed_crops: Mapping[str, PrintedCrop] = field(default_factory=lambda: MappingProxyType({}))
    minimum_risk: Mapping[str, RiskCondition] = field(default_factory=lambda: MappingProxyType({}))
    signal_words: Mapping[ToxicityCategory, tuple[SignalWord, ...]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    other_crops: tuple[str, ...] = ()
    also_called: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    def crop(self, name: str) -> str:
        """The id of a crop that a record calls by this id."""
        return self.also_called.get(name, name)
