"""What can be used against it: measures first, then the shelf with verdicts, and what must be asked before."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from service.settings import CHECKOUT

DEMO = CHECKOUT / "rules" / "demo" / "shelf.csv"
DOSE = re.compile(r"\b\d+(\.\d+)? ?(fl oz|tbsp|tsp|teaspoons?|tablespoons?) per\b", re.IGNORECASE)


@pytest.fixture(autouse=True)
def shelf(page: Page) -> None:
    """The invented products stand on the shelf."""
    content = DEMO.read_bytes()
    taken = page.request.post("/v1/shelf-imports", data=content, headers={"Content-Type": "text/csv"})
    assert taken.ok, taken.text()


def open_remedy(page: Page) -> None:
    page.goto("/counter#remedy")
    page.get_by_label("Crop (needed)").select_option("apple")
    page.get_by_label("What it is against").fill("apple scab")
    page.get_by_label("Day of use").fill("2025-05-12")
    page.get_by_label("What the tree is doing that day").select_option("petal_fall")
    page.get_by_label("State, by its two letters").fill("PA")
    page.get_by_label("First day of picking").fill("2025-09-15")


def ask(page: Page) -> None:
    page.get_by_role("button", name="Ask", exact=True).click()
    expect(page.get_by_role("heading", name="On the shelf")).to_be_visible()


def test_measures_come_before_products_and_each_product_has_its_verdict(page: Page) -> None:
    open_remedy(page)
    ask(page)
    headings = page.locator(".answer").locator("h2, h3").all_inner_texts()
    assert headings.index("What helps without a product") < headings.index("On the shelf")
    for word in ("The label allows it", "Only with care"):
        expect(page.locator(".answer .verdict", has_text=word).first).to_be_visible()
    expect(page.locator("summary", has_text="are forbidden here")).to_be_visible()


def test_what_is_forbidden_is_folded_and_says_why_with_its_authority(page: Page) -> None:
    open_remedy(page)
    ask(page)
    page.locator("summary", has_text="are forbidden here").click()
    card = page.locator("article.stop", has_text="Forbidden").first
    expect(card).to_be_visible()
    card.locator("summary", has_text="with their authority").click()
    expect(card.locator(".sources").first).to_contain_text("Source:")


def test_where_the_amount_stands_is_told_and_no_amount_is(page: Page) -> None:
    open_remedy(page)
    ask(page)
    expect(page.locator(".answer")).to_contain_text("How much, and how it is mixed: on the container")
    assert not DOSE.search(page.locator(".answer").inner_text())


def test_what_nobody_told_is_asked_for_and_leads_to_its_field(page: Page) -> None:
    open_remedy(page)
    ask(page)
    page.get_by_role("button", name="the lowest temperature of the next 48 hours").click()
    field = page.get_by_label("Lowest temperature within 48 hours")
    expect(field).to_be_focused()
    page.keyboard.type("48")
    ask(page)
    expect(page.get_by_role("button", name="the lowest temperature of the next 48 hours")).to_have_count(0)


def test_cautions_stand_open_and_cannot_be_folded(page: Page) -> None:
    open_remedy(page)
    ask(page)
    care = page.locator(".cautions").first
    expect(care.locator("li").first).to_be_visible()
    assert care.locator("details").count() == 0
    assert care.evaluate("one => one.closest('details')") is None


def test_an_exposure_comes_before_everything(page: Page) -> None:
    open_remedy(page)
    swallowed = page.get_by_role("group", name="A person or a pet swallowed, breathed or was splashed")
    swallowed.get_by_text("yes", exact=True).click()
    page.get_by_role("button", name="Ask", exact=True).click()
    expect(page.get_by_role("heading", name="Help first")).to_be_visible()
    expect(page.locator(".answer .verdict", has_text="The label allows it")).to_have_count(0)


def test_a_cause_that_nobody_knows_stands_at_its_field(page: Page) -> None:
    open_remedy(page)
    page.get_by_label("What it is against").fill("aple scabb")
    page.get_by_role("button", name="Ask", exact=True).click()
    field = page.get_by_label("What it is against")
    expect(field).to_be_focused()
    expect(field).to_have_attribute("aria-invalid", "true")
    expect(field).to_have_value("aple scabb")


@pytest.mark.parametrize("width", [360, 1024])
def test_the_answer_can_be_read_by_everyone(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 768})
    open_remedy(page)
    ask(page)
    page.locator("summary", has_text="are forbidden here").click()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
