"""How long a variety question takes, by hand: python tests/benchmarks/suggestion_speed.py

Prints the median server time over a set of questions (CPU time of the serving process, so that other work on the
machine does not count), and two ratios: against the same rules in the plain evaluator only, and against an endpoint
that returns a fixed JSON answer of the same size.
"""

from __future__ import annotations

import gc
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import Any

import orjson
from flask import Flask, Response
from flask.testing import FlaskClient

sys.path.insert(0, str(Path(__file__).parents[2]))

from service import create_app
from service.observe.logs import configure_logs
from service.questions.suggestion import prepare
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT, read_settings

ADDRESS = "/v1/variety-suggestions"
ROUNDS = 15
PLACE = {
    "hardiness_zone": "7b", "chill_hours": 1000, "last_spring_frost": "04-10", "first_autumn_frost": "10-28",
    "max_height_ft": 12, "sun_hours": 8, "drainage": "moderate", "summer": "humid",
}  # fmt: skip
QUESTIONS: dict[str, dict[str, Any]] = {
    "nothing known": {},
    "zone and chill": {"site": {"hardiness_zone": "9a", "chill_hours": 300}},
    "a whole place": {"site": PLACE, "wishes": {"harvest_months": [7, 8, 9]}},
    "two crops": {"site": PLACE, "wishes": {"crops": ["apple", "peach"], "uses": ["fresh"]}},
    "named cultivars": {"site": PLACE, "consider": ["Honeycrisp", "Contender"], "existing_trees": [{"crop": "apple"}]},
    "a roomy plot": {"site": {**PLACE, "width_ft": 80, "depth_ft": 60}},
    "a tight plot": {"site": {**PLACE, "width_ft": 30, "depth_ft": 20}},
    "five trees, tight": {"site": {**PLACE, "width_ft": 30, "depth_ft": 20}, "wishes": {"max_trees": 5}},
}


def service(matcher: str, rulebook: Rulebook, folder: str) -> Flask:
    """The service with one of the ways to match rules."""
    url = f"sqlite:///{folder}/{matcher}.sqlite3"
    app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": url, "FRUITWRIGHT_MATCHER": matcher}), rulebook)
    prepare(rulebook)
    gc.collect()
    gc.freeze()  # as the service does at its start
    return app


def fixed(body: bytes) -> Flask:
    """An endpoint that returns the same answer whatever it is asked."""
    app, answer = Flask("fixed"), orjson.loads(body)
    app.post(ADDRESS)(lambda: Response(orjson.dumps(answer), mimetype="application/json"))
    return app


def milliseconds(client: FlaskClient, question: dict[str, Any]) -> float:
    """The median time of an answer."""
    client.post(ADDRESS, json=question)
    times = []
    for _ in range(ROUNDS):
        start = time.process_time()
        client.post(ADDRESS, json=question)
        times.append(1000 * (time.process_time() - start))
    return median(times)


def main() -> None:
    """Measure and print."""
    configure_logs("error", "json")
    rulebook = load_rulebook(CHECKOUT / "rules")
    with tempfile.TemporaryDirectory() as folder:
        clients = {name: service(name, rulebook, folder).test_client() for name in ("both", "plain")}
        rows = []
        for name, question in QUESTIONS.items():
            answer = clients["both"].post(ADDRESS, json=question)
            assert answer.status_code == 200, answer.text
            body = answer.data
            asked = (clients["both"], clients["plain"], fixed(body).test_client())
            both, plain, same_size = (milliseconds(client, question) for client in asked)
            rows.append((both, plain, same_size))
            print(f"{name:20} {_line(both, plain, same_size)}   {len(body) / 1000:4.0f} kB")
        both, plain, same_size = (median(column) for column in zip(*rows, strict=True))
        print(f"{'median':20} {_line(both, plain, same_size)}   (target 25 ms)")


def _line(both: float, plain: float, same_size: float) -> str:
    return f"{both:6.1f} ms   x{both / plain:5.2f} the plain evaluator   x{both / same_size:5.1f} a fixed answer"


if __name__ == "__main__":
    main()
