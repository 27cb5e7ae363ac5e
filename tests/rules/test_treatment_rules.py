"""The rules of treatment as a whole: what they may say, what a store may not touch, and that they never disagree."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from service.reasoning.audit import audit
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT
from tests.questions.label_counter import LabelCounter
from tests.questions.test_treatment_leaks import drawn

PARTS = ("treatment.need", "treatment.product", "treatment.answer")
CLAIMS = re.compile(r"\b(safe(ly|ty|st|r)?|non-?toxic|harmless|epa.approved|chemical-?free|guarantee\w*)\b", re.I)
AMOUNTS = re.compile(r"\d\s*(oz|ounces?|tsp|tbsp|teaspoons?|tablespoons?|cups?|pints?|quarts?|gal(lons?)?|ml|lbs?|g)\b")


def rules_of_treatment(rulebook: Rulebook) -> list[Rule]:
    return [rule for part in PARTS for rule in rulebook.rulesets[part]]


def test_no_sentence_makes_a_claim_that_a_label_may_not_make(rulebook: Rulebook) -> None:
    """40 CFR 156.10(a)(5): claims that a pesticide is without risk are false or misleading."""
    said = [(rule.id, text) for rule in rules_of_treatment(rulebook) for text in (rule.title, rule.text, rule.why)]
    assert [(name, text) for name, text in said if CLAIMS.search(text)] == []


def test_no_sentence_holds_an_amount(rulebook: Rulebook) -> None:
    assert [rule.id for rule in rules_of_treatment(rulebook) if AMOUNTS.search(f"{rule.text} {rule.why}")] == []


def test_what_forbids_says_what_to_do_instead(rulebook: Rulebook) -> None:
    """A sentence that only says no sends people to look for a way around it."""
    barring = [rule for rule in rules_of_treatment(rulebook) if rule.outcome == "forbid"]
    assert [rule.id for rule in barring if len(re.findall(r"[.;:?](\s|$)|, (so|and|or) ", rule.text)) < 2] == []


def test_every_rule_on_law_or_label_names_its_authority(rulebook: Rulebook) -> None:
    barring = [rule for rule in rules_of_treatment(rulebook) if rule.outcome in ("forbid", "caution")]
    assert [rule.id for rule in barring if not rule.sources] == []


def test_rules_of_treatment_never_disagree(rulebook: Rulebook) -> None:
    counter, before = LabelCounter(rulebook), audit.conflicts
    for use, shelf in drawn(seed=11, uses=600):
        counter.ask(use, shelf)
    assert audit.conflicts == before


@pytest.mark.parametrize("part", PARTS)
def test_a_store_can_replace_no_prohibition(rulebook: Rulebook, part: str, tmp_path: Path) -> None:
    barring = [rule for rule in rulebook.rulesets[part] if rule.outcome == "forbid"]
    if part == "treatment.need":
        assert barring == []  # it words what the case comes to; prohibitions stand with the products
        return
    for rule in barring:
        own = tmp_path / Path(rule.file).relative_to("rules").with_name(f"own-{rule.id}.yaml")
        own.parent.mkdir(parents=True, exist_ok=True)
        own.write_text(_softened(rule.id, part), encoding="utf-8")
    with pytest.raises(KnowledgeFault) as refused:
        load_rulebook(CHECKOUT / "rules", overlay=tmp_path)
    said = str(refused.value)
    assert [rule.id for rule in barring if f"{rule.id}: it would replace a rule that forbids" not in said] == []


def _softened(name: str, part: str) -> str:
    """A rule under a name that only says something."""
    key, given, other = {
        "treatment.product": ("product.crop_print", "printed", "not_printed"),
        "treatment.answer": ("answer.points", "true", "false"),
    }[part]
    return f"""rules:
  - id: {name}
    title: A store that would rather sell
    when: {{{key}: {{is: {given}}}}}
    then: {{say: "Take it."}}
    why: It sells.
    basis: common practice
    reviewed: {{last: 2026-11-25, next: 2028-11-25}}
    examples:
      - {{name: one, given: {{{key}: {given}}}, expect: fires}}
      - {{name: other, given: {{{key}: {other}}}, expect: silent}}
"""
