"""The facts of a list as a whole, from what its lines, its pollen, its room and its harvest came to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from service.domain.checked_list import VERDICTS, Addition, HarvestChart, Sketch
from service.domain.planting_list import ReadList
from service.questions.planting_list.kinds import kind_facts
from service.questions.planting_list.law import law_facts
from service.questions.planting_list.line_facts import Open
from service.questions.planting_list.lines import LineChecker
from service.questions.planting_list.pollen import ListPollen
from service.questions.planting_list.question import Mended
from service.questions.planting_list.room import Planted, area_needed_sq_ft
from service.questions.planting_list.tally import Tally
from service.questions.planting_list.tree import TreeHere

LIST_RULES = "planting-list.list"


@dataclass(frozen=True, slots=True)
class Looked:
    """What a look at the whole list found."""

    planted: Sequence[Planted]
    pollen: ListPollen
    sketch: Sketch | None
    harvest: HarvestChart | None
    addition: Addition | None
    mended: Mended | None = None


def count_facts(read: ReadList, tally: Tally, checker: LineChecker, *, whole: bool) -> Open:
    """What is counted of a list of any length."""
    wanted, trees = checker.place.wishes.max_trees, sum(tally.trees.values())
    here = checker.known.rulebook.vocabulary.testable(LIST_RULES)
    return {
        **{name: value for name, value in checker.here.place.facts.items() if name in here},
        "list.lines": sum(tally.lines.values()),
        "list.trees": trees,
        "list.cultivars": len(tally.of_cultivar),
        "list.crops": tuple(sorted(tally.of_crop)),
        **{f"list.{verdict}": tally.lines[verdict] for verdict in VERDICTS},
        "list.guesses": tally.odd["guesses"],
        "list.without_quantity": tally.odd["without_quantity"],
        "list.repeats": tally.odd["repeats"],
        "list.skipped": len(read.skipped),
        "list.limits_hit": len(read.limits_hit),
        "list.looked_at_whole": whole,
        "list.trees_wanted": wanted,
        "list.trees_over_wanted": None if wanted is None else max(0, trees - wanted),
        "list.short_in_stock": tally.odd["short_in_stock"] if tally.stock_known else None,
        "list.standing_told": checker.place.existing_trees is not None,
        "disease.shared": (),
        **law_facts(frozenset(tally.of_crop), checker.place.state, checker.known.rulebook.catalogue),
    }


def whole_facts(looked: Looked, checker: LineChecker) -> Open:
    """What only a look at the whole list tells."""
    shared_from = checker.known.number("planting_list.disease.shared")
    return {
        **_pollen_facts(looked),
        **_plot_facts(looked, checker),
        **_harvest_facts(looked, checker),
        **kind_facts(looked.planted, shared_from=shared_from),
        **_repair_facts(looked.mended),
    }


def _pollen_facts(looked: Looked) -> Open:
    pollen, addition = looked.pollen, looked.addition
    unserved = pollen.unserved
    givers = [tree for one in looked.planted for tree in one.trees if tree.facts.get("pollen.gives_none")]
    facts: Open = {
        "pollen.unserved_trees": sum(one.count for one in looked.planted if set(one.cultivars) & set(unserved)),
        "pollen.unserved_cultivars": len(unserved),
        "pollen.usual_only": len(pollen.usual_only),
        "pollen.sterile_givers": len({tree.candidate.cultivar.id for tree in givers}),
        "pollen.addition_trees": 0 if addition is None else len(addition.trees),
    }
    if unserved:
        facts["pollen.first_unserved"] = pollen.name(unserved[0])
    if addition is not None:
        facts["pollen.addition_complete"] = not addition.unserved
        if addition.trees:
            facts["pollen.first_added"] = pollen.name(addition.trees[0].cultivar)
    return facts


def _plot_facts(looked: Looked, checker: LineChecker) -> Open:
    site, planted = checker.here.place.site, looked.planted
    trees = [tree for one in planted for tree in one.trees]
    heights = [float(one.facts["tree.height_high_ft"]) for one in trees if "tree.height_high_ft" in one.facts]  # type: ignore[arg-type]
    facts: Open = {
        "plot.spacing_unknown": sum(one.count for one in planted if one.spacing_ft is None),
        "plot.tallest_ft": max(heights, default=None),
        "plot.shortest_ft": min(heights, default=None),
    }
    if site.width_ft and site.depth_ft:
        facts["plot.area_share"] = area_needed_sq_ft(planted) / (site.width_ft * site.depth_ft)
        too_wide = {one.candidate.cultivar.id for one in trees if one.facts.get("tree.fits_count") == 0}
        facts["plot.too_wide"] = len(too_wide)
    if looked.sketch is not None:
        facts["plot.placed"] = len(looked.sketch.trees)
        facts["plot.left_over"] = sum(looked.sketch.left_over.values())
    return facts


def _harvest_facts(looked: Looked, checker: LineChecker) -> Open:
    chart, wished = looked.harvest, set(checker.place.wishes.harvest_months)
    facts: Open = {"harvest.keepers": _trees_that(looked, _keeps)}
    if "site.first_autumn_frost_day" in checker.here.place.facts:
        facts["harvest.after_frost_trees"] = _trees_that(looked, _after_frost)
    if chart is None:
        return facts
    all_trees = sum(one.count for one in looked.planted)
    months = {month for month, trees in chart.months.items() if trees}
    return facts | {
        "harvest.known_trees": all_trees - chart.unknown_trees,
        "harvest.unknown_trees": chart.unknown_trees,
        "harvest.months": len(months),
        "harvest.gap_months": len(chart.gaps),
        "harvest.wished_missed": len(wished - months) if wished else None,
        "harvest.busiest_share": chart.busiest_share,
        "harvest.busiest_trees": None if chart.busiest is None else chart.busiest.trees,
        "harvest.busiest_day": None if chart.busiest is None else chart.busiest.from_day,
    }


def _trees_that(looked: Looked, holds: Callable[[TreeHere], bool]) -> int:
    return sum(one.count for one in looked.planted if any(holds(tree) for tree in one.trees))


def _keeps(tree: TreeHere) -> bool:
    uses = tree.candidate.cultivar.uses
    return uses is not None and "storage" in uses.value


def _after_frost(tree: TreeHere) -> bool:
    days = tree.facts.get("harvest.days_before_frost")
    return isinstance(days, int | float) and days < 0


def _repair_facts(mended: Mended | None) -> Open:
    if mended is None:
        return {}
    repair = mended.repair
    if repair is None:
        return {"repair.found": False}
    return {
        "repair.found": True,
        "repair.changes": repair.changes,
        "repair.dropped": repair.dropped,
        "repair.cost": repair.cost,
    }
