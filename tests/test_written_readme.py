"""The question in README.md is one that the service answers as the page says."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.commands.demo import demo_shelf
from service.parts import Parts
from service.settings import CHECKOUT
from service.storage.shelf import put_all, withdraw

README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
CURL = re.compile(
    r"curl -s http://127\.0\.0\.1:8080(/v1/\S+) -H 'Content-Type: application/json' -d '(.*?)'\n```", re.DOTALL
)
ANSWER = re.compile(r"```json\n(.*?)```", re.DOTALL)


@pytest.fixture
def _demo_shelf(app: Flask) -> Iterator[None]:
    """The shelf of the invented store, as a first start loads it; taken off again afterwards."""
    house: Parts = app.extensions["fruitwright"]
    products = put_all(house.database, demo_shelf(CHECKOUT / "rules", house.rulebook.catalogue))
    yield
    for product in products:
        withdraw(house.database, product.id)


def holds(shown: Any, told: Any) -> bool:
    """Whether what the page shows stands in what the service told; `…` stands for anything."""
    if shown == "…":
        return True
    if isinstance(shown, dict):
        return isinstance(told, dict) and all(
            key == "…" or (key in told and holds(value, told[key])) for key, value in shown.items()
        )
    if isinstance(shown, list):
        return isinstance(told, list) and all(one == "…" or any(holds(one, each) for each in told) for one in shown)
    if isinstance(shown, str) and shown.endswith("…"):
        return isinstance(told, str) and told.startswith(shown[:-1].rstrip())
    return bool(shown == told)


@pytest.mark.usefixtures("_demo_shelf")
def test_every_question_on_the_page_is_answered_as_it_says(client: FlaskClient) -> None:
    questions = CURL.findall(README)
    answers = ANSWER.findall(README)
    assert len(questions) == len(answers) >= 1
    for (path, body), answer in zip(questions, answers, strict=True):
        told = client.post(path, json=json.loads(body))
        assert told.status_code == 200
        assert holds(json.loads(answer), told.json), path
