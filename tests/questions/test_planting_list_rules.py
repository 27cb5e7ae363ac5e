"""The rules on planting lists: one verdict for each line and list, reasons told once, repairs that pass."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from service.domain.month_day import MonthDay
from service.domain.site import Site, StandingTree, Wishes
from service.domain.store import StockItem
from service.questions.planting_list import CheckedLine, CheckedList
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.settings import CHECKOUT
from tests.questions.list_counter import ListCounter, facts

LINE, LIST = "planting-list.line", "planting-list.list"
NORTH = Site(hardiness_zone=6.5, chill_hours=1100)
FAR_NORTH = Site(hardiness_zone=4.0, chill_hours=1600)
GULF = Site(hardiness_zone=9.0, chill_hours=300)
YARD = Site(hardiness_zone=7.5, chill_hours=900, width_ft=20, depth_ft=15, max_height_ft=10)
ORCHARD = "Liberty apple\nEnterprise apple\nMontmorency cherry\nStanley plum"


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


def spoken(line: CheckedLine, name: int = 0) -> set[str]:
    return {one.rule.id for one in line.names[name].judgement.conclusions}


def spoken_of_all(checked: CheckedList) -> set[str]:
    return {one.rule.id for one in checked.judgement.conclusions}


def rules_of(rulebook: Rulebook) -> Iterator[Rule]:
    yield from rulebook.rulesets[LINE]
    yield from rulebook.rulesets[LIST]


def test_every_value_of_every_conclusion_on_lists_is_concluded_by_some_rule(rulebook: Rulebook) -> None:
    made = {(name, value) for rule in rules_of(rulebook) for name, value in rule.conclude.items()}
    for name, conclusion in rulebook.vocabulary.conclusions.items():
        if {LINE, LIST} & set(conclusion.rulesets):
            for value in conclusion.values or (None,):
                assert any(name == one and value in (None, found) for one, found in made), (name, value)


@pytest.mark.parametrize("ruleset", [LINE, LIST])
def test_every_example_comes_to_one_verdict_and_no_two_rules_disagree(rulebook: Rulebook, ruleset: str) -> None:
    matcher, verdict = PlainMatcher(rulebook), {LINE: "verdict", LIST: "list_verdict"}[ruleset]
    tried = 0
    for rule in rulebook.rulesets[ruleset]:
        for example in rule.examples:
            given = {name: value for name, value in example.given.items() if not name.startswith("concluded.")}
            if len(given) < len(example.given) or None in given.values():
                continue
            judgement = matcher.judge(ruleset, {**_always(rulebook, ruleset), **given})
            assert judgement.conflicts == (), (rule.id, example.name)
            assert verdict in judgement.concluded, (rule.id, example.name)
            tried += 1
    assert tried > 60


def _always(rulebook: Rulebook, ruleset: str) -> dict[str, object]:
    """Facts that every case carries, as those of a line or a list of which nothing else is known."""
    if ruleset == LINE:
        return {"line.how": "exact", "line.cultivar": "Liberty", "line.first_alternative": "Enterprise"}
    testable = rulebook.vocabulary.testable(ruleset)
    return {name: 1 for name in ("list.cultivars", "list.lines", "list.trees") if name in testable}


def test_every_limit_of_planting_lists_is_used_by_a_rule_or_named_in_code(rulebook: Rulebook) -> None:
    used = {name for rule in rulebook.rules.values() for name in rule.limits}
    code = "".join(path.read_text(encoding="utf-8") for path in (CHECKOUT / "service").rglob("*.py"))
    ours = [name for name in rulebook.limits if name.startswith("planting_list.") and ".cost." not in name]
    assert [name for name in ours if name not in used and name not in code] == []


def test_every_rule_on_lists_speaks_spanish(rulebook: Rulebook) -> None:
    assert [rule.id for rule in rules_of(rulebook) if rule.id not in rulebook.wording["es"]] == []


def test_there_are_fifty_rules_with_a_published_source(rulebook: Rulebook) -> None:
    assert sum(bool(rule.sources) for rule in rules_of(rulebook)) >= 50


def test_each_pest_that_a_state_regulates_is_spoken_of(rulebook: Rulebook) -> None:
    named = {word for rule in rulebook.rulesets[LIST] for test in rule.when if test.fact == "quarantine.here"
             for word in (test.value if isinstance(test.value, tuple) else (test.value,))}  # fmt: skip
    treatments = rulebook.catalogue.label.treatments.values()
    assert {one.id for one in treatments if one.regulated_in and one.id in rulebook.catalogue.disorders} <= named


# --- verdicts of lines ----------------------------------------------------------------------------------------------


def test_a_tree_that_fits_with_its_partner_gets_a_clean_bill(counter: ListCounter) -> None:
    checked = counter.check(ORCHARD, NORTH, existing_trees=())
    assert [line.verdict for line in checked.lines] == ["fits"] * 4
    assert "list-fits-in-every-line" in spoken_of_all(checked)
    assert "list-pollinates-itself" in spoken_of_all(checked)


def test_what_is_struck_says_why_once_and_nothing_of_lesser_doubts(counter: ListCounter) -> None:
    line = counter.line("Redhaven peach", GULF, existing_trees=())
    assert line.verdict == "does_not_fit"
    assert spoken(line) == {
        "line-gets-far-too-little-chill-in-hours", "line-plant-another-instead", "line-verdict-does-not-fit"
    }  # fmt: skip


def test_shade_sets_aside_with_a_pointer_to_the_reason(counter: ListCounter) -> None:
    line = counter.line("Liberty apple", Site(hardiness_zone=6.5, chill_hours=1100, sun_hours=2), existing_trees=())
    assert {"line-does-not-fit-the-place", "line-nothing-of-the-crop-fits"} <= spoken(line)


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("Zzyxqv", "line-name-is-not-known"),
        ("peach", "line-names-only-a-crop"),
        ("plum", "line-asks-for-a-crop-we-cannot-place"),
        ("Liberty or Enterprise apple", "line-name-has-several-bearers"),
    ],
)
def test_what_nobody_can_read_is_asked_about_and_not_judged(counter: ListCounter, text: str, rule: str) -> None:
    line = counter.line(text, NORTH, existing_trees=())
    assert line.verdict == "not_recognised"
    assert spoken(line) == {rule, "line-verdict-not-recognised"}


def test_a_guess_never_fits_unasked(counter: ListCounter) -> None:
    line = counter.line("Redhavne", NORTH, existing_trees=())
    assert (line.verdict, "line-name-is-a-guess" in spoken(line)) == ("caution", True)


def test_without_a_zone_nothing_gets_a_clean_bill(counter: ListCounter) -> None:
    checked = counter.check("Redhaven peach\nCeleste fig", Site())
    assert {line.verdict for line in checked.lines} == {"caution"}
    assert checked.verdict == "passes_with_care"


def test_in_a_mild_place_nothing_but_figs_and_the_like_fits_without_the_chill(counter: ListCounter) -> None:
    checked = counter.check("Redhaven peach\nCeleste fig", Site(hardiness_zone=9.0), existing_trees=())
    assert ["line-was-not-judged-by-winter-chill" in spoken(line) for line in checked.lines] == [True, False]


def test_a_crop_that_is_a_zone_too_tender_is_a_doubt_and_no_fault(counter: ListCounter) -> None:
    line = counter.line("Granny Smith apple", FAR_NORTH, existing_trees=())
    assert facts(line)["variety.cold"] == "too_cold"
    assert line.verdict == "caution"
    assert "line-is-of-a-crop-that-is-too-tender-here" in spoken(line)


def test_a_group_is_spoken_of_among_its_own_kind_alone(counter: ListCounter) -> None:
    cherries = counter.check("Bing cherry\nLambert cherry", NORTH, existing_trees=())
    assert {"line-lacks-its-partner", "line-others-of-its-kind-do-not-serve"} <= spoken(cherries.lines[0])
    pear = counter.line("Seckel pear\nLiberty apple\nEnterprise apple", NORTH, existing_trees=())
    assert "line-lacks-its-partner" in spoken(pear)
    assert "line-others-of-its-kind-do-not-serve" not in spoken(pear)


def test_the_named_partner_is_one_that_stays_on_the_list(counter: ListCounter) -> None:
    trees = "Liberty apple on Superdwarf\nGala apple on M.9\nEnterprise apple on Nemaguard"
    (line, *_) = counter.check(trees, NORTH, existing_trees=()).lines
    assert facts(line)["pollen.first_partner"] in ("Gala", "Enterprise")


def test_stock_is_told_with_what_may_take_its_place(counter: ListCounter) -> None:
    stock = (StockItem("a", "apple.enterprise", "m_9", 4), StockItem("b", "apple.liberty", "mm_111", 2))
    checked = counter.check("2 Liberty apple on M.9\n5 Enterprise apple on M.9", NORTH, existing_trees=(), stock=stock)
    liberty, enterprise = checked.lines
    assert {"line-is-in-stock-on-other-roots", "line-take-another-from-stock"} <= spoken(liberty)
    assert "line-stock-is-short" in spoken(enterprise)
    assert "list-is-short-in-stock" in spoken_of_all(checked)


# --- order and season -----------------------------------------------------------------------------------------------


def test_slow_trees_are_planted_first_and_tender_ones_last(counter: ListCounter) -> None:
    mild = Site(hardiness_zone=8.5, chill_hours=900)
    checked = counter.check("Celeste fig\nLoring peach\nBartlett pear\nSeckel pear", mild)
    assert checked.order == (3, 4, 2, 1)


@pytest.mark.parametrize(
    ("zone", "season"), [(5.0, "early_spring"), (7.0, "late_winter"), (8.0, "autumn_or_winter")]
)
def test_hardy_trees_are_planted_the_later_the_colder_it_is(counter: ListCounter, zone: float, season: str) -> None:
    line = counter.line("Liberty apple", Site(hardiness_zone=zone, chill_hours=1100), existing_trees=())
    assert line.names[0].judgement.concluded["planting_season"] == season


def test_a_fig_waits_for_the_last_frost(counter: ListCounter) -> None:
    line = counter.line("Celeste fig", Site(hardiness_zone=8.0, chill_hours=900), existing_trees=())
    assert line.names[0].judgement.concluded["planting_season"] == "after_last_frost"


# --- verdicts of lists ----------------------------------------------------------------------------------------------


def test_a_tree_without_a_partner_keeps_the_list_from_passing_where_all_is_told(counter: ListCounter) -> None:
    alone = counter.check("Bing cherry", NORTH, existing_trees=())
    assert alone.lines[0].verdict == "caution"
    assert alone.verdict == "does_not_pass"
    assert counter.check("Bing cherry", NORTH).verdict == "passes_with_care"
    beside = (StandingTree("sweet_cherry", ("sweet_cherry.stella",), 40.0),)
    assert counter.check("Bing cherry", NORTH, existing_trees=beside).verdict != "does_not_pass"


def test_more_trees_than_room_or_than_wished_do_not_pass(counter: ListCounter) -> None:
    text, wishes = "3 Liberty on MM.111\n3 Enterprise on MM.111", Wishes(max_trees=4)
    told = spoken_of_all(counter.check(text, YARD, existing_trees=(), wishes=wishes))
    assert {
        "list-needs-more-ground-than-there-is", "list-leaves-trees-without-room", "list-holds-more-trees-than-wished"
    } <= told  # fmt: skip


def test_one_week_of_work_is_reckoned_among_the_trees_whose_time_is_known(counter: ListCounter) -> None:
    many = counter.check("4 Redhaven peach\n1 Stanley plum", NORTH, existing_trees=())
    assert "list-ripens-all-at-once" in spoken_of_all(many)
    few = counter.check("2 Redhaven peach\n3 Stanley plum", NORTH, existing_trees=())
    known = few.judgement.facts["harvest.known_trees"]
    assert isinstance(known, int)
    assert known < 4
    assert "list-ripens-all-at-once" not in spoken_of_all(few)


def test_a_list_that_nobody_can_read_does_not_pass(counter: ListCounter) -> None:
    checked = counter.check("Zzyxqv\nQwrtplk", NORTH)
    assert checked.verdict == "does_not_pass"
    assert "list-holds-nothing-that-we-can-read" in spoken_of_all(checked)


LISTS = {
    "a mild place": ("Redhaven peach\nFlordaking peach\nMontmorency cherry\nCeleste fig", GULF),
    "the far north": ("Haralson apple\nCeleste fig\nGranny Smith apple\nToka plum", FAR_NORTH),
    "roots of other crops": ("Bartlett pear on Quince A\nRedhaven peach on M.9\nLiberty apple\nGala apple", NORTH),
    "a small yard": ("2 Gala apple on MM.111\n2 Enterprise apple on MM.111\n1 Redhaven peach", YARD),
    "one group of cherries": ("Bing cherry\nLambert cherry\nNapoleon cherry", NORTH),
    "late frosts": ("Tilton apricot\nBing cherry\nReliance peach", Site(
        hardiness_zone=5.5, chill_hours=1300, last_spring_frost=MonthDay(5, 15), first_autumn_frost=MonthDay(9, 20))),
}  # fmt: skip


@pytest.mark.parametrize("name", LISTS)
def test_every_line_gets_a_verdict_by_a_rule_and_a_repaired_list_passes(counter: ListCounter, name: str) -> None:
    checked = counter.check(*LISTS[name], existing_trees=())
    for line in checked.lines:
        assert all("verdict" in one.judgement.concluded for one in line.names)
        assert all(not one.judgement.conflicts for one in line.names)
    if checked.mended is not None and checked.mended.after is not None:
        assert checked.mended.after.verdict != "does_not_pass"
        assert "does_not_fit" not in {line.verdict for line in checked.mended.after.lines}
    else:
        assert checked.verdict != "does_not_pass"
