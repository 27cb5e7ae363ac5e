"""What may be put on a tree: prohibitions outrank all, and none of them is passed over for want of a fact."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

import pytest

from service.domain.label import LabelActive, LabelRecord
from service.domain.label_use import OWN_STOCK, Cause, Customer, DayWeather, Offered, TreatedTree, Use, UsePlace
from service.questions.suggestion import Judges
from service.questions.treatment import JudgedProduct, TreatmentAnswer, TreatmentQuestion, likeliest, point
from service.questions.treatment.waiting import BARRING, waiting_prohibitions
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_labels import DAY, SPINOSAD, offered, record, site, use


@pytest.fixture(scope="session")
def judges(rulebook: Rulebook) -> Judges:
    plain = PlainMatcher(rulebook)
    return Judges(sweeping=plain, asking=plain)


@pytest.fixture
def ask(rulebook: Rulebook, judges: Judges) -> Ask:
    return Ask(rulebook, judges)


class Ask:
    """Asks about products on an apple tree."""

    def __init__(self, rulebook: Rulebook, judges: Judges) -> None:
        self.rulebook, self.judges = rulebook, judges

    def whole(self, told: Use, *records: LabelRecord) -> TreatmentAnswer:
        question = TreatmentQuestion(told, tuple(map(offered, records)), records)
        return point(question, rulebook=self.rulebook, judges=self.judges)

    def one(self, told: Use, one: LabelRecord = SPINOSAD) -> JudgedProduct:
        return self.whole(told, one).products[0]


def rules_of(product: JudgedProduct) -> set[str]:
    return {rule.id for rule in product.judgement.rules}


def test_a_product_inside_its_label_is_allowed(ask: Ask) -> None:
    assert ask.one(use()).verdict == "allowed"


@pytest.mark.parametrize(
    "told",
    [
        pytest.param(use(harvest_from=None), id="harvest"),
        pytest.param(use(state=None), id="state"),
        pytest.param(use(stage=None), id="stage"),
    ],
)
def test_what_nobody_told_never_leaves_a_product_allowed(ask: Ask, told: Use) -> None:
    product = ask.one(told)
    assert product.verdict == "caution"
    assert [one for one in product.waiting if not one.left_to_user]


@pytest.mark.parametrize(
    "faulty",
    [
        pytest.param(record(sites=(site(crops=()),)), id="printed name not settled"),
        pytest.param(record(sites=(site(crops=("peach",)),)), id="crop not printed"),
        pytest.param(record(registration_status=None), id="status not known"),
        pytest.param(record(label_captured_by=replace(SPINOSAD.label_captured_by, checked_by=None)), id="unchecked"),
        pytest.param(record(restricted_use=True), id="restricted"),
        pytest.param(record(existing_stocks_use_end=date(2025, 1, 1)), id="use ended"),
        pytest.param(record(epa_reg_no=None), id="no number"),
        pytest.param(record(signal_word=None), id="no signal word"),
    ],
)
def test_a_record_that_cannot_be_trusted_is_never_allowed(ask: Ask, faulty: LabelRecord) -> None:
    assert ask.one(use(), faulty).verdict == "forbidden"


def test_what_the_sprayer_sees_to_stands_as_a_condition(ask: Ask) -> None:
    near_water = record(environmental=replace(SPINOSAD.environmental, buffer_ft=25))
    product = ask.one(use(), near_water)
    assert product.verdict == "allowed"
    assert "product.buffer_short_ft" in {name for one in product.waiting if one.left_to_user for name in one.facts}
    assert ask.one(use(place=UsePlace(water_ft=24.9)), near_water).verdict == "forbidden"
    assert ask.one(use(place=UsePlace(water_ft=25)), near_water).verdict == "allowed"


def firing_examples(rulebook: Rulebook) -> Iterator[tuple[Rule, dict[str, object]]]:
    for ruleset in ("treatment.need", "treatment.product"):
        for rule in rulebook.rulesets[ruleset]:
            if rule.outcome in BARRING:
                yield from ((rule, dict(one.given)) for one in rule.examples if one.fires)


def test_every_prohibition_waits_for_each_fact_that_it_needs(rulebook: Rulebook, judges: Judges) -> None:
    passed_over = []
    for rule, given in firing_examples(rulebook):
        for test in rule.when:
            if not test.needs_known or test.fact.startswith("concluded."):
                continue
            facts = {name: value for name, value in given.items() if name != test.fact and not name.startswith("conc")}
            judgement = judges.asking.judge(rule.ruleset, facts)  # type: ignore[arg-type]
            waiting = {one.rule.id: one.facts for one in waiting_prohibitions(judgement, rulebook)}
            if test.fact not in waiting.get(rule.id, ()):
                passed_over.append((rule.id, test.fact))
    assert passed_over == []


def test_a_prohibition_of_the_vocabulary_that_waits_for_a_gating_fact_is_no_condition(
    rulebook: Rulebook, judges: Judges
) -> None:
    judgement = judges.asking.judge("treatment.product", {"product.phi_printed": True})
    facts = rulebook.vocabulary.facts
    for one in waiting_prohibitions(judgement, rulebook):
        assert one.left_to_user == all(facts[name].left_to_user for name in one.facts)


def test_no_prohibition_of_a_product_rests_on_a_conclusion(rulebook: Rulebook) -> None:
    resting = [rule.id for rule, _ in firing_examples(rulebook) if rule.reads]
    assert resting == []


def test_exposure_stops_all_talk_of_products(ask: Ask) -> None:
    answer = ask.whole(use(exposure=True), SPINOSAD)
    assert answer.need.concluded["need"] == "emergency"
    assert [one.verdict for one in answer.products] == ["forbidden"]


@pytest.mark.parametrize(
    ("cause", "crop", "need"),
    [
        ("plum_pox", "peach", "report"),
        ("silver_leaf", "apple", "no_product_works"),
        ("nitrogen_deficiency", "apple", "not_a_pest"),
    ],
)
def test_a_cause_that_no_product_helps_bars_every_product(ask: Ask, cause: str, crop: str, need: str) -> None:
    answer = ask.whole(use(cause=Cause(cause), crop=crop), record(sites=(site(crops=(crop,), pests=(cause,)),)))
    assert answer.need.concluded["need"] == need
    assert [one.verdict for one in answer.products] == ["forbidden"]


def test_a_diagnosis_that_is_not_sure_points_to_nothing(ask: Ask, rulebook: Rulebook) -> None:
    unsure = likeliest([("codling_moth", 0.5), ("apple_maggot", 0.1)], rulebook)
    assert ask.one(use(cause=unsure)).verdict == "forbidden"
    sure = likeliest([("oriental_fruit_moth", 0.05), ("codling_moth", 0.9)], rulebook)
    assert (sure.id, ask.one(use(cause=sure)).verdict) == ("codling_moth", "allowed")


def test_a_look_alike_that_is_likely_enough_stays_open(rulebook: Rulebook) -> None:
    other = rulebook.catalogue.disorders["codling_moth"].look_alikes[0].disorder
    assert likeliest([("codling_moth", 0.55), (other, 0.4)], rulebook).look_alike_open
    assert not likeliest([("codling_moth", 0.9), (other, 0.05)], rulebook).look_alike_open


def test_of_two_printed_entries_the_one_that_fits_counts(ask: Ask) -> None:
    early = site(crop_as_printed="apple, before bloom", stages_allowed=("dormant",))
    product = ask.one(use(), record(sites=(early, site())))
    assert product.verdict == "allowed"
    assert product.direction is not None
    assert product.direction.crop_as_printed == "apple"


def test_the_day_before_the_interval_ends_is_too_soon_and_the_day_itself_is_not(ask: Ask) -> None:
    """40 CFR 156.10(i)(2): the printed days before harvest are a direction for use."""
    assert ask.one(use(harvest_from=date(2025, 6, 16))).verdict == "forbidden"
    on_time = ask.one(use(harvest_from=date(2025, 6, 17)))
    assert on_time.verdict == "allowed"
    assert on_time.dates.earliest_harvest == date(2025, 6, 17)
    assert on_time.dates.last_use_before_harvest == DAY


def test_a_harvest_that_is_over_is_asked_for_again(ask: Ask) -> None:
    autumn = use(on=date(2025, 10, 20), stage="post_harvest", harvest_from=date(2025, 9, 20))
    assert ask.one(autumn).verdict == "caution"
    assert ask.one(replace(autumn, stage="ripening")).verdict == "forbidden"


def test_an_interval_of_no_days_needs_no_harvest_date(ask: Ask) -> None:
    assert ask.one(use(harvest_from=None), record(sites=(site(phi_days=0),))).verdict == "allowed"


def test_the_state_law_on_actives_begins_with_its_day(ask: Ask) -> None:
    """California, AB 363: from 1 January 2025."""
    drench = record("imidacloprid", states_registered=("CA",), systemic=True)
    told = use(state="CA", stage="fruit_growth")
    assert ask.one(told, drench).facts["product.restricted_in_state"] is True
    before = ask.one(replace(told, on=date(2024, 12, 31)), drench)
    assert before.facts["product.restricted_in_state"] is False


def test_what_the_customer_owns_is_judged_as_owned(ask: Ask, rulebook: Rulebook, judges: Judges) -> None:
    cancelled = record(registration_status="cancelled")
    mine = Offered("T02", cancelled, owned=True)
    question = TreatmentQuestion(use(), (mine,))
    answer = point(question, rulebook=rulebook, judges=judges)
    assert answer.products[0].verdict == "caution"
    assert ask.one(use(), cancelled).verdict == "forbidden"


def test_unknown_temperatures_keep_oil_back(ask: Ask) -> None:
    oil = record("mineral oil", sites=(site(pests=("codling_moth",), phi_days=0),))
    assert ask.one(use(), oil).verdict == "caution"
    mild = DayWeather(temp_f=60, high_f=75, low_48h_f=50)
    assert ask.one(use(weather=mild), oil).verdict == "allowed"
    dry = ask.one(use(weather=mild, tree=TreatedTree(drought_stressed=True)), oil)
    assert dry.verdict == "forbidden"


def test_products_come_with_the_mildest_verdict_first(ask: Ask) -> None:
    answer = ask.whole(use(customer=Customer(organic=True)), record(id="T03", organic_listed=False), SPINOSAD)
    assert [one.verdict for one in answer.products] == ["allowed", "forbidden"]


def test_a_forbidden_product_asks_for_nothing_more(ask: Ask) -> None:
    answer = ask.whole(use(state=None, exposure=True), SPINOSAD)
    assert "product.registered_in_state" not in answer.not_judged
    assert "product.registered_in_state" in ask.whole(use(state=None), SPINOSAD).not_judged


def test_a_tree_told_to_bear_none_is_a_matter_of_care_where_days_are_printed(ask: Ask) -> None:
    young = use(tree=TreatedTree(nonbearing=True), harvest_from=None)
    assert ask.one(young).verdict == "caution"
    assert ask.one(young, record(sites=(site(phi_days=0),))).verdict == "allowed"


def test_an_active_alone_asks_for_the_container_unless_it_is_refused(ask: Ask) -> None:
    def own(active: str) -> JudgedProduct:
        only = Offered(OWN_STOCK, LabelRecord(active_ingredients=(LabelActive(active),)), owned=True)
        question = TreatmentQuestion(use(), (only,))
        return point(question, rulebook=ask.rulebook, judges=ask.judges).products[0]

    assert own("spinosad").verdict == "caution"
    assert "caution-that-the-label-of-own-stock-is-not-read" in rules_of(own("spinosad"))
    assert own("diazinon").verdict == "forbidden"


def test_tables_that_differ_are_not_called_good(ask: Ask) -> None:
    facts = ask.one(use(cause=Cause("apple_scab")), record(active_ingredients=(LabelActive("sulfur"),))).facts
    assert (facts["product.rating"], facts["product.rating_low"]) == ("good", "fair")
