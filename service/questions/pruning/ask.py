"""The one way through the pruning question: the tree, then the day, then each cut in the order of work."""

from __future__ import annotations

from service.compute.harvest import Window
from service.compute.renovation import RenovationYear, renovation_steps
from service.compute.wires import wire_heights_in
from service.questions.pruning.facts import (
    form_facts,
    known,
    place_facts,
    shoots_for,
    tree_facts,
    variety_facts,
    year_facts,
)
from service.questions.pruning.gaps import unknown_of_tree
from service.questions.pruning.question import (
    Facts,
    JudgedCut,
    JudgedVariety,
    JudgedYear,
    PruningAnswer,
    PruningQuestion,
)
from service.questions.pruning.windows import Windows, window_facts
from service.questions.suggestion.place import with_climate
from service.questions.suggestion.prepared import prepare
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook

TREE_RULES = "pruning.tree"
SEASON_RULES = "pruning.season"
CUT_RULES = "pruning.cut"
VARIETY_RULES = "pruning.variety"
RENOVATION_RULES = "pruning.renovation"
_CARRIED = ("life_stage", "main_season", "renovation_years")


def plan_pruning(question: PruningQuestion, *, rulebook: Rulebook, asking: Matcher) -> PruningAnswer:
    """What is cut on this tree, and when."""
    return _Way(question, rulebook, asking).answer()


class _Way:
    """One question on its way to its answer."""

    def __init__(self, question: PruningQuestion, rulebook: Rulebook, asking: Matcher) -> None:
        self.rulebook, self.asking = rulebook, asking
        self.question, self.told = question, question.tree
        self.site = with_climate(question.site, question.climate)
        self.harvest = self.last_harvest()
        crop = rulebook.catalogue.crops[self.told.crop]
        self.given: Facts = {**tree_facts(self.told, crop), **place_facts(question, self.site, self.harvest)}

    def answer(self) -> PruningAnswer:
        tree = self.judge(TREE_RULES, {**self.given, **self.form(self.told.training)})
        windows = Windows(tree.concluded, self.given).all(self.question.date, southern=self.site.southern)
        facts: Facts = {**self.given, **self.planned(tree), **window_facts(windows)}
        season = self.judge(SEASON_RULES, facts)
        facts = {**facts, **self.allowed(season), **self.form(self.training(tree))}
        return PruningAnswer(
            question=self.question,
            site=self.site,
            harvest=self.harvest,
            tree=tree,
            season=season,
            windows=windows,
            cuts=self.cuts(facts),
            varieties=self.varieties(facts),
            renovation=self.renovation(tree, facts),
            wires_in=self.wires(tree.concluded),
            training=self.training(tree),
            not_judged=unknown_of_tree(facts, self.rulebook),
        )

    def last_harvest(self) -> Window | None:
        """The latest harvest of what grows on the tree, as far as it is known."""
        on_tree = (self.told.cultivar, *(variety.cultivar for variety in self.told.varieties))
        known_ones = prepare(self.rulebook).cultivars
        windows = [known_ones[cultivar].harvest for cultivar in on_tree if cultivar is not None]
        return max((window for window in windows if window is not None), key=lambda one: one.to_day, default=None)

    def judge(self, ruleset: str, facts: Facts) -> Judgement:
        """The judgement of a ruleset on those of the facts that it may test."""
        testable = self.rulebook.vocabulary.testable(ruleset)
        judgement = self.asking.judge(ruleset, {name: value for name, value in facts.items() if name in testable})
        audit.note(judgement)
        return judgement

    def training(self, tree: Judgement) -> str | None:
        """The form to work toward: the one that was told, or the one that the rules assume."""
        assumed = tree.concluded.get("training_assumed")
        return assumed if isinstance(assumed, str) else self.told.training

    def form(self, training: str | None) -> Facts:
        return form_facts(self.rulebook.catalogue.training.get(training or ""), self.rulebook.vocabulary)

    def planned(self, tree: Judgement) -> Facts:
        """What the rules on the tree pass on to those that come after."""
        facts = {f"plan.{name}": tree.concluded.get(name) for name in _CARRIED}
        facts["plan.training"] = self.training(tree)
        facts["plan.height_goal_ft"] = next((step.height_ft for step in self.steps(tree.concluded)), None)
        per_shoot = tree.concluded.get("fruit_per_shoot")
        if self.told.fruit_wanted is not None and isinstance(per_shoot, int | float):
            facts["tree.shoots_for_fruit"] = shoots_for(self.told.fruit_wanted, per_shoot=per_shoot)
        return known(facts)

    def allowed(self, season: Judgement) -> Facts:
        """What the rules on the day pass on."""
        concluded = season.concluded
        return known({"plan.when": concluded.get("when_verdict"), "plan.weather": concluded.get("weather_verdict")})

    def cuts(self, facts: Facts) -> tuple[JudgedCut, ...]:
        """The cuts that some rule asks for, or against, in the order of work."""
        judged = (
            JudgedCut(cut, self.judge(CUT_RULES, {**facts, "cut": cut.id}))
            for cut in self.rulebook.catalogue.cuts.values()
        )
        return tuple(one for one in judged if one.called_for)

    def varieties(self, facts: Facts) -> tuple[JudgedVariety, ...]:
        varieties = self.told.varieties
        return tuple(
            JudgedVariety(variety, self.judge(VARIETY_RULES, {**facts, **grown}))
            for variety, grown in zip(varieties, variety_facts(varieties), strict=True)
        )

    def steps(self, concluded: Facts) -> tuple[RenovationYear, ...]:
        """The way down to the wanted height: over the years that the rules allow for it, or in this one."""
        height, wanted, years = self.told.height_ft, self.told.max_height_ft, concluded.get("renovation_years", 1)
        if height is None or wanted is None or not isinstance(years, int | float):
            return ()
        return renovation_steps(height, wanted, years=round(years))

    def renovation(self, tree: Judgement, facts: Facts) -> tuple[JudgedYear, ...]:
        """The years of bringing the tree down, where the rules spread it over years and both heights are known."""
        steps = self.steps(tree.concluded) if "renovation_years" in tree.concluded else ()
        return tuple(
            JudgedYear(step, self.judge(RENOVATION_RULES, {**facts, **year_facts(step, years=len(steps))}))
            for step in steps
        )

    def wires(self, concluded: Facts) -> tuple[float, ...]:
        first, gap, most = (concluded.get(name) for name in ("first_wire_in", "wire_gap_in", "wire_count"))
        if not (isinstance(first, int | float) and isinstance(gap, int | float) and isinstance(most, int | float)):
            return ()
        return wire_heights_in(first, gap, most=round(most), under_ft=self.told.max_height_ft)
