"""What is drawn of a planting list, as plain data: the sketch of the plot and the chart of the harvest."""

from __future__ import annotations

from typing import Any

from service.domain.checked_list import HarvestChart, PickedWeek
from service.domain.month_day import season_day
from service.domain.units import feet_to_metres
from service.present.planting_list_line import name_of
from service.present.sentences import Sentences
from service.questions.planting_list import CheckedList
from service.reasoning.rulebook import Rulebook


def sketch_data(checked: CheckedList, sentences: Sentences, rulebook: Rulebook) -> dict[str, Any] | None:
    """The plot with its trees, in feet from the left front corner and in metres."""
    sketch = checked.sketch
    if sketch is None:
        return None
    return {
        "width_ft": sketch.width_ft,
        "depth_ft": sketch.depth_ft,
        "width_m": feet_to_metres(sketch.width_ft),
        "depth_m": feet_to_metres(sketch.depth_ft),
        "standing": [
            {
                "cultivars": [name_of(one, rulebook) for one in tree.cultivars],
                "crop": tree.crop,
                "crop_name": sentences.crop(tree.crop),
                "x_ft": tree.x_ft,
                "y_ft": tree.y_ft,
                "spread_ft": tree.spread_ft,
            }
            for tree in sketch.standing
        ],
        "trees": [
            {
                "line": tree.line,
                "cultivars": [name_of(one, rulebook) for one in tree.cultivars],
                "x_ft": tree.x_ft,
                "y_ft": tree.y_ft,
                "x_m": feet_to_metres(tree.x_ft),
                "y_m": feet_to_metres(tree.y_ft),
                "spread_ft": tree.spread_ft,
                "nearest_ft": None if tree.nearest_ft is None else round(tree.nearest_ft, 1),
            }
            for tree in sketch.trees
        ],
        "left_over": [{"line": line, "trees": trees} for line, trees in sorted(sketch.left_over.items()) if trees],
    }


def chart_data(chart: HarvestChart | None, rulebook: Rulebook, *, southern: bool) -> dict[str, Any] | None:
    """When the trees are picked, by line, by week and by month."""
    if chart is None:
        return None

    def day(number: int) -> str:
        return season_day(number, southern=southern).text

    def week(picked: PickedWeek) -> dict[str, Any]:
        return {"from": day(picked.from_day), "trees": picked.trees}

    return {
        "first_month": season_day(1, southern=southern).month,
        "times": [
            {
                "line": time.line,
                **name_of(time.cultivar, rulebook),
                "from": day(time.from_day),
                "to": day(time.to_day),
                "trees": time.trees,
                "basis": time.basis,
            }
            for time in chart.times
        ],
        "weeks": [week(picked) for picked in chart.weeks if picked.trees],
        "months": [{"month": month, "trees": trees} for month, trees in sorted(chart.months.items()) if trees],
        "gap_months": list(chart.gaps),
        "busiest_week": None if chart.busiest is None else week(chart.busiest),
        "busiest_share": round(chart.busiest_share, 3),
        "unknown_trees": chart.unknown_trees,
    }
