"""Hands each test of the matchers both of them, one after the other."""

from __future__ import annotations

import pytest

from service.reasoning.engine import EngineMatcher
from service.reasoning.plain import PlainMatcher
from tests.reasoning.both import Make


@pytest.fixture(params=[PlainMatcher, EngineMatcher], ids=["plain", "engine"])
def make(request: pytest.FixtureRequest) -> Make:
    return request.param  # type: ignore[no-any-return]
