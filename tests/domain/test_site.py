"""What a customer says of a place, checked when it is made."""

from __future__ import annotations

import pytest

from service.domain.errors import NotUnderstood
from service.domain.site import Site, StandingTree, Wishes, read_zone, zone_text


@pytest.mark.parametrize("zone", ["0a", "4b", "7a", "7b", "13b"])
def test_a_zone_reads_back_as_it_was_written(zone: str) -> None:
    assert zone_text(read_zone(zone)) == zone


@pytest.mark.parametrize("text", ["", "b", "7c", "-3a", "7.5", "zone 7"])
def test_what_is_no_zone_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match="hardiness zone"):
        read_zone(text)


def test_every_impossible_figure_of_a_site_is_told_at_once() -> None:
    with pytest.raises(NotUnderstood) as refused:
        Site(width_ft=-1.0, latitude=91.0, sun_hours=float("nan"), drainage="swampy")  # type: ignore[arg-type]
    assert {pointer for pointer, _ in refused.value.faults} == {"/width_ft", "/latitude", "/sun_hours", "/drainage"}


def test_a_contradictory_site_is_still_a_site() -> None:
    assert Site(hardiness_zone=4.0, chill_hours=150.0).chill_hours == 150.0


def test_months_and_trees_that_cannot_be_are_refused_at_their_place() -> None:
    with pytest.raises(NotUnderstood) as refused:
        Wishes(harvest_months=(7, 13), max_trees=0)
    assert [pointer for pointer, _ in refused.value.faults] == ["/harvest_months/1", "/max_trees"]


@pytest.mark.parametrize("distance", [-1.0, float("inf"), float("nan")])
def test_a_distance_is_a_number_of_feet_from_zero_up(distance: float) -> None:
    with pytest.raises(NotUnderstood):
        StandingTree("apple", distance_ft=distance)
