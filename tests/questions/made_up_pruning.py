"""Rules for two crops and a handful of cuts, one for each turn of the pruning question; all figures invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from service.domain.cut import Cut, CutKind, Wording
from service.domain.provenance import Span
from service.domain.pruned_tree import PrunedTree
from service.domain.site import Site
from service.domain.training import Measure, TrainingForm
from service.questions.pruning import PruningAnswer, PruningQuestion, WeatherAhead, plan_pruning
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, assemble
from tests.questions.made_up_nursery import BOOK, VOCABULARY, catalogue, stated, written_limits


def cut(name: str, kind: CutKind = "cut") -> Cut:
    """A kind of cut of the made-up book."""
    return Cut(name, kind, Wording(f"the {name}", f"el {name}"), Wording("there", "allí"), kind == "cut", BOOK)


CUTS = {
    one.id: one
    for one in (
        cut("prepare_tools", "care"), cut("dead_wood"), cut("fruiting_shoots"), cut("height"), cut("summer_first"),
        cut("summer_after_harvest"), cut("topping", "never"),
    )
}  # fmt: skip
TIERS = TrainingForm(
    "horizontal_tiers", "tiers", "espaldera",
    measures={
        "first_wire_in": stated(Measure(Span(14, 24), 18)), "wire_gap_in": stated(Measure(Span(12, 24), 16)),
        "tiers": stated(Measure(Span(2, 5))),
    },
)  # fmt: skip
_HEAD = """\
    why: "{why}"
    basis: common practice
    reviewed: {{last: 2026-01-01, next: 2027-01-01}}
    examples:
      - {{name: as made, given: {{{fires}}}, expect: fires}}
      - {{name: the other way, given: {{{silent}}}, expect: silent}}
"""


def rule(name: str, when: str, then: str, *, fires: str, silent: str) -> str:
    """One rule as it stands in a file."""
    head = _HEAD.format(why=f"The reason for {name}.", fires=fires, silent=silent)
    return f"  - id: {name}\n    title: {name}\n    when: {{{when}}}\n    then: {{{then}}}\n{head}"


def _cut_rule(name: str, concluded: str, sentence: str) -> str:
    return rule(
        name.replace("_", "-"), f"cut: {{is: {name}}}", f'conclude: {{{concluded}}}, advise: "{sentence}"',
        fires=f"cut: {name}", silent="cut: prepare_tools",
    )  # fmt: skip


def _verdict(name: str, season: str, state: str, verdict: str) -> str:
    return rule(
        name, f"concluded.cut_season: {{is: {season}}}, window.{season}: {{is: {state}}}",
        f'conclude: {{cut_verdict: {verdict}}}, say: "The days are {state}."',
        fires=f"concluded.cut_season: {season}, window.{season}: {state}",
        silent=f"concluded.cut_season: {season}, window.{season}: none",
    )  # fmt: skip


RULES = {
    "pruning/tree/made_up.yaml": [
        rule("peach-in-summer", "crop: {is: peach}",
             "conclude: {main_season: dry_summer, main_from_day: 182, main_to_day: 243, main_waits_for_harvest: true,"
             ' dry_weeks: 6}, say: "Cut a peach in dry summer weather."',
             fires="crop: peach", silent="crop: apple"),
        rule("apple-in-winter", "crop: {is: apple}",
             'conclude: {main_season: late_dormant, main_from_day: 350, main_to_day: 40}, say: "Cut it in winter."',
             fires="crop: apple", silent="crop: peach"),
        rule("summer-days", "tree.varieties: {at_least: 1}",
             "conclude: {early_summer_from_day: 121, early_summer_to_day: 151, after_harvest_to_day: 270,"
             ' frost_weeks: 6}, say: "There are cuts of summer."',
             fires="tree.varieties: 1", silent="tree.varieties: unknown"),
        rule("open-centre-assumed", "crop: {is: peach}, tree.training: {known: false}",
             'conclude: {training_assumed: open_centre}, say: "An open centre is assumed."',
             fires="crop: peach, tree.training: unknown", silent="crop: peach, tree.training: fan"),
        rule("over-years", "tree.over_wanted_share: {above: 1.5}",
             'conclude: {renovation_years: 3}, advise: "Bring it down over {renovation_years}."',
             fires="tree.over_wanted_share: 1.6", silent="tree.over_wanted_share: 1.5"),
        rule("wires", "form.first_wire_in: {known: true}, form.wire_gap_in: {known: true}, form.tiers: {known: true}",
             "conclude: {first_wire_in: {fact: form.first_wire_in}, wire_gap_in: {fact: form.wire_gap_in},"
             ' wire_count: 4}, say: "Stretch wires."',
             fires="form.first_wire_in: 18, form.wire_gap_in: 16, form.tiers: 3", silent="form.first_wire_in: unknown"),
        rule("fruit-to-a-shoot", "crop: {is: peach}, tree.shoot_length_in: {above: 6}",
             'conclude: {fruit_per_shoot: 6}, say: "A shoot carries six."',
             fires="crop: peach, tree.shoot_length_in: 7", silent="crop: peach, tree.shoot_length_in: 6"),
    ],
    "pruning/season/made_up.yaml": [
        rule("now", "window.main: {is: open}, weather.wet: {is: false}",
             'conclude: {when_verdict: now, weather_verdict: good}, say: "Prune now."',
             fires="window.main: open, weather.wet: false", silent="window.main: ahead, weather.wet: false"),
        rule("wait", "window.main: {one_of: [ahead, past]}, window.main_from_day: {known: true}",
             'conclude: {when_verdict: not_now}, advise: "Come back from {window.main_from_day} on."',
             fires="window.main: ahead, window.main_from_day: 182",
             silent="window.main: open, window.main_from_day: 182"),
        rule("wet", "weather.wet: {is: true}", 'conclude: {weather_verdict: too_wet}, caution: "Cut no wet bark."',
             fires="weather.wet: true", silent="weather.wet: false"),
    ],
    "pruning/cut/made_up.yaml": [
        _cut_rule("dead_wood", "cut_season: any_time, cut_verdict: now", "Take out dead wood."),
        _cut_rule("fruiting_shoots",
                  "cut_season: main, share_percent: {limit: made_up.share}, share_of: last_years_growth",
                  "Take out old shoots."),
        _cut_rule("summer_first", "cut_season: early_summer", "Shorten new shoots."),
        _cut_rule("summer_after_harvest", "cut_season: after_harvest", "Shorten them again."),
        rule("height", "cut: {is: height}, plan.height_goal_ft: {known: true}",
             'conclude: {cut_season: main, bring_down_to_ft: {fact: plan.height_goal_ft}}, advise: "Lower it."',
             fires="cut: height, plan.height_goal_ft: 9", silent="cut: height"),
        rule("topping", "cut: {is: topping}", 'set_aside: "Never cut to stubs."', fires="cut: topping",
             silent="cut: height"),
        rule("shoots-for-fruit", "cut: {is: fruiting_shoots}, tree.shoots_for_fruit: {known: true}",
             'conclude: {keep_count: {fact: tree.shoots_for_fruit}}, advise: "Keep {keep_count} shoots."',
             fires="cut: fruiting_shoots, tree.shoots_for_fruit: 50", silent="cut: fruiting_shoots"),
        _verdict("main-open", "main", "open", "now"), _verdict("main-ahead", "main", "ahead", "wait"),
        _verdict("main-past", "main", "past", "wait"), _verdict("early-open", "early_summer", "open", "now"),
        _verdict("early-ahead", "early_summer", "ahead", "wait"),
    ],
    "pruning/variety/made_up.yaml": [
        rule("strong-variety", "variety.over_weakest: {at_least: 2}",
             'conclude: {variety_cut: hard}, advise: "Cut {variety} hard."',
             fires="variety: Gala, variety.over_weakest: 2", silent="variety: Gala, variety.over_weakest: 1.9"),
    ],
    "pruning/renovation/made_up.yaml": [
        rule("first-year", "renovation.place: {is: first}, renovation.height_ft: {known: true}",
             'advise: "Bring it to {renovation.height_ft} this year."',
             fires="renovation.place: first, renovation.height_ft: 17",
             silent="renovation.place: last, renovation.height_ft: 11"),
    ],
}  # fmt: skip


def garden(folder: Path) -> Rulebook:
    """The rulebook, written into an empty folder."""
    (folder / "vocabulary.yaml").write_text(VOCABULARY.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "limits.yaml").write_text(written_limits(**{"made_up.share": ("percent", 50)}), encoding="utf-8")
    for name, rules in RULES.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text("rules:\n" + "".join(rules), encoding="utf-8")
    return assemble(folder, replace(catalogue(), cuts=CUTS, training={TIERS.id: TIERS}))


def plan(
    rulebook: Rulebook, tree: PrunedTree, day: date | None = None, *, site: Site | None = None, wet: bool | None = None
) -> PruningAnswer:
    """The plan by the plain matcher."""
    question = PruningQuestion(tree, day, site or Site(), weather=WeatherAhead(wet=wet))
    return plan_pruning(question, rulebook=rulebook, asking=PlainMatcher(rulebook))
