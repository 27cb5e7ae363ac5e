"""The year of a tree in its first summer: it grows, and is not asked for fruit."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

OF_FRUIT = {"set_judge", "drop_normal", "props", "pick", "clean_drop", "net_birds", "thin_final", "thin_if_heavy"}


def year(client: FlaskClient, **tree: Any) -> dict[str, Any]:
    told = client.post(
        "/v1/season-plans",
        json={
            "trees": [{"seen": {"full_bloom": "2027-03-10"}, **tree}], "start": "2027-03-15",
            "site": {"hardiness_zone": "9b"},
        },
    )  # fmt: skip
    assert told.status_code == 200
    plan: dict[str, Any] = told.json["answer"]["trees"][0]
    return plan


@pytest.mark.parametrize("crop", ["peach", "apple", "sweet_cherry"])
@pytest.mark.parametrize("young", [{"age_years": 1}, {"just_planted": True}], ids=["by age", "just planted"])
def test_a_tree_in_its_first_summer_has_its_fruit_taken_off_and_is_asked_for_none(
    client: FlaskClient, crop: str, young: dict[str, Any]
) -> None:
    # USU_FIRSTYEAR, and the thinning plan of the same tree: all fruit of the first year comes off
    tasks = {task["task"]: task["text"] for task in year(client, crop=crop, **young)["tasks"]}
    assert not OF_FRUIT & tasks.keys()
    assert "Take off every fruit" in tasks["thin_main"]


def test_a_grown_tree_is_thinned_and_picked(client: FlaskClient) -> None:
    tasks = {task["task"] for task in year(client, crop="peach", age_years=6)["tasks"]}
    assert {"set_judge", "thin_main", "pick"} <= tasks


def test_what_is_not_known_of_frost_is_said_once(client: FlaskClient) -> None:
    plan = year(client, crop="peach", age_years=6)
    said = [reason["rule"] for part in (plan, *plan["stages"]) for reason in part.get("reasons", [])]
    assert said.count("last-frost-not-told") == 1
