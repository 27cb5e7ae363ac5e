"""The corpus of lists judged: reviewed verdicts, and what must hold of any list at any place."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.site import Site
from service.questions.planting_list import CheckedList
from service.reasoning.rulebook import Rulebook
from tests.lists.golden import lists
from tests.lists.judged import VERDICTS, judged, read_as_sent
from tests.questions.list_counter import ListCounter

PLACES = {
    "a low garden in the humid East": Site(
        hardiness_zone=6.5, chill_hours=1100, width_ft=60, depth_ft=40, max_height_ft=12, summer="humid"
    ),
    "the dry and mild South": Site(hardiness_zone=9.0, chill_hours=300, summer="dry"),
    "nobody knows where": Site(),
}


def test_the_corpus_comes_to_the_reviewed_verdicts(rulebook: Rulebook) -> None:
    assert list(judged(rulebook)) == VERDICTS.read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("place", PLACES)
def test_rules_give_every_list_one_verdict_and_what_is_repaired_passes(rulebook: Rulebook, place: str) -> None:
    counter = ListCounter(rulebook)
    for path in lists():
        checked = counter.judge(read_as_sent(rulebook, path), PLACES[place], existing_trees=(), state="WA")
        _hold(path, checked)


def _hold(path: Path, checked: CheckedList) -> None:
    judgements = [one.judgement for line in checked.lines for one in line.names]
    assert all("verdict" in one.concluded and not one.conflicts for one in judgements), path.name
    assert "list_verdict" in checked.judgement.concluded, path.name
    assert not checked.judgement.conflicts, path.name
    if checked.mended is not None and checked.mended.after is not None:
        assert checked.mended.after.verdict != "does_not_pass", path.name
