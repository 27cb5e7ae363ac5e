"""A handful of season rules, one for each turn of the question, over the real crops, stages and tasks."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path
from typing import Any

from service.domain.season_tree import SeasonTree
from service.domain.site import Site
from service.questions.season import Ground, SeasonAnswer, SeasonQuestion, TreeYear, plan_season
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, assemble
from service.settings import CHECKOUT
from tests.published.weather_at_hand import models
from tests.questions.made_up_pruning import rule

START = date(2026, 11, 25)
VALLEY = Ground(region="california_central_valley")
_TREE = "bloom.basis: none"
_KC = ", ".join(
    f"kc_{name}: {{limit: season.water.{limit}}}"
    for name, limit in (
        ("initial", "pome_bare_initial"), ("mid", "pome_bare_mid"), ("end", "pome_bare_end"),
        ("initial_days", "initial_days"), ("development_days", "development_days"), ("mid_days", "mid_days"),
        ("late_days", "late_days"),
    )
)  # fmt: skip
_FALL = ", ".join(
    f"leaf_fall_{end}_day: {{limit: season.calendar.leaf_fall_mild_{end}_day}}" for end in ("from", "to")
)
_FED = (
    "feeding: usual, nitrogen_doses: 2, nitrogen_first_year_oz: {limit: season.nitrogen.first_year}, "
    "nitrogen_a_year_oz: {limit: season.nitrogen.a_year}, nitrogen_an_inch_oz: {limit: season.nitrogen.stone_an_inch}, "
    "nitrogen_cap_oz: {limit: season.nitrogen.cap}"
)
_WATERED = "irrigation_efficiency: {limit: season.water.efficiency}, water_interval_days: 10"


def _every(name: str, concluded: str) -> str:
    crops = "crop: apple, crop.kind: pome"
    return rule(
        name, "crop: {none_of: [fig]}", f'conclude: {{{concluded}}}, say: "{name}"', fires=f"{crops}, {_TREE}",
        silent=f"crop: fig, crop.kind: other, {_TREE}",
    )  # fmt: skip


def _task(task: str, concluded: str, *, more: str = "") -> str:
    given = f"crop: apple, crop.kind: pome, {_TREE}"
    return rule(
        task.replace("_", "-"), f"task: {{is: {task}}}{more}",
        f'conclude: {{task_standing: {concluded}}}, advise: "Do {task}."',
        fires=f"{given}, task: {task}", silent=f"{given}, task: mulch",
    )  # fmt: skip


_SHIFT = rule(
    "late-district", "site.district: {is: late}",
    'conclude: {bloom_shift_days: {limit: season.shift.late_district_days}}, say: "later"',
    fires=f"crop: apple, crop.kind: pome, {_TREE}, site.district: late",
    silent=f"crop: apple, crop.kind: pome, {_TREE}, site.district: early",
)  # fmt: skip
_YOUNG = rule(
    "young", "tree.age_years: {at_most: {limit: season.water.young_years}}",
    'conclude: {young_weekly_gal: {limit: season.water.young_weekly}}, say: "young"',
    fires=f"crop: apple, crop.kind: pome, {_TREE}, tree.age_years: 2",
    silent=f"crop: apple, crop.kind: pome, {_TREE}, tree.age_years: 3",
)  # fmt: skip
_STAGE = "crop: apple, crop.kind: pome, bloom.basis: none, stage: bloom, stage.from_day: 90, stage.to_day: 99"
RULES = {
    "tree": (_every("leaf-fall", _FALL), _every("fed", _FED), _every("watered", f"{_WATERED}, {_KC}"), _SHIFT, _YOUNG),
    "stage": (
        rule(
            "frost-is-likely", "stage.days_to_last_frost: {at_least: 0}",
            'conclude: {frost_risk: likely}, caution: "Frost at {stage.kill_10_f}."',
            fires=f"{_STAGE}, stage.kill_10_f: 28, stage.days_to_last_frost: 0",
            silent=f"{_STAGE}, stage.kill_10_f: 28, stage.days_to_last_frost: -1",
        ),
    ),
    "task": (
        _task("scab", "do, opens_with: bud_swell, closes_with: fruit_set"),
        _task("record_bloom", "do, opens_with: full_bloom"),
        _task("no_spray_bloom", "do_not, opens_with: bloom"),
        _task("leafcurl_fall", "if_seen, opens_with: leaf_fall, opens_after_days: -10, closes_after_days: 5"),
        _task("plant_bareroot", "do, opens_day: 350, closes_day: 60"),
        _task("pick", "do, opens_with: harvest"),
    ),
    "water": (
        rule(
            "thirsty", "water.share_of_peak: {at_least: 1}", 'conclude: {water_level: most}, advise: "Water."',
            fires=f"crop: apple, crop.kind: pome, {_TREE}, water.month: 7, water.gallons_a_day: 1, "
            "water.gallons_a_week: 7, water.share_of_peak: 1",
            silent=f"crop: apple, crop.kind: pome, {_TREE}, water.month: 7, water.gallons_a_day: 1, "
            "water.gallons_a_week: 7, water.share_of_peak: 0.9",
        ),
    ),
}  # fmt: skip


def year_round(folder: Path, rulebook: Rulebook) -> Rulebook:
    """The made-up rules, over the vocabulary, limits and catalogue of the project."""
    for name in ("vocabulary.yaml", "limits.yaml", "cautions.yaml"):
        shutil.copy(CHECKOUT / "rules" / name, folder / name)
    for ruleset, rules in RULES.items():
        (folder / "season" / ruleset).mkdir(parents=True)
        (folder / "season" / ruleset / "rules.yaml").write_text("rules:\n" + "".join(rules), encoding="utf-8")
    return assemble(folder, rulebook.catalogue)


def asked(rulebook: Rulebook, *trees: SeasonTree, start: date = START, **question: Any) -> SeasonAnswer:
    """The answer for these trees."""
    question.setdefault("site", Site())
    whole = SeasonQuestion(trees, start, **question)
    return plan_season(whole, rulebook=rulebook, models=models(), asking=PlainMatcher(rulebook))


def year(rulebook: Rulebook, tree: SeasonTree, **question: Any) -> TreeYear:
    """The year of one tree."""
    return asked(rulebook, tree, **question).trees[0]
