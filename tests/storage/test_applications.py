"""The log of applications: entries are added and never changed, on both databases."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from service.domain.application import Application, standing
from service.storage.applications import (
    CorrectedAlready,
    applications_of,
    find_application,
    log_application,
    new_entry_id,
    now_text,
)
from service.storage.database import Database


def entry(**changed: object) -> Application:
    told = Application(
        id=new_entry_id(),
        reference="tree-17",
        applied_on=date(2025, 4, 20),
        actives=("mineral oil",),
        logged_at=now_text(),
        crop="apple",
        product="DP09",
        version=1,
        product_name="Invented oil",
        epa_reg_no="9999109-9",
    )
    return replace(told, **changed)  # type: ignore[arg-type]


def test_an_entry_comes_back_as_it_was_written(database: Database) -> None:
    written = log_application(database, entry())
    assert find_application(database, written.id) == written
    assert find_application(database, "another") is None
    assert applications_of(database, "tree-17") == (written,)
    assert applications_of(database, "tree-18") == ()


def test_a_correction_leaves_the_first_entry_and_takes_its_place(database: Database) -> None:
    wrong = log_application(database, entry())
    right = log_application(database, entry(applied_on=date(2025, 4, 21), corrects=wrong.id))
    entries = applications_of(database, "tree-17")
    assert entries == (wrong, right)
    assert standing(entries) == (right,)


def test_an_entry_is_corrected_once(database: Database) -> None:
    wrong = log_application(database, entry())
    log_application(database, entry(corrects=wrong.id))
    with pytest.raises(CorrectedAlready):
        log_application(database, entry(corrects=wrong.id))


def test_what_did_not_happen_counts_no_more(database: Database) -> None:
    wrong = log_application(database, entry())
    log_application(database, entry(corrects=wrong.id, did_not_happen=True))
    assert standing(applications_of(database, "tree-17")) == ()


def test_the_same_entry_twice_is_written_once(database: Database) -> None:
    one = entry()
    assert log_application(database, one) == log_application(database, replace(one, logged_at="later"))
    assert len(applications_of(database, "tree-17")) == 1
