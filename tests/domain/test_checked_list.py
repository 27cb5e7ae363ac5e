"""Verdicts and sums of a checked list."""

from __future__ import annotations

import pytest

from service.domain.checked_list import AddedTree, LineChange, Repair, Totals, Verdict, worst


@pytest.mark.parametrize(
    ("verdicts", "expected"),
    [
        ([], "fits"),
        (["fits", "fits"], "fits"),
        (["caution", "fits"], "caution"),
        (["does_not_fit", "caution"], "does_not_fit"),
        (["does_not_fit", "not_recognised", "fits"], "not_recognised"),
    ],
)
def test_the_worst_verdict_counts(verdicts: list[Verdict], expected: Verdict) -> None:
    assert worst(verdicts) == expected


def test_totals_add_up_and_know_the_worst_verdict_that_any_line_has() -> None:
    totals = Totals(
        lines={"fits": 2, "caution": 1, "does_not_fit": 0, "not_recognised": 0},
        trees={"fits": 5, "caution": 3, "does_not_fit": 0, "not_recognised": 0},
    )
    assert (totals.all_lines, totals.all_trees, totals.worst) == (3, 8, "caution")


def test_a_repair_counts_what_it_changes_drops_and_adds() -> None:
    repair = Repair(
        lines=(LineChange(1, "keep", 2), LineChange(2, "drop", 3), LineChange(3, "rootstock", 1)),
        added=(AddedTree("apple.gala", None, 70, ("apple.liberty",)),),
        cost=19,
        proven=True,
    )
    assert (repair.changes, repair.dropped) == (3, 3)
