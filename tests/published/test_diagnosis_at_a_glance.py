"""Trees that a grower names at a glance: the likeliest cause is one that the trade would name.

Basis of every case: common practice, from memory, written down before the rules were asked.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from service.domain.sick_tree import Seen, SickTree
from service.knowledge import strict_yaml
from service.reasoning.rulebook import Rulebook
from tests.questions.counter import Counter, suspects

GLANCES: Any = strict_yaml.read(Path(__file__).parents[1] / "cases" / "diagnosis_at_a_glance.yaml")["cases"]


@pytest.mark.parametrize("glance", GLANCES, ids=lambda each: each["id"])
def test_the_first_suspect_is_what_the_trade_would_name(rulebook: Rulebook, glance: Any) -> None:
    seen = Seen(tuple(glance["present"]), tuple(glance["absent"]))
    answer = Counter(rulebook).ask(SickTree(glance["crop"], stage=glance["stage"], seen=seen))
    assert suspects(answer)[0] in glance["is_one_of"]
