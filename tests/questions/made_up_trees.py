"""Two crops that are thinned by made-up rules, one for each turn of the thinning question; all figures invented."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from service.domain.crop import Crop
from service.domain.crop_load import Branch, Load, TreeSize
from service.domain.cultivar import Cultivar
from service.domain.provenance import Stated
from service.domain.source import Source
from service.knowledge.catalogue import Catalogue
from service.questions.thinning import ThinningAnswer, ThinningQuestion, Variety, VarietyPlan, plan_thinning
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, assemble

VOCABULARY = Path(__file__).parents[2] / "rules" / "vocabulary.yaml"


def stated(value: Any) -> Stated[Any]:
    """A value that the one book of these trees states."""
    return Stated(value, ("a-book",))


CROPS = (
    Crop("apple", "apple", "manzana", stated("Malus domestica"), "pome"),
    Crop("peach", "peach", "durazno", stated("Prunus persica"), "stone"),
    Crop("fig", "fig", "higo", stated("Ficus carica"), "other"),
)
CULTIVARS = (
    Cultivar("apple.august", "apple", "August", ripening=stated("early")),
    Cultivar("apple.october", "apple", "October", ripening=stated("late")),
    Cultivar("peach.july", "peach", "July"),
)


def rule(name: str, when: str, then: str, *, fires: str, silent: str) -> str:
    """One rule as it stands in a file."""
    return f"""\
  - id: {name}
    title: {name}
    when: {{{when}}}
    then: {{{then}}}
    why: It is made up.
    basis: common practice
    priority: {50 if name.startswith("first") else 100}
    reviewed: {{last: 2026-01-01, next: 2027-01-01}}
    examples:
      - {{name: so, given: {{{fires}}}, expect: fires}}
      - {{name: not so, given: {{{silent}}}, expect: silent}}
"""


PEACH = "crop: {is: peach}", {"fires": "crop: peach", "silent": "crop: fig"}
APPLE = "crop: {is: apple}", {"fires": "crop: apple", "silent": "crop: fig"}
RULES = {
    "target": (
        rule("peach-target", PEACH[0], "conclude: {thinning_need: always, spacing_in: 6, trunk_density: 4,"
             " window_opens_day: 20, window_closes_day: 50, pit_hardening_day: 60},"
             ' say: "One peach every {spacing_in}."', **PEACH[1]),
        rule("apple-target", APPLE[0], "conclude: {thinning_need: always, spacing_in: 6, branch_density: 6,"
             " trunk_density: 6, fruit_per_cluster: 1, window_opens_mm: 10, window_closes_mm: 25},"
             ' say: "One apple every {spacing_in}."', **APPLE[1]),
        rule("first-summer", "tree.age_years: {is: 1}", 'conclude: {tree_cap: 0}, say: "None in the first summer."',
             fires="tree.age_years: 1", silent="tree.age_years: 2"),
        rule("weak-tree", "tree.vigour: {is: weak}", 'conclude: {load_share: 0.5}, say: "Half on a weak tree."',
             fires="tree.vigour: weak", silent="tree.vigour: strong"),
    ),
    "measured": (
        rule("crowded", "measured.most_per_foot: {above: 60}", 'caution: "{measured.most_per_foot} is odd."',
             fires="measured.most_per_foot: 61", silent="measured.most_per_foot: 60"),
        rule("age-unknown", "tree.age_years: {known: false}", 'say: "Taken for a grown tree."',
             fires="tree.age_years: unknown", silent="tree.age_years: 5"),
        rule("girth-next", "measured.girth_that_matters_in: {known: true}",
             'advise: "Under {measured.girth_that_matters_in} the trunk carries fewer."',
             fires="measured.girth_that_matters_in: 5", silent="measured.girth_that_matters_in: unknown"),
    ),
    "plan": (
        rule("too-many", "load.surplus: {above: 0}, load.allowed: {above: 0}",
             'conclude: {thinning_action: thin, urgency: now}, advise: "Take {load.surplus} off."',
             fires="load.surplus: 1, load.allowed: 5", silent="load.surplus: 0, load.allowed: 0"),
        rule("none-at-all", "load.allowed: {is: 0}",
             'conclude: {thinning_action: remove_all, urgency: now}, advise: "Take all off."',
             fires="load.allowed: 0", silent="load.allowed: 1"),
        rule("few-enough", "load.surplus: {is: 0}, load.allowed: {above: 0}",
             'conclude: {thinning_action: leave, urgency: none}, say: "Leave it."',
             fires="load.surplus: 0, load.allowed: 5", silent="load.surplus: 1, load.allowed: 0"),
    ),
    "branch": (
        rule("bends", "branch.strain: {above: 0.35}", 'conclude: {limb_support: prop_or_tie}, advise: "Prop it."',
             fires="branch.strain: 0.4", silent="branch.strain: 0.35"),
    ),
    "steps": (
        rule("pick-up", "plan.action: {is: thin}", 'advise: "Pick up what fell."',
             fires="plan.action: thin", silent="plan.action: leave"),
        rule("first-begin", "plan.action: {is: thin}", 'advise: "Begin at the trunk."',
             fires="plan.action: thin", silent="plan.action: leave"),
    ),
}  # fmt: skip
_LIMITS = {
    "thinning.reckoning.thickest_branch": ("in", 1.1), "thinning.reckoning.thinnest_branch": ("in", 0.31),
    "thinning.reckoning.thickest_trunk": ("in", 3), "thinning.reckoning.thinnest_trunk": ("in", 0.75),
    "thinning.reckoning.inner_third": ("share", 0.5), "thinning.reckoning.middle_third": ("share", 0.35),
    "thinning.reckoning.outer_third": ("share", 0.15), "thinning.reckoning.wood_strength": ("psi", 8000),
    "thinning.strain.prop": ("share", 0.35), "thinning.peach.fruit_weight": ("oz", 6),
    "thinning.stage.fruit_set": ("bbch", 71), "thinning.stage.natural_drop": ("bbch", 73),
    "thinning.stage.half_size": ("bbch", 75), "thinning.refuse.fruit_per_foot": ("per_ft", 200),
}  # fmt: skip


def orchard(folder: Path) -> Rulebook:
    """The rulebook of these trees, written into an empty folder; rules edge their examples on purpose."""
    (folder / "vocabulary.yaml").write_text(VOCABULARY.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "limits.yaml").write_text(_limits(), encoding="utf-8")
    (folder / "cautions.yaml").write_text("cautions: {}\n", encoding="utf-8")
    for ruleset, rules in RULES.items():
        (folder / "thinning" / ruleset).mkdir(parents=True)
        (folder / "thinning" / ruleset / "made_up.yaml").write_text("rules:\n" + "".join(rules), encoding="utf-8")
    catalogue = Catalogue(
        crops={crop.id: crop for crop in CROPS},
        cultivars={cultivar.id: cultivar for cultivar in CULTIVARS},
        rootstocks={},
        sources={"a-book": Source("a-book", "A book", "A press", year=2001)},
        diseases=frozenset(),
    )
    return assemble(folder, catalogue)


def _limits() -> str:
    entries = [
        f"  {name}: {{meaning: made up, unit: {unit}, value: {value}, range: [0, 10000], basis: common practice,"
        " confirmed: 2026-01-01}\n"
        for name, (unit, value) in _LIMITS.items()
    ]
    return "limits:\n" + "".join(entries)


def answer(rulebook: Rulebook, question: ThinningQuestion) -> ThinningAnswer:
    """The answer by the plain matcher."""
    return plan_thinning(question, rulebook=rulebook, asking=PlainMatcher(rulebook))


def planned(rulebook: Rulebook, *branches: Branch, crop: str = "peach", **tree: Any) -> VarietyPlan:
    """The plan of a tree of one variety with these branches."""
    question = ThinningQuestion(crop, (Variety(load=Load(branches)),), TreeSize(**tree))
    return answer(rulebook, question).plans[0]
