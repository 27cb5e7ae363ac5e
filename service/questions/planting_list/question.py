"""The planting list as a question and as an answer, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from service.domain.checked_list import Addition, HarvestChart, NoRepairReason, Repair, Sketch, Totals, Verdict, worst
from service.domain.climate import ClimateSummary
from service.domain.planting_list import ReadLine, ReadList, ReadName, Skipped, Source
from service.domain.site import Site, StandingTree, Wishes
from service.domain.store import StockItem
from service.questions.planting_list.tree import TreeHere
from service.questions.suggestion import Candidate
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]
_MIDDLE_TURN = 5


@dataclass(frozen=True, slots=True)
class ListPlace:
    """Where the trees of a list go: the place, the wishes, what stands there, the state, and what the store has.

    `existing_trees` and `stock` are None where nobody said; empty means that there is nothing.
    """

    site: Site = field(default_factory=Site)
    wishes: Wishes = field(default_factory=Wishes)
    existing_trees: tuple[StandingTree, ...] | None = None
    climate: ClimateSummary | None = None
    state: str | None = None
    stock: tuple[StockItem, ...] | None = None


@dataclass(frozen=True, slots=True)
class PlantingListQuestion:
    """Will this list work at this place?"""

    read: ReadList
    place: ListPlace = field(default_factory=ListPlace)


@dataclass(frozen=True, slots=True)
class CheckedName:
    """One name of a line, judged; `tree` is None where nobody knows what was meant.

    `substitutes` are the nearest cultivars that fit, looked for where this one does not or the stock is short of it;
    `short_by` is by how many trees, None where the stock is not known.
    """

    name: ReadName | None
    tree: TreeHere | None
    judgement: Judgement
    substitutes: tuple[Candidate, ...] = ()
    short_by: int | None = None

    @property
    def verdict(self) -> Verdict:
        """What rules conclude; a line on which no rule concludes anything asks for care."""
        return self.judgement.concluded.get("verdict", "caution")  # type: ignore[return-value]


@dataclass(frozen=True, slots=True)
class CheckedLine:
    """One line of the list with its judged names; `repeats` is the number of the earlier line that asks the same."""

    line: ReadLine
    names: tuple[CheckedName, ...]
    repeats: int | None = None

    @property
    def verdict(self) -> Verdict:
        """The worst of its names."""
        return worst(name.verdict for name in self.names)

    @property
    def turn(self) -> float:
        """Its place in the order of planting; what no rule puts first or last stands in the middle."""
        turns = [name.judgement.concluded.get("planting_turn") for name in self.names]
        return max((float(turn) for turn in turns if isinstance(turn, int | float)), default=_MIDDLE_TURN)


@dataclass(frozen=True, slots=True)
class Mended:
    """The cheapest repair, and the list as it is judged after it; or why there is none."""

    repair: Repair | None = None
    after: CheckedList | None = None
    reason: NoRepairReason | None = None


@dataclass(frozen=True, slots=True)
class CheckedList:
    """The whole list judged. `whole` is False where it is too long to be looked at as a whole: then each line is judged
    by itself, and there is neither sketch nor chart, addition nor repair.

    `order` names lines in the order of planting. `not_judged` are facts that rules ask about and nobody told.
    """

    place: ListPlace
    site: Site
    site_facts: Facts
    lines: tuple[CheckedLine, ...]
    judgement: Judgement
    totals: Totals
    whole: bool
    skipped: tuple[Skipped, ...] = ()
    sources: tuple[Source, ...] = ()
    limits_hit: tuple[str, ...] = ()
    sketch: Sketch | None = None
    harvest: HarvestChart | None = None
    addition: Addition | None = None
    mended: Mended | None = None
    order: tuple[int, ...] = ()
    not_judged: tuple[str, ...] = ()

    @property
    def verdict(self) -> str:
        """What rules conclude of the list as a whole."""
        return str(self.judgement.concluded.get("list_verdict", "passes_with_care"))
