"""Dates of a season: what must hold whatever bloom is."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.phenology import (
    Almanac,
    Bloom,
    Edge,
    Mark,
    bloom_from_stage,
    date_in_season,
    first_within,
    season_of,
    stage_marks,
    task_mark,
)
from service.domain.season import StageSpan

SPANS = (
    StageSpan("dormant", between=("leaf_fall", "bloom")),
    StageSpan("bloom", -3, 4),
    StageSpan("shuck_split", 10, 25),
    StageSpan("fruit_sizing", between=("shuck_split", "harvest")),
    StageSpan("harvest", 85, 120),
    StageSpan("postharvest", between=("harvest", "leaf_fall")),
)
DAYS = st.dates(date(2026, 1, 1), date(2028, 12, 31))


def fall(year: int) -> Mark:
    return Mark(date(year, 11, 1), date(year, 11, 30), "calendar")


@given(day=st.integers(1, 365), southern=st.booleans())
def test_a_day_lies_in_the_season_that_it_is_dated_in(day: int, southern: bool) -> None:
    assert season_of(date_in_season(day, 2027, southern=southern), southern=southern) == 2027


@given(bloom=st.dates(date(2027, 2, 1), date(2027, 5, 20)))
def test_stages_follow_one_another_without_a_gap_between_what_fills_them(bloom: date) -> None:
    marks = stage_marks(SPANS, Bloom(bloom, "observed"), {"leaf_fall": fall(2027), "before": fall(2026)})
    assert marks["dormant"].first == date(2026, 12, 1)
    assert marks["dormant"].last + timedelta(days=1) == marks["bloom"].first
    assert marks["fruit_sizing"].last + timedelta(days=1) == marks["harvest"].first
    assert marks["postharvest"].last + timedelta(days=1) == marks["leaf_fall"].first
    assert "before" not in marks


@given(bloom=DAYS, later=st.integers(1, 60))
def test_later_bloom_moves_every_stage_that_hangs_on_it_by_as_much(bloom: date, later: int) -> None:
    early = stage_marks(SPANS, Bloom(bloom, "observed"), {})
    late = stage_marks(SPANS, Bloom(bloom + timedelta(days=later), "observed"), {})
    assert {name: mark.first - early[name].first for name, mark in late.items()} == dict.fromkeys(
        early, timedelta(days=later)
    )


def test_without_bloom_only_what_is_known_has_dates() -> None:
    assert set(stage_marks(SPANS, None, {"leaf_fall": fall(2027), "before": fall(2026)})) == {"leaf_fall"}


def test_a_stage_is_missing_where_its_neighbours_leave_no_day() -> None:
    picked = Mark(date(2027, 3, 20), date(2027, 4, 1), "calendar")
    assert "fruit_sizing" not in stage_marks(SPANS, Bloom(date(2027, 3, 1), "observed"), {"harvest": picked})


def test_what_lies_between_is_as_sure_as_the_weaker_of_its_ends() -> None:
    marks = stage_marks(SPANS, Bloom(date(2027, 3, 1), "estimated", 9), {"leaf_fall": fall(2027)})
    assert (marks["postharvest"].basis, marks["postharvest"].spread_days) == ("estimated", 9)


@given(seen=DAYS)
def test_a_stage_leads_back_to_the_bloom_from_which_it_follows(seen: date) -> None:
    span = StageSpan("shuck_split", 10, 25)
    bloom, spread = bloom_from_stage(seen, span)
    mark = Bloom(bloom, "estimated").mark(10, 25)
    assert mark.first <= seen <= mark.last
    assert spread == 7.5


def test_a_stage_between_others_tells_nothing_of_bloom() -> None:
    with pytest.raises(ValueError, match="fruit_sizing has no days"):
        bloom_from_stage(date(2027, 5, 1), SPANS[3])


def test_a_task_that_would_close_before_it_opens_closes_in_the_next_season() -> None:
    marks = {year: {"leaf_fall": fall(year), "pink": Mark(date(year, 3, 1), date(year, 3, 9), "observed")}
             for year in (2026, 2027)}  # fmt: skip
    found = task_mark(Edge("leaf_fall"), Edge("pink", after_days=-2), Almanac(marks), year=2026)
    assert found == Mark(date(2026, 11, 1), date(2027, 3, 7), "calendar")


def test_a_task_whose_mark_is_missing_has_no_days() -> None:
    assert task_mark(Edge("pink"), Edge("pink"), Almanac({2026: {"leaf_fall": fall(2026)}}), year=2026) is None
    assert task_mark(Edge(), Edge(), Almanac({2026: {}}), year=2026) is None


def test_of_several_occurrences_the_first_that_is_not_over_is_taken() -> None:
    found = first_within([fall(2027), None, fall(2025), fall(2026)], date(2026, 11, 30), date(2027, 11, 30))
    assert found == fall(2026)
    assert first_within([fall(2026)], date(2026, 12, 1), date(2027, 1, 1)) is None
