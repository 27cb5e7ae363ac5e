"""A use of a product as somebody asks about it: on which tree, against what, when, where, and after what.

None is what nobody told. A use says nothing of how much: that stands on the label.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Literal, get_args

from service.domain.label import LabelRecord, LabelStage, Method

CustomerKind = Literal["home", "commercial"]
CUSTOMER_KINDS: tuple[CustomerKind, ...] = get_args(CustomerKind)
AlsoAsked = Literal["rate", "home_mixture", "washing", "off_label", "safety_claim"]
ALSO_ASKED: tuple[AlsoAsked, ...] = get_args(AlsoAsked)
OWN_STOCK = "own_stock"


@dataclass(frozen=True, slots=True)
class Applied:
    """One use in the past; `record` None: only the actives were told."""

    on: date
    actives: tuple[str, ...]
    product: str | None = None
    record: LabelRecord | None = None


@dataclass(frozen=True, slots=True)
class Offered:
    """A product that is asked about: a version of the shelf, a record of its own, or stock that the customer owns."""

    id: str
    record: LabelRecord
    version: int | None = None
    owned: bool = False


@dataclass(frozen=True, slots=True)
class Container:
    """What the customer reads on the container in hand."""

    epa_reg_no: str | None = None
    label_version_date: date | None = None
    actives: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class DayWeather:
    """The weather of the day of use, as forecast."""

    temp_f: float | None = None
    high_f: float | None = None
    low_48h_f: float | None = None
    wind_mph: float | None = None
    rain_in_hours: float | None = None
    heavy_rain_24h: bool | None = None


@dataclass(frozen=True, slots=True)
class UsePlace:
    """What lies under and beside the tree; `understory_crops` None: nobody asked, empty: nothing edible."""

    understory_crops: tuple[str, ...] | None = None
    understory_coverable: bool | None = None
    water_ft: float | None = None
    drain: bool | None = None
    ground_bloom: bool | None = None
    hive_ft: float | None = None
    play_area: bool | None = None
    pets: bool | None = None
    quarantine_area: bool | None = None


@dataclass(frozen=True, slots=True)
class TreatedTree:
    """The state of the tree."""

    drought_stressed: bool | None = None
    nonbearing: bool = False
    no_crop: bool | None = None


@dataclass(frozen=True, slots=True)
class Customer:
    """Who asks, and who would spray."""

    kind: CustomerKind = "home"
    certified: bool = False
    organic: bool = False
    for_hire: bool = False
    applicator_age: int | None = None


@dataclass(frozen=True, slots=True)
class Cause:
    """What is to be treated: named, or the likeliest of a diagnosis with its likelihood."""

    id: str
    confidence: float | None = None
    look_alike_open: bool = False
    symptoms: bool | None = None
    inside_fruit: bool | None = None
    cut_out: bool | None = None
    new_to_place: bool | None = None
    new_generation: bool = False

    @property
    def diagnosed(self) -> bool:
        """Whether it comes from a diagnosis."""
        return self.confidence is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One use that is asked about, whatever the product."""

    crop: str
    cause: Cause
    on: date
    cultivar: str | None = None
    stage: LabelStage | None = None
    state: str | None = None
    harvest_from: date | None = None
    full_bloom: date | None = None
    method: Method | None = None
    log: tuple[Applied, ...] = ()
    weather: DayWeather = DayWeather()
    place: UsePlace = UsePlace()
    tree: TreatedTree = TreatedTree()
    customer: Customer = Customer()
    exposure: bool = False
    also_asked: tuple[AlsoAsked, ...] = ()
    pest_recommendation: bool = False
    adviser_licensed: bool = False
    tank_mix: tuple[Offered, ...] = ()
    containers: tuple[tuple[str, Container], ...] = field(default=())

    @property
    def past(self) -> tuple[Applied, ...]:
        """What was put on this tree, the latest first."""
        return tuple(sorted(self.log, key=lambda one: one.on, reverse=True))

    @property
    def this_year(self) -> tuple[Applied, ...]:
        """What was put on this tree in the year of the use, the latest first."""
        return tuple(one for one in self.past if one.on.year == self.on.year)

    def container_of(self, product: str) -> Container | None:
        """What the customer reads on the container of a product."""
        return next((found for name, found in self.containers if name == product), None)
