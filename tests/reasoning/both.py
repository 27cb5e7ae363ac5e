"""Either matcher, as a test is handed it, and the shortest question to ask of it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from service.reasoning.matcher import Matcher
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from tests.reasoning.made_up import RULESET, rulebook

Make = Callable[[Rulebook], Matcher]


def fired(make: Make, *rules: Rule, **facts: Any) -> list[str]:
    return [one.id for one in make(rulebook(*rules)).judge(RULESET, facts).rules]
