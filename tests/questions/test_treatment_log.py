"""Counts, days between uses and rotation, read from the log of one tree."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from service.domain.label import Compatibility, KeepApart, LabelRecord
from service.domain.label_use import Applied, Use
from service.questions.treatment.log_facts import Log
from service.questions.treatment.question import Facts
from service.questions.treatment.substances import Substances
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_labels import APPLE, DAY, SPINOSAD, record, site, use, used

OIL = record("mineral oil", id="T10")
SULFUR = record("sulfur", id="T11")
CAPTAN = record("captan", id="T12")
GAP = KeepApart("sulfur", days_before=30, days_after=30)


@pytest.fixture
def substances(rulebook: Rulebook) -> Substances:
    return Substances(rulebook.catalogue)


def facts_of(told: Use, one: LabelRecord, substances: Substances) -> Facts:
    return Log(told, one, APPLE, substances).facts()


def test_uses_are_counted_by_the_year_and_by_the_product(substances: Substances) -> None:
    log = (used(SPINOSAD, date(2024, 8, 1)), used(SPINOSAD, date(2025, 5, 1)), used(CAPTAN, date(2025, 5, 2)))
    facts = facts_of(use(log=log), SPINOSAD, substances)
    assert (facts["product.uses"], facts["product.max_uses"], facts["product.uses_left"]) == (1, 6, 5)
    assert facts["product.active_uses_elsewhere"] == 0


def test_the_same_active_under_another_name_is_counted_apart(substances: Substances) -> None:
    twin = record("spinosad", id="T20")
    facts = facts_of(use(log=(used(twin, date(2025, 5, 1)),)), SPINOSAD, substances)
    assert (facts["product.uses"], facts["product.active_uses"], facts["product.active_uses_elsewhere"]) == (0, 1, 1)


def test_a_distributor_product_is_the_product_that_it_rests_on(substances: Substances) -> None:
    """40 CFR 152.132: the first two parts of the number name the product."""
    theirs = replace(SPINOSAD, id="T30", epa_reg_no="9999301-1-9999201")
    assert facts_of(use(log=(used(theirs, date(2025, 5, 1)),)), SPINOSAD, substances)["product.uses"] == 1


def test_actives_alone_count_for_the_active_and_not_for_the_product(substances: Substances) -> None:
    facts = facts_of(use(log=(Applied(date(2025, 5, 1), ("spinosad",)),)), SPINOSAD, substances)
    assert (facts["product.uses"], facts["product.active_uses"]) == (0, 1)


@pytest.mark.parametrize(("last", "short"), [(date(2025, 6, 1), 1), (date(2025, 5, 31), 0), (date(2025, 1, 1), 0)])
def test_days_between_two_uses(substances: Substances, last: date, short: int) -> None:
    facts = facts_of(use(log=(used(SPINOSAD, last),)), SPINOSAD, substances)
    assert facts["product.retreat_short_days"] == short


def test_a_label_that_prints_no_number_leaves_none_to_count(substances: Substances) -> None:
    silent = site(max_apps_per_year=None, min_retreat_days=None)
    facts = Log(use(log=(used(SPINOSAD, DAY),)), SPINOSAD, silent, substances).facts()
    assert facts["product.max_uses_printed"] is False
    assert "product.uses_left" not in facts
    assert facts["product.retreat_short_days"] == 0


def test_the_smaller_of_year_and_season_binds(substances: Substances) -> None:
    both = site(max_apps_per_year=6, max_apps_per_season=2)
    assert Log(use(), SPINOSAD, both, substances).facts()["product.max_uses"] == 2


@pytest.mark.parametrize(("one", "other"), [(OIL, SULFUR), (SULFUR, OIL)])
def test_oil_and_sulfur_meet_in_either_order(substances: Substances, one: LabelRecord, other: LabelRecord) -> None:
    facts = facts_of(use(log=(used(other, date(2025, 6, 1)),)), one, substances)
    assert (facts["product.oil_sulfur_met"], facts["product.oil_sulfur_days"]) == (True, 9)
    assert facts["product.oil_sulfur_printed"] is False
    assert facts["product.oil_captan_met"] is False


@pytest.mark.parametrize("printing", ["the oil prints it", "the sulfur prints it"])
def test_the_longest_gap_that_either_label_prints_counts(substances: Substances, printing: str) -> None:
    gap = GAP if printing == "the oil prints it" else replace(GAP, other="mineral oil")
    oil = replace(OIL, compatibility=Compatibility(intervals=(gap,) if gap.other == "sulfur" else ()))
    sulfur = replace(SULFUR, compatibility=Compatibility(intervals=(gap,) if gap.other != "sulfur" else ()))
    facts = facts_of(use(log=(used(sulfur, date(2025, 5, 20)),)), oil, substances)
    assert (facts["product.oil_sulfur_printed"], facts["product.oil_sulfur_short_days"]) == (True, 9)


def test_a_gap_to_sulfur_holds_for_lime_sulfur(substances: Substances) -> None:
    """Common practice: the milder sulfur's wait is the least that lime sulfur asks for."""
    oil = replace(OIL, compatibility=Compatibility(intervals=(GAP,)))
    lime_sulfur = used(record("calcium polysulfide", id="T13"), date(2025, 5, 20))
    facts = facts_of(use(log=(lime_sulfur,)), oil, substances)
    assert (facts["product.oil_sulfur_printed"], facts["product.oil_sulfur_short_days"]) == (True, 9)


def test_other_printed_gaps_are_kept_too(substances: Substances) -> None:
    apart = Compatibility(intervals=(KeepApart("captan", days_before=7),))
    facts = facts_of(use(log=(used(CAPTAN, date(2025, 6, 5)),)), record(compatibility=apart), substances)
    assert facts["product.apart_short_days"] == 2


def test_a_third_spray_of_one_group_is_a_run_of_three(substances: Substances) -> None:
    log = (used(SPINOSAD, date(2025, 5, 1)), used(SPINOSAD, date(2025, 5, 20)))
    assert facts_of(use(log=log), SPINOSAD, substances)["product.group_run"] == 3


def test_a_fungicide_between_breaks_no_run_of_insecticides_and_another_insecticide_does(substances: Substances) -> None:
    first = used(SPINOSAD, date(2025, 5, 1))
    fungicide = used(record("myclobutanil", id="T40"), date(2025, 5, 20))
    other = used(record("malathion", id="T41"), date(2025, 5, 20))
    assert facts_of(use(log=(first, fungicide)), SPINOSAD, substances)["product.group_run"] == 2
    facts = facts_of(use(log=(first, other)), SPINOSAD, substances)
    assert (facts["product.group_run"], facts["product.group_shared"]) == (1, False)


def test_what_acts_on_many_sites_makes_no_run(substances: Substances) -> None:
    log = (used(CAPTAN, date(2025, 5, 1)), used(CAPTAN, date(2025, 5, 20)))
    assert facts_of(use(log=log), CAPTAN, substances)["product.group_run"] == 0


def test_a_minimum_risk_product_works_against_what_it_prints(substances: Substances) -> None:
    herbs = replace(SPINOSAD, active_ingredients=(), sites=(site(pests=("spider_mites", "rosy_apple_aphid")),))
    assert substances.roles(herbs) == ("insecticide", "miticide")
    assert substances.bee_class(replace(herbs, pollinator=replace(herbs.pollinator, uc_class=None))) == "unrated"
