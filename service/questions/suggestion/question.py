"""The variety question and its answer, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from service.compute.harvest import Window
from service.compute.planting_set import GivenUp
from service.domain.climate import ClimateSummary
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.rootstock import Rootstock
from service.domain.site import Site, StandingTree, Wishes
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class SuggestionQuestion:
    """What will fruit here? `consider` names cultivars (by id) that are answered for even where they do not fit.

    `existing_trees` is None where nobody said which trees stand there, and empty where there are none.
    """

    site: Site
    wishes: Wishes = field(default_factory=Wishes)
    existing_trees: tuple[StandingTree, ...] | None = None
    consider: tuple[str, ...] = ()
    climate: ClimateSummary | None = None
    limit: int | None = None


@dataclass(frozen=True, slots=True)
class RootChoice:
    """A rootstock for a crop at this place; `rootstock` is None where the catalogue knows none for the crop.

    `facts` is what a cultivar on this root takes over from it.
    """

    crop: Crop
    rootstock: Rootstock | None
    facts: Facts
    judgement: Judgement

    @property
    def fits(self) -> bool:
        """Whether no rule sets the root aside here."""
        return not (self.judgement.set_aside or self.judgement.forbidden)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One cultivar judged for this place, on the root chosen for it.

    `fits` says that no rule sets aside the cultivar, nor every root that could bear it.
    """

    cultivar: Cultivar
    crop: Crop
    root: RootChoice
    harvest: Window | None
    judgement: Judgement
    fit: int
    fits: bool

    @property
    def facts(self) -> Facts:
        """All that is known of this cultivar at this place on this root."""
        return self.judgement.facts


@dataclass(frozen=True, slots=True)
class Partners:
    """Whose pollen serves a cultivar, by cultivar id: standing trees, and the fittest others for this place.

    `likely` ones are what the usual advice names, though nobody has shown it of the pair.
    """

    standing: tuple[str, ...] = ()
    proven: tuple[str, ...] = ()
    likely: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlantingPlan:
    """A set of trees to plant together; `months` are the calendar months in which one of them is picked.

    `partners` names for each tree the cultivars here whose pollen serves it; `unproven` are trees whose partners
    usually serve, though nobody has shown it of this pair.
    """

    trees: tuple[Candidate, ...]
    months: tuple[int, ...]
    points: float
    partners: Mapping[str, tuple[str, ...]]
    unproven: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlantingChoice:
    """The best set, the second best, and what the second gives up against the best."""

    best: PlantingPlan
    second: PlantingPlan | None = None
    given_up: GivenUp | None = None


@dataclass(frozen=True, slots=True)
class CropTally:
    """How one crop does at the place: cultivars judged, those that fit, and the fittest of them."""

    crop: Crop
    judged: int
    fitting: int
    best: Candidate | None


@dataclass(frozen=True, slots=True)
class SuggestionAnswer:
    """The answer: cultivars in order of fit, those set aside, those asked about, and a set to plant.

    `partners` and `other_roots` stand by cultivar id, for those that are shown in full. `not_judged` names the facts of
    the place that rules ask about and nobody told.
    """

    question: SuggestionQuestion
    site: Site
    site_facts: Facts
    site_judgement: Judgement
    suggestions: tuple[Candidate, ...]
    set_aside: tuple[Candidate, ...]
    considered: tuple[Candidate, ...]
    partners: Mapping[str, Partners]
    other_roots: Mapping[str, tuple[RootChoice, ...]]
    planting: PlantingChoice | None
    crops: tuple[CropTally, ...]
    not_judged: tuple[str, ...]
