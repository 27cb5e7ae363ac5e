"""What is known of active ingredients, and of what can be done about a disorder, measures before products."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, get_args

from service.domain.cut import Wording
from service.domain.disorder import MeasureKind
from service.domain.label import BeeClass, LabelStage, MoaScheme

ActiveKind = Literal[
    "insecticide", "miticide", "fungicide", "bactericide", "oil", "soap", "synergist", "barrier", "antibiotic",
    "microbial", "botanical", "copper", "fumigant",
]  # fmt: skip
ACTIVE_KINDS: tuple[ActiveKind, ...] = get_args(ActiveKind)
Refusal = Literal[
    "cancelled", "home_use_cancelled", "home_use_withdrawn", "no_home_label", "not_for_edible_trees", "withdrawn"
]  # fmt: skip
REFUSALS: tuple[Refusal, ...] = get_args(Refusal)
Rating = Literal["excellent", "good", "fair", "poor", "none", "not_rated"]
RATINGS: tuple[Rating, ...] = get_args(Rating)
Pointer = Literal["products", "none", "report"]
POINTERS: tuple[Pointer, ...] = get_args(Pointer)
PestKind = Literal["fungus", "bacterium", "oomycete", "insect", "mite", "regulated", "vertebrate"]
PEST_KINDS: tuple[PestKind, ...] = get_args(PestKind)


@dataclass(frozen=True, slots=True)
class Moa:
    """The group of its mode of action; `code` None: the scheme gives it none."""

    scheme: MoaScheme
    code: str | None
    source: str


@dataclass(frozen=True, slots=True)
class UsualInterval:
    """Days before harvest that labels for a crop usually print; the printed label rules, never this."""

    min_days: int
    max_days: int
    source: str


@dataclass(frozen=True, slots=True)
class Injury:
    """Harm to a crop (or to `any`) that an active is known for."""

    crop: str
    effect: str
    source: str


@dataclass(frozen=True, slots=True)
class Active:
    """One active ingredient by its ISO common name.

    `bee_class` None: no table gave one. `farm_reentry_hours` stands on farm labels and binds no home planting.
    `refuse` is why no pointer may name it; None: it may be pointed to where the label allows.
    """

    iso_name: str
    cas: str | None
    kinds: tuple[ActiveKind, ...]
    moa: Moa
    home_status: str
    organic_eligible: bool | None
    usual_crops: tuple[str, ...] = ()
    usual_intervals: Mapping[str, UsualInterval] = field(default_factory=lambda: MappingProxyType({}))
    farm_reentry_hours: int | None = None
    farm_reentry_source: str | None = None
    bee_class: BeeClass | None = None
    bee_source: str | None = None
    systemic: bool = False
    injuries: tuple[Injury, ...] = ()
    weather: tuple[str, ...] = ()
    rotation: str | None = None
    refuse: Refusal | None = None
    sources: tuple[str, ...] = ()
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class TreatmentMeasure:
    """Something to do without a product: a measure of rules/measures.yaml, and `how` it is done for this cause.

    `when` empty: at any time.
    """

    id: str
    kind: MeasureKind
    what: Wording
    when: tuple[LabelStage, ...] = ()
    how: Wording | None = None


@dataclass(frozen=True, slots=True)
class TreatmentOption:
    """How an active did against the disorder in a published table; `when` empty: as the disorder's own timing."""

    active: str
    rating: Rating
    published: str
    source: str
    when: tuple[LabelStage, ...] = ()
    note: str | None = None
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Treatment:
    """What can be done about one disorder.

    `pointer` none: no product helps; report: the plant health agency is called before anything is done. `stages` are
    those in which a product can help, empty: none is named. `any_stage`: no stage is better than another.
    `regulated_in`: states that regulate it. `name` is given for what is no disorder of our crops and still stands on
    labels.
    """

    id: str
    kind: PestKind
    crops: tuple[str, ...]
    measures: tuple[TreatmentMeasure, ...]
    options: tuple[TreatmentOption, ...]
    pointer: Pointer
    stages: tuple[LabelStage, ...] = ()
    any_stage: bool = False
    timing: Wording | None = None
    do_not: tuple[Wording, ...] = ()
    regulated_in: tuple[str, ...] = ()
    regulated_from_memory: bool = False
    name: str | None = None
    sources: tuple[str, ...] = ()
    from_memory: bool = False

    def actives(self) -> tuple[str, ...]:
        """The actives that a table names, each once, in the order of the file."""
        return tuple(dict.fromkeys(option.active for option in self.options))

    def ratings(self, active: str) -> tuple[Rating, ...]:
        """The ratings that tables give this active, each once, the best first; naming it counts where none rates it."""
        found = {option.rating for option in self.options if option.active == active}
        return tuple(rating for rating in RATINGS if rating in (found - {"not_rated"} or found))
