"""The heat of the season in a diagnosis: degree days as told, or counted from the temperatures of the place."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.domain.sick_tree import InsectHeat, RecentWeather, Seen, SickTree
from service.reasoning.rulebook import Rulebook
from tests.questions.counter import Counter

START = date(2026, 4, 28)


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> Counter:
    """A counter with the real rulebook."""
    return Counter(rulebook)


def likelihood(counter: Counter, f_days: float | None) -> float:
    heat = () if f_days is None else (InsectHeat("codling_moth", f_days),)
    tree = SickTree("apple", stage="fruit_growth", seen=Seen(("fr_worm_core",)),
                    weather=RecentWeather(insect_heat=heat))  # fmt: skip
    return dict(counter.ask(tree).likelihoods.ranked)["codling_moth"]


def test_before_its_eggs_hatch_codling_moth_is_less_likely_and_after_it_more(counter: Counter) -> None:
    """usu_timeline: egg hatch begins at 220 to 250 °F degree days after the first steady catch."""
    assert likelihood(counter, 219) < likelihood(counter, None) < likelihood(counter, 220)


def told(client: FlaskClient, *, days: int, low: float, high: float) -> list[str]:
    """The rules that spoke of codling moth after so many days of one temperature since the first catch."""
    every = [START - timedelta(days=1) + timedelta(days=number) for number in range(days + 2)]
    rows = [{"date": day.isoformat(), "min_f": low, "max_f": high} for day in every]
    question: dict[str, Any] = {
        "crop": "apple", "stage": "fruit_growth", "date": (START + timedelta(days=days)).isoformat(),
        "signs": {"present": ["fr_worm_core"]},
        "weather": {"insect_heat": [{"disorder": "codling_moth", "since": START.isoformat()}]},
        "site": {"climate": {"latitude": 40, "daily": rows}},
    }  # fmt: skip
    answer = client.post("/v1/diagnoses", json=question)
    assert answer.status_code == 200, answer.text
    return [one["rule"] for one in answer.json["answer"]["suspects"][0]["reasons"]]


def test_degree_days_are_counted_from_the_temperatures_of_the_place(client: FlaskClient) -> None:
    """Days of 60 to 80 °F lie wholly between the thresholds and give their mean above 50 °F: 20 each, 220 in eleven."""
    assert "diagnosis-insect-not-due-by-heat" in told(client, days=10, low=60, high=80)
    assert "diagnosis-insect-due-by-heat" in told(client, days=11, low=60, high=80)


def test_a_season_that_was_not_read_whole_says_nothing(client: FlaskClient) -> None:
    question = {
        "crop": "apple", "date": "2026-06-20",
        "weather": {"insect_heat": [{"disorder": "codling_moth", "since": "2026-01-01"}]},
        "site": {"climate": {"latitude": 40, "daily": [
            {"date": (START + timedelta(days=n)).isoformat(), "min_f": 50, "max_f": 70} for n in range(5)]}},
    }  # fmt: skip
    answer = client.post("/v1/diagnoses", json=question)
    assert answer.status_code == 200
    assert not [one for one in answer.json["conclusions"] if "by-heat" in one["rule"]]


def test_an_insect_without_a_clock_is_pointed_at(client: FlaskClient) -> None:
    heat = [{"disorder": "codling_moth", "degree_days": 90}, {"disorder": "wasps", "degree_days": 90}]
    answer = client.post("/v1/diagnoses", json={"crop": "apple", "weather": {"insect_heat": heat}})
    assert [fault["pointer"] for fault in answer.json["errors"]] == ["/weather/insect_heat/1/disorder"]
