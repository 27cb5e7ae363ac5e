"""Lives, is ready, and counts: what operators may rely on."""

from __future__ import annotations

import dataclasses
from urllib.request import urlopen

from flask.testing import FlaskClient

from service.observe.readiness import checks_of
from service.parts import Parts
from service.reasoning.matcher import Facts
from service.storage.database import Database
from service.storage.migration import downgrade, upgrade


def parts_of(client: FlaskClient) -> Parts:
    parts: Parts = client.application.extensions["fruitwright"]
    return parts


def test_a_service_with_everything_in_order_is_ready(client: FlaskClient) -> None:
    answer = client.get("/readyz")
    assert answer.status_code == 200
    assert [check["name"] for check in answer.json["checks"]] == ["rulebook", "matchers", "database"]
    assert all(check["ok"] for check in answer.json["checks"])


def test_without_its_tables_it_is_not_ready_and_says_what_to_do(client: FlaskClient) -> None:
    database = parts_of(client).database
    downgrade(database, "base")
    try:
        answer = client.get("/readyz")
    finally:
        upgrade(database)
    assert answer.status_code == 503
    assert not answer.json["ready"]
    assert "fruitwright db upgrade" in answer.json["checks"][2]["detail"]
    assert client.get("/livez").status_code == 200


def test_without_its_database_it_is_not_ready(client: FlaskClient) -> None:
    nowhere = dataclasses.replace(parts_of(client), database=Database("postgresql+psycopg://fruit@127.0.0.1:1/none"))
    assert [check.ok for check in checks_of(nowhere)] == [True, True, False]


class Silence:
    """A judgement in which no rule fired."""

    rules = ()

    def as_bytes(self) -> bytes:
        """Nothing at all."""
        return b"{}"


class Silent:
    """A matcher that finds nothing in any case."""

    def judge(self, ruleset: str, facts: Facts) -> Silence:
        """Nothing, whatever the case."""
        return Silence()


def test_with_matchers_that_disagree_it_is_not_ready(client: FlaskClient) -> None:
    honest = parts_of(client)
    torn = dataclasses.replace(honest, asking=Silent())
    assert [check.ok for check in checks_of(torn)] == [True, False, True]


def test_answers_are_counted_by_route_and_not_by_address(client: FlaskClient) -> None:
    client.get("/v1/crops/apple")
    told = client.get("/metrics").text
    assert 'fruitwright_answered_total{method="GET",route="/v1/crops/<crop>",status="200"}' in told
    assert "/v1/crops/apple" not in told


def test_several_web_processes_count_together(live: str) -> None:
    for _ in range(40):
        with urlopen(f"{live}/v1/crops/quince"):
            pass
    with urlopen(f"{live}/metrics") as answer:
        told = answer.read().decode()
    wanted = 'fruitwright_answered_total{method="GET",route="/v1/crops/<crop>",status="200"}'
    (line,) = [line for line in told.splitlines() if line.startswith(wanted)]
    assert float(line.split()[-1]) >= 40
