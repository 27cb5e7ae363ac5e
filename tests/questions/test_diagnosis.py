"""The diagnosis of real trees: what is first, what is never suspected, what is asked next."""

from __future__ import annotations

from typing import Any

import pytest

from service.domain.errors import NotUnderstood
from service.domain.sick_tree import RecentWeather, Seen, SickTree, WetPeriod
from service.knowledge.names import NameBook
from service.questions.diagnosis import NamedDiagnosis, find_diagnosed
from service.reasoning.rulebook import Rulebook
from tests.questions.counter import Case, Counter, read_cases, suspects

CASES = read_cases()


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    """A counter with the real rulebook."""
    return Counter(rulebook)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_the_expected_cause_comes_first(counter: Counter, case: Case) -> None:
    answer = counter.ask(case.tree())
    assert suspects(answer)[0] == case.expected


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_forbidden_cause_is_never_weighed(counter: Counter, case: Case) -> None:
    weighed = {name for name, _ in counter.ask(case.tree()).likelihoods.ranked}
    assert weighed.isdisjoint(case.never)


def test_a_plum_with_curled_leaves_is_told_that_it_is_no_host_of_leaf_curl(counter: Counter) -> None:
    tree = SickTree("japanese_plum", stage="shoot_growth", seen=Seen(("lf_curl_tight",)))
    answer = counter.ask(tree, suspected=("peach_leaf_curl",))
    assert answer.ruled_out[0].disorder.id == "peach_leaf_curl"
    assert answer.ruled_out[0].facts["disorder.host"] == "not_host"
    assert "peach_leaf_curl" not in suspects(answer)


def test_what_somebody_named_is_answered_for_even_where_nothing_points_to_it(counter: Counter) -> None:
    answer = counter.ask(SickTree("fig"), suspected=("apple_scab",))
    assert [one.disorder.id for one in answer.ruled_out] == ["apple_scab"]


def test_each_question_is_new_and_the_most_telling_comes_first(counter: Counter) -> None:
    seen = Seen(("lf_curl_tight",), ("lf_thick_pucker",), cannot_tell=("lf_honeydew",))
    asked = counter.ask(SickTree("japanese_plum", stage="shoot_growth", seen=seen)).ask_next
    assert asked
    assert not {one.sign.id for one in asked} & seen.asked
    assert [one.split.gain for one in asked] == sorted((one.split.gain for one in asked), reverse=True)


def test_yes_to_the_first_question_leads_where_the_answer_said(counter: Counter) -> None:
    tree = SickTree("european_pear", stage="petal_fall", seen=Seen(("sh_crook",)))
    first = counter.ask(tree).ask_next[0]
    after = counter.ask(SickTree("european_pear", stage="petal_fall", seen=Seen(("sh_crook", first.sign.id))))
    assert after.suspects[0].disorder.id == first.if_yes.disorder
    if after.suspects[0].cause.judgement.points == counter.ask(tree).suspects[0].cause.judgement.points:
        assert after.suspects[0].likelihood == pytest.approx(first.if_yes.likelihood)


def test_the_two_likeliest_are_always_told_apart(counter: Counter) -> None:
    for case in CASES:
        answer = counter.ask(case.tree())
        assert answer.tell_apart is not None
        assert answer.tell_apart.first.id == suspects(answer)[0]
        assert not set(answer.tell_apart.signs) & {*case.present, *case.absent}


def test_a_complaint_lifts_the_causes_that_it_points_to(counter: Counter, rulebook: Rulebook) -> None:
    lifted = 0
    for complaint in rulebook.catalogue.complaints.values():
        crop = complaint.crops[0] if complaint.crops else "apple"
        with_it = dict(counter.ask(SickTree(crop), complaint=complaint.id).likelihoods.ranked)
        without = dict(counter.ask(SickTree(crop)).likelihoods.ranked)
        for cause in set(complaint.disorders) & set(without):
            assert with_it[cause] > without[cause] or len(set(complaint.disorders) & set(without)) > 5
            lifted += 1
    assert lifted > 30


def test_words_are_offered_and_count_for_nothing(counter: Counter) -> None:
    tree = SickTree("japanese_plum", stage="shoot_growth")
    told = counter.ask(tree, words="the new leaves are all curled up and sticky")
    assert told.reading is not None
    assert told.reading.signs
    assert told.likelihoods.ranked == counter.ask(tree).likelihoods.ranked


def test_a_wet_spell_in_bloom_is_a_fact_of_the_case(counter: Counter, rulebook: Rulebook) -> None:
    wet = RecentWeather(wet_periods=(WetPeriod("bloom", hours=20, mean_f=60, rain_in=0.5),))
    answer = counter.ask(SickTree("apple", stage="fruit_set", weather=wet, seen=Seen(("lf_spots_olive",))))
    assert suspects(answer)[0] == "apple_scab"
    from service.questions.diagnosis.facts import case_facts  # noqa: PLC0415

    facts = case_facts(answer.question, answer.site, rulebook)
    assert "apple_scab" in facts["recent.infection"]


@pytest.mark.parametrize(
    ("named", "pointer"),
    [
        ({"crop": "aple"}, "/crop"),
        ({"crop": "apple", "cultivar": "Libertie"}, "/cultivar"),
        ({"crop": "apple", "complaint": "no_blom"}, "/complaint"),
        ({"crop": "apple", "suspected": ("scabb",)}, "/suspected/0"),
        ({"crop": "apple", "signs": {"absent": ["lf_shothole", "lf_shothol"]}}, "/signs/absent/1"),
    ],
)
def test_a_name_that_is_not_known_is_pointed_at(rulebook: Rulebook, named: dict[str, Any], pointer: str) -> None:
    with pytest.raises(NotUnderstood) as fault:
        find_diagnosed(NameBook(rulebook.catalogue), rulebook.catalogue, NamedDiagnosis(**named))
    assert [where for where, _ in fault.value.faults] == [pointer]


def test_a_sign_cannot_be_there_and_not_there() -> None:
    with pytest.raises(NotUnderstood, match="leave one of the two out"):
        Seen(("lf_shothole",), ("lf_shothole",))
