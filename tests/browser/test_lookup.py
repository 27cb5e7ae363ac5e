"""Look something up: by a part of a name, with who says so, and again without a connection."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect


def look(page: Page, kind: str, name: str) -> None:
    page.get_by_role("group", name="What").get_by_text(kind, exact=True).click()
    page.get_by_label("Name, or part of it").fill(name)
    page.get_by_role("button", name="Look", exact=True).click()


@pytest.mark.parametrize(
    ("kind", "name", "found", "says"),
    [
        ("Varieties", "liberty", "Liberty, apple", "Hardiness zones"),
        ("Rootstocks", "m.9", "M.9", "Crops"),
        ("Signs", "sticky", "sticky drops", "They say"),
        ("Diseases and pests", "fire blight", "fire blight", "Typical signs"),
    ],
)
def test_what_is_looked_up_is_shown_with_what_is_known(page: Page, kind: str, name: str, found: str, says: str) -> None:
    page.goto("/counter#lookup")
    look(page, kind, name)
    expect(page.locator(".found").get_by_text(found, exact=False).first).to_be_visible()
    folded = page.locator(".found > ul > li > details > summary")
    if folded.count():
        folded.first.click()
    expect(page.locator(".found").get_by_text(says, exact=True).first).to_be_visible()
    result = Axe().run(page)
    assert result.violations_count == 0, result.generate_report()


def test_a_name_that_nobody_knows_is_said_to_be_unknown(page: Page) -> None:
    page.goto("/counter#lookup")
    look(page, "Varieties", "zzyxqv")
    expect(page.get_by_text("Nothing by this name is known here.")).to_be_visible()


def test_what_was_looked_up_can_be_read_again_without_a_line_and_says_that_it_is_old(page: Page) -> None:
    page.goto("/counter#lookup")
    look(page, "Diseases and pests", "fire blight")
    expect(page.locator(".found").get_by_text("Typical signs").first).to_be_visible()
    page.route("**/v1/**", lambda route: route.abort("internetdisconnected"))
    look(page, "Diseases and pests", "fire blight")
    expect(page.get_by_text("there is no connection", exact=False).last).to_be_visible()
    look(page, "Diseases and pests", "scab")
    expect(page.get_by_text("this was not looked up before", exact=False)).to_be_visible()
