"""The question of two trees, with the rulebook of the project: facts, rules and both directions."""

from __future__ import annotations

import pytest

from service.domain.errors import NotUnderstood
from service.knowledge.names import NameBook
from service.questions.pair_naming import PairNamed, find_pair
from service.questions.pollination import RULESET, PairAnswer, PairQuestion, judge_partners, partner_table
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook


@pytest.fixture(scope="module")
def ask(rulebook: Rulebook):  # type: ignore[no-untyped-def]
    """Asks about two cultivars by id."""
    matcher = PlainMatcher(rulebook)

    def asked(tree: str, partner: str, distance_ft: float | None = None) -> PairAnswer:
        return judge_partners(PairQuestion(tree, partner, distance_ft), rulebook=rulebook, matcher=matcher)

    return asked


def rules_of(answer: PairAnswer) -> set[str]:
    """The rules that spoke on the pair as it was asked."""
    return {conclusion.rule.id for conclusion in answer.asked.judgement.conclusions}


def test_every_finding_has_its_rule(rulebook: Rulebook) -> None:
    findings = set(rulebook.vocabulary.facts["pair.finding"].values)
    spoken = {test.value for rule in rulebook.rulesets[RULESET] for test in rule.when if test.fact == "pair.finding"}
    assert spoken == findings


def test_every_pair_of_the_catalogue_that_could_meet_is_answered_with_a_known_finding(rulebook: Rulebook) -> None:
    table, findings = partner_table(rulebook), set(rulebook.vocabulary.facts["pair.finding"].values)
    crops = [rulebook.catalogue.cultivars_of(crop) for crop in sorted(rulebook.catalogue.crops)]
    one_of_each = [cultivars[0].id for cultivars in crops if cultivars]
    pairs = [(one.id, other.id) for cultivars in crops for one in cultivars for other in cultivars[::7]]
    pairs += [(one, other) for one in one_of_each for other in one_of_each]
    assert {reason.code for pair in pairs for reason in table.verdict(*pair).reasons} <= findings


def test_both_directions_are_judged(ask) -> None:  # type: ignore[no-untyped-def]
    answer = ask("apple.mutsu", "apple.gala")
    assert answer.asked.verdict.compatibility == "partly_compatible"
    assert answer.returned.verdict.compatibility == "incompatible"
    assert "pair-tree-is-a-triploid" in rules_of(answer)


def test_trees_that_refuse_each_other_are_set_aside_and_nothing_is_said_of_bloom(ask) -> None:  # type: ignore[no-untyped-def]
    answer = ask("sweet_cherry.bing", "sweet_cherry.lambert")
    assert answer.asked.judgement.set_aside
    assert rules_of(answer) == {"pair-shares-all-s-alleles"}


def test_trees_that_bloom_apart_are_set_aside_though_the_pollen_is_good(ask) -> None:  # type: ignore[no-untyped-def]
    answer = ask("sweet_cherry.bing", "sweet_cherry.black_tartarian")
    assert answer.asked.verdict.compatibility == "compatible"
    assert "pair-blooms-apart" in rules_of(answer)
    assert answer.asked.judgement.set_aside


@pytest.mark.parametrize(("distance_ft", "near"), [(99.0, True), (100.0, True), (101.0, False), (None, None)])
def test_an_apple_is_served_over_a_hundred_feet(ask, distance_ft, near) -> None:  # type: ignore[no-untyped-def]
    answer = ask("apple.gala", "apple.idared", distance_ft)
    assert answer.asked.within_reach is near
    assert ("pair-stands-too-far-apart" in rules_of(answer)) == (near is False)
    assert ("pair.distance_ft" in answer.unknown) == (distance_ft is None)


def test_a_negative_distance_is_refused() -> None:
    with pytest.raises(NotUnderstood, match="from zero up"):
        PairQuestion("apple.gala", "apple.idared", -1)


def test_bloom_that_is_not_published_is_told_as_unknown(ask) -> None:  # type: ignore[no-untyped-def]
    answer = ask("sweet_cherry.bing", "sweet_cherry.tulare")
    assert answer.asked.verdict.bloom_together is None
    assert "pair.bloom_together" in answer.unknown
    assert "pair-bloom-not-known" in rules_of(answer)


# --- names ------------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def names(rulebook: Rulebook) -> NameBook:
    """The names of the catalogue."""
    return NameBook(rulebook.catalogue)


def test_the_partner_is_looked_for_in_the_crop_of_the_tree_first(names: NameBook) -> None:
    assert find_pair(names, PairNamed("Honeycrisp", "Gala")) == ("apple.honeycrisp", "apple.gala")
    assert find_pair(names, PairNamed("Redhaven", "Gala")) == ("peach.redhaven", "peach.gala")


def test_the_partner_may_be_of_another_crop(names: NameBook) -> None:
    assert find_pair(names, PairNamed("Redhaven", "Fantasia")) == ("peach.redhaven", "nectarine.fantasia")
    assert find_pair(names, PairNamed("Redhaven", "Gala", partner_crop="apple")) == ("peach.redhaven", "apple.gala")


@pytest.mark.parametrize(
    ("named", "pointer", "says"),
    [
        (PairNamed("Bingg", "Lapins"), "/cultivar", "near names: Bing"),
        (PairNamed("Bing", "Lambart"), "/partner", "near names: Lambert"),
        (PairNamed("Gala", "Idared"), "/cultivar", "give the id or the crop as well"),
        (PairNamed("Bing", "Lapins", crop="chery"), "/crop", "no crop"),
        (PairNamed("Bing", "Lapins", partner_crop="xylophone"), "/partner_crop", "no crop"),
    ],
)
def test_a_name_that_is_not_known_is_pointed_at(names: NameBook, named: PairNamed, pointer: str, says: str) -> None:
    with pytest.raises(NotUnderstood) as caught:
        find_pair(names, named)
    assert [at for at, _ in caught.value.faults] == [pointer]
    assert says in caught.value.faults[0][1]
