"""The shelf as staff use it: type what a label says, save, find faults at their fields, change, take a file."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from service.settings import CHECKOUT

DEMO = CHECKOUT / "rules" / "demo" / "shelf.csv"


def save(page: Page) -> None:
    page.get_by_role("button", name="Save").click()


def add_crop(page: Page, printed: str, days: str) -> None:
    page.get_by_role("button", name="Add an entry: Each printed crop name").click()
    entry = page.locator("#sites .entry").last
    entry.get_by_label("The crop name as printed").fill(printed)
    entry.get_by_label("Days from the last use to picking").fill(days)
    entry.get_by_label("Ids of the crops").fill("apple")
    entry.get_by_role("group", name="How it may be put on").get_by_label("foliar").check()


def test_a_record_is_typed_saved_and_found_again(page: Page) -> None:
    page.goto("/shelf/new")
    page.get_by_label("Name as printed", exact=True).first.fill("Invented Page Spray")
    page.get_by_label("Signal word").select_option("CAUTION")
    add_crop(page, "apple", "14")
    add_crop(page, "crabapple", "21")
    save(page)
    expect(page.locator("#outcome")).to_contain_text("Saved as version 1.")
    expect(page.locator("#outcome")).to_contain_text("epa_reg_no")
    page.reload()
    expect(page.get_by_label("Name as printed", exact=True).first).to_have_value("Invented Page Spray")
    entries = page.locator("#sites .entry")
    expect(entries).to_have_count(2)
    expect(entries.nth(1).get_by_label("Days from the last use to picking")).to_have_value("21")
    expect(entries.nth(1).get_by_label("foliar")).to_be_checked()


@pytest.mark.parametrize("removed", [0, 1])
def test_a_fault_stands_at_its_field_and_nothing_that_was_typed_is_lost(page: Page, removed: int) -> None:
    page.goto("/shelf/new")
    page.get_by_label("Name as printed", exact=True).first.fill("Invented")
    for printed in ("apple", "pear", "quince"):
        add_crop(page, printed, "7")
    page.locator("#sites .entry").nth(removed).get_by_role("button", name="Remove this entry").click()
    last = page.locator("#sites .entry").nth(1)
    last.get_by_label("Days from the last use to picking").fill("soon")
    page.on("console", lambda _: None)
    save(page)
    expect(last.locator("[id$=phi_days-error]")).to_have_text("This must be a whole number.")
    expect(last.get_by_label("Days from the last use to picking")).to_be_focused()
    expect(last.get_by_label("Days from the last use to picking")).to_have_value("soon")
    expect(last.get_by_label("The crop name as printed")).to_have_value("quince")
    expect(page.get_by_label("Name as printed", exact=True).first).to_have_value("Invented")
    expect(page.locator("#outcome")).to_be_hidden()


def test_saving_what_was_read_changes_nothing(page: Page) -> None:
    take_file(page, DEMO)
    page.goto("/shelf/products/DP13")
    expect(page.locator("#sites .entry").first).to_be_visible()
    save(page)
    expect(page.locator("#outcome")).to_contain_text("Saved as version 1.")


def take_file(page: Page, file: Path) -> None:
    page.goto("/shelf")
    page.get_by_label("Take products from a file").set_input_files(file)
    page.get_by_role("button", name="Take it all").click()
    expect(page.locator("#outcome")).to_contain_text("Done")


def test_a_file_shows_first_what_it_would_change(page: Page, tmp_path: Path) -> None:
    file = tmp_path / "shelf.csv"
    file.write_text("id,product_name\nzz-1,Invented From A File\n", encoding="utf-8")
    page.goto("/shelf")
    page.get_by_label("Take products from a file").set_input_files(file)
    page.get_by_role("button", name="Show what would change").click()
    expect(page.locator("#outcome")).to_contain_text("nothing has been changed yet")
    expect(page.locator("#outcome")).to_contain_text("zz-1, Invented From A File: new, version 1")
    expect(page.locator("#products")).not_to_contain_text("Invented From A File")
    page.get_by_role("button", name="Take it all").click()
    expect(page.locator("#products")).to_contain_text("Invented From A File")


def test_the_faults_of_a_file_are_listed_by_row_and_column(page: Page, tmp_path: Path) -> None:
    file = tmp_path / "shelf.csv"
    file.write_text("id,signal_word\nzz-2,LOUD\n", encoding="utf-8")
    page.goto("/shelf")
    page.get_by_label("Take products from a file").set_input_files(file)
    page.get_by_role("button", name="Take it all").click()
    expect(page.locator("#outcome")).to_contain_text("Row 2, column signal_word")
    expect(page.locator("#file-error")).to_contain_text("One fault; nothing was taken.")


@pytest.mark.parametrize("address", ["/shelf", "/shelf/new", "/shelf/products/DP01"])
def test_the_pages_of_the_shelf_can_be_used_by_everyone(page: Page, address: str) -> None:
    take_file(page, DEMO)
    page.goto(address)
    page.wait_for_load_state("networkidle")
    if address == "/shelf/new":
        add_crop(page, "apple", "7")
    violations = Axe().run(page).response["violations"]
    assert violations == [], violations
