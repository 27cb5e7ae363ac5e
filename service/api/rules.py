"""The rules behind the answers, in words and as data."""

from __future__ import annotations

from typing import Any

from werkzeug.exceptions import NotFound

from service.api.advice import CautionTold
from service.api.fields import Told, choice, date_text, flag, list_of, name_text, nested, text, whole
from service.api.house import Resource, at_id, parts
from service.api.paging import PageAsked, page
from service.api.stated import anything
from service.present.rules import rule_in_full, rule_in_short
from service.reasoning.rule import OUTCOMES, Rule

blueprint = Resource("rules", "The rules behind the answers.")


class RulesAsked(PageAsked):
    """Which rules."""

    ruleset = name_text("Only rules of this ruleset.", example="suggestion.cultivar")
    outcome = choice("Only rules with this outcome.", values=OUTCOMES, example="set_aside")


class RuleInShortTold(Told):
    """A rule in a list."""

    id = text("Id of the rule; it never comes to mean another rule.", example="far-too-little-chill", required=True)
    title = text("What the rule is about.", example="Far too little chill", required=True)
    ruleset = text("The question that it helps to answer.", example="suggestion.cultivar", required=True)
    outcome = choice("What it does.", values=OUTCOMES, example="set_aside", required=True)
    points = whole("Points that it gives (or takes, if negative).", unit="points", example=-15, required=True)
    text_ = text(
        "Its sentence, with placeholders.", example="{cultivar} asks for more chill.", longest=2000, required=True
    )
    from_memory = flag("True when some citation was not seen in the publication.", example=False, required=True)


class RulesTold(Told):
    """A page of rules."""

    items = nested(RuleInShortTold, "The rules, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip


class TestTold(Told):
    """One test of a rule."""

    fact = text("The fact that is tested.", example="chill.margin_hours", required=True)
    test = text("The test.", example="below", required=True)
    value = anything("The value that it is tested against.", example=-200, required=True)
    unit = text("Unit of the value.", example="hours", nullable=True, required=True)
    limits = list_of(text("Name of a limit.", example="chill.short.hours"), "Named limits behind it.", example=[],
                     required=True)  # fmt: skip
    in_words = text("The test in words.", example="Chill of the place over the need: is less than −200 hours",
                    longest=2000, required=True)  # fmt: skip


class CitationTold(Told):
    """A place in a source."""

    id = text("Id of the source.", example="umn-apples", required=True)
    where = text("Page or table.", example="table 2", longest=1000, required=True)
    from_memory = flag("True when nobody saw it in the publication.", example=False, required=True)


class ReviewedTold(Told):
    """When the rule was looked through."""

    last = date_text("When it was looked through.", example="2026-11-25", required=True)
    next = date_text("When it is due again.", example="2028-11-25", required=True)


class ExampleTold(Told):
    """A case that the rule's writer gives."""

    name = text("Name of the case.", example="a mild winter", required=True)
    given = anything("The facts; null is unknown.", example={"chill.margin_hours": -300}, required=True)
    expect = choice("What the rule does.", values=("fires", "silent"), required=True)


class RuleTold(RuleInShortTold):
    """Everything that a rule's file says."""

    when = nested(TestTold, "The tests; all must hold.", many=True, required=True)
    conclude = anything("What it concludes for later rules.", example={"chill_verdict": "too_little"}, required=True)
    point_to = list_of(text("An id.", example="planting"), "What it points to.", example=[], required=True)
    why = text("The reason.", example="Buds that lack chill open late and unevenly.", longest=5000, required=True)
    sources = nested(CitationTold, "On whose authority.", many=True, required=True)
    basis = text("Common practice, where no source carries it alone.", example="common practice", nullable=True,
                 required=True)  # fmt: skip
    cautions = nested(CautionTold, "Cautions shown with it.", many=True, required=True)
    priority = whole("Order among the rules; lower comes first.", unit="rank", example=100, required=True)
    stratum = whole("0 reads facts; a higher one reads what lower ones concluded.", unit="rank", example=0,
                    required=True)  # fmt: skip
    reviewed = nested(ReviewedTold, "When it was looked through.", required=True)
    examples = nested(ExampleTold, "Cases that the suite runs.", many=True, required=True)
    file = text("The file that holds it.", example="rules/suggestion/cultivar/chill.yaml", required=True)
    line = whole("The line at which it begins.", unit="line", example=12, required=True)


@blueprint.route("/rules")
@blueprint.asks_in_query(RulesAsked)
@blueprint.reference(RulesTold)
def list_rules(asked: dict[str, Any]) -> dict[str, Any]:
    """List the rules, all or those of a ruleset or an outcome.

    In short; the address of one rule shows all of it.
    """
    wanted = {name: asked[name] for name in ("ruleset", "outcome") if asked.get(name)}
    rules = parts().rulebook.rules.values()
    chosen = [rule for rule in rules if all(getattr(rule, name) == value for name, value in wanted.items())]
    return page(chosen, asked, key=_id, show=rule_in_short)


@blueprint.route(
    "/rules/<rule>",
    parameters=[at_id("rule", "Id of a rule.", example="mark-down-where-chill-hours-are-short")],
)
@blueprint.reference(RuleTold)
@blueprint.also_answers(404, "NOT_FOUND")
def get_rule(rule: str) -> dict[str, Any]:
    """Show the rule behind a conclusion.

    Its tests in words and as data, its reason, its sources and the cases that the suite runs.
    """
    rulebook = parts().rulebook
    found = rulebook.rules.get(rule)
    if found is None:
        raise NotFound("No rule has this id; GET /v1/rules lists them.")
    return rule_in_full(found, rulebook)


def _id(rule: Rule) -> str:
    return rule.id
