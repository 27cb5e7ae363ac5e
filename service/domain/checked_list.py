"""What a look at a planting list comes to, in values without rules: verdicts, sums, the sketch, the harvest, changes.

Days are days of the season as everywhere (see `service.domain.month_day`), lengths are feet, and trees are told by the
line that asks for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Literal, get_args

from service.domain.planting_list import Currency

Verdict = Literal["fits", "caution", "does_not_fit", "not_recognised"]
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)
RootBasis = Literal["listed", "size_word", "best_here", "none"]
Repeats = Literal["never", "same_tree", "other_root"]
Change = Literal["keep", "rootstock", "replace", "drop"]
NoRepairReason = Literal["no_choice_fits", "no_pollen", "no_room"]


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of the verdicts; what nobody recognised comes last of all, and nothing at all fits.

    >>> worst(["fits", "does_not_fit", "caution"])
    'does_not_fit'
    """
    return max(verdicts, key=VERDICTS.index, default="fits")


@dataclass(frozen=True, slots=True)
class Sketched:
    """One tree on the sketch: where its trunk stands from the left front corner, and how wide it grows."""

    line: int
    cultivars: tuple[str, ...]
    x_ft: float
    y_ft: float
    spread_ft: float
    nearest_ft: float | None = None


@dataclass(frozen=True, slots=True)
class Stood:
    """A tree that stands on the plot already; of one whose cultivar nobody knows the crop is told."""

    crop: str
    cultivars: tuple[str, ...]
    x_ft: float
    y_ft: float
    spread_ft: float


@dataclass(frozen=True, slots=True)
class Sketch:
    """The plot with its trees to scale; `left_over` counts by line the trees that found no room.

    `standing` are those trees of the place whose spot on the plot is known; the new ones keep clear of them.
    """

    width_ft: float
    depth_ft: float
    trees: tuple[Sketched, ...]
    left_over: Mapping[int, int]
    standing: tuple[Stood, ...] = ()


@dataclass(frozen=True, slots=True)
class PickingTime:
    """The days on which the trees of one cultivar of a line are picked."""

    line: int
    cultivar: str
    from_day: int
    to_day: int
    trees: int
    basis: str


@dataclass(frozen=True, slots=True)
class PickedWeek:
    """A week of the season, by its first day, and the trees in picking in it."""

    from_day: int
    trees: int


@dataclass(frozen=True, slots=True)
class HarvestChart:
    """The harvest of the list through the season; `months` counts trees by calendar month."""

    times: tuple[PickingTime, ...]
    weeks: tuple[PickedWeek, ...]
    months: Mapping[int, int]
    gaps: tuple[int, ...]
    busiest: PickedWeek | None
    busiest_share: float
    unknown_trees: int = 0


@dataclass(frozen=True, slots=True)
class AddedTree:
    """A tree to add so that others have a partner; `serves` are the cultivars that it sets."""

    cultivar: str
    rootstock: str | None
    fit: int
    serves: tuple[str, ...]
    in_stock: int | None = None


@dataclass(frozen=True, slots=True)
class Addition:
    """The fewest trees that give every tree its partner; `unserved` are cultivars that none of the catalogue serves."""

    trees: tuple[AddedTree, ...]
    unserved: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LineChange:
    """What becomes of one line; for a dropped line nothing stands there."""

    line: int
    change: Change
    trees: int
    cultivars: tuple[str, ...] = ()
    rootstock: str | None = None


@dataclass(frozen=True, slots=True)
class Repair:
    """The cheapest changes after which the list passes; `proven` where no cheaper ones exist."""

    lines: tuple[LineChange, ...]
    added: tuple[AddedTree, ...]
    cost: float
    proven: bool

    @property
    def changes(self) -> int:
        """Lines that are changed, dropped or added."""
        return sum(line.change != "keep" for line in self.lines) + len(self.added)

    @property
    def dropped(self) -> int:
        """Trees that are dropped."""
        return sum(line.trees for line in self.lines if line.change == "drop")


@dataclass(frozen=True, slots=True)
class Totals:
    """The sums of a list; `lines` and `trees` by verdict, and prices by currency where every line counted names one."""

    lines: Mapping[Verdict, int]
    trees: Mapping[Verdict, int]
    guesses: int = 0
    repeats: int = 0
    without_quantity: int = 0
    skipped: int = 0
    prices: Mapping[Currency | Literal["not_said"], Decimal] = field(default_factory=dict)
    priced_lines: int = 0

    @property
    def all_lines(self) -> int:
        """Lines of any verdict."""
        return sum(self.lines.values())

    @property
    def all_trees(self) -> int:
        """Trees of any verdict."""
        return sum(self.trees.values())

    @property
    def worst(self) -> Verdict:
        """The worst verdict of any line."""
        return worst(verdict for verdict, lines in self.lines.items() if lines)
