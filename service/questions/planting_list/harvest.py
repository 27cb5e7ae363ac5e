"""The harvest of a list through the season: when each tree is picked, and how the weeks fill."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from service.compute.harvest_spread import Picking, spread_over
from service.domain.checked_list import HarvestChart, PickedWeek, PickingTime
from service.questions.planting_list.room import Planted


def harvest_chart(planted: Sequence[Planted], *, southern: bool) -> HarvestChart | None:
    """The chart; None where no tree of the list has a known time of picking.

    A tree with several cultivars is counted once for each of them, since each is picked in its own time.
    """
    times = tuple(_times(planted))
    if not times:
        return None
    spread = spread_over([Picking(one.from_day, one.to_day, one.trees) for one in times], southern=southern)
    busiest = spread.busiest
    return HarvestChart(
        times=times,
        weeks=tuple(PickedWeek(week.from_day, week.trees) for week in spread.weeks),
        months=spread.months,
        gaps=spread.gaps,
        busiest=None if busiest is None else PickedWeek(busiest.from_day, busiest.trees),
        busiest_share=spread.busiest_share,
        unknown_trees=unknown_trees(planted),
    )


def unknown_trees(planted: Sequence[Planted]) -> int:
    """Trees with a cultivar whose time of picking nobody published."""
    return sum(one.count for one in planted if any(tree.candidate.harvest is None for tree in one.trees))


def _times(planted: Sequence[Planted]) -> Iterator[PickingTime]:
    for one in planted:
        for tree in one.trees:
            window = tree.candidate.harvest
            if window is not None and one.count > 0:
                yield PickingTime(
                    line=one.line.line,
                    cultivar=tree.candidate.cultivar.id,
                    from_day=window.from_day,
                    to_day=window.to_day,
                    trees=one.count,
                    basis=window.basis,
                )
