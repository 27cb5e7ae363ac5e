"""The counter page as staff use it: type what the customer knows, ask, read what to do and why."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect


def fill(page: Page, **values: str) -> None:
    page.goto("/counter")
    for label, value in values.items():
        page.get_by_label(label.replace("_", " ")).fill(value)


def ask(page: Page) -> None:
    page.get_by_role("button", name="Ask").click()


def test_a_place_is_answered_with_varieties_that_suit_it(page: Page) -> None:
    fill(page, Hardiness_zone="7b", Winter_chill="900", Width="30", Depth="20", Trees_to_stay="12")
    ask(page)
    expect(page.get_by_role("heading", name="These suit the place")).to_be_visible()
    answers = page.locator("#answer article")
    assert answers.count() >= 3
    expect(answers.first).to_contain_text("of 100")


def test_why_is_folded_until_it_is_asked_for(page: Page) -> None:
    fill(page, Hardiness_zone="7b", Winter_chill="900")
    ask(page)
    first = page.locator("#answer article").first
    expect(first.locator("details li").first).to_be_hidden()
    first.get_by_text("All reasons, with why").click()
    expect(first.locator("details li").first).to_be_visible()


def test_a_variety_that_is_asked_about_is_answered_for_even_when_it_does_not_fit(page: Page) -> None:
    place = {"hardiness_zone": "10a", "chill_hours": 100}
    told = page.request.post("/v1/variety-suggestions", data={"site": place}).json()
    misfit = told["answer"]["set_aside"][0]["name"]
    fill(page, Hardiness_zone="10a", Winter_chill="100", Varieties=misfit)
    ask(page)
    first = page.locator("#answer article").first
    expect(first.get_by_role("heading", name=misfit)).to_be_visible()
    expect(first).to_contain_text("Does not fit this place")


def test_what_is_not_known_is_said(page: Page) -> None:
    fill(page, Hardiness_zone="6a")
    ask(page)
    expect(page.get_by_text("Not judged, because it is not known")).to_be_visible()


def test_a_mistake_stands_at_its_field_and_nothing_that_was_typed_is_lost(page: Page) -> None:
    fill(page, Hardiness_zone="warm", Width="wide", Depth="20", Only_these="aple, peach")
    ask(page)
    wrong = page.get_by_label("Hardiness zone")
    expect(page.locator("#site-hardiness_zone-error")).to_contain_text("such as 7b")
    expect(page.locator("#site-width_ft-error")).to_have_text("This must be a number.")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    expect(wrong).to_be_focused()
    expect(wrong).to_have_value("warm")
    expect(page.get_by_label("Depth")).to_have_value("20")
    expect(page.locator("#answer")).to_be_hidden()


def test_a_name_that_nobody_knows_stands_at_its_field_with_near_names(page: Page) -> None:
    fill(page, Varieties="Honeycrips")
    ask(page)
    expect(page.locator("#consider-error")).to_contain_text("Honeycrisp")
    page.get_by_label("Varieties").fill("Honeycrisp")
    ask(page)
    expect(page.locator("#consider-error")).to_have_text("")
    expect(page.locator("#answer")).to_be_visible()


def test_what_a_person_types_is_shown_as_text_and_never_run(page: Page) -> None:
    fill(page, Varieties="<img src=x onerror=alert(1)>")
    ask(page)
    expect(page.locator("#consider-error")).to_contain_text("<img src=x")
    assert page.locator("img").count() == 0


def test_the_page_can_be_used_with_the_keyboard_alone(page: Page) -> None:
    page.goto("/counter")
    page.get_by_label("Hardiness zone").focus()
    page.keyboard.type("7b")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="These suit the place")).to_be_visible()
    expect(page.locator("#answer")).to_be_focused()


@pytest.mark.parametrize("address", ["/", "/counter", "/docs"])
def test_a_page_can_be_read_by_everyone(page: Page, address: str) -> None:
    page.goto(address)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_an_answer_can_be_read_by_everyone(page: Page) -> None:
    fill(page, Hardiness_zone="7b", Winter_chill="900", Trees_at_the_most="2")
    ask(page)
    expect(page.get_by_role("heading", name="These suit the place")).to_be_visible()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_a_page_fits_the_screen(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    fill(page, Hardiness_zone="7b")
    ask(page)
    expect(page.get_by_role("heading", name="These suit the place")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_the_docs_lead_from_an_operation_to_its_fields(page: Page) -> None:
    page.goto("/docs")
    operation = page.locator("article", has_text="POST /v1/variety-suggestions")
    operation.get_by_role("link", name="SuggestionsAsked").click()
    expect(page.get_by_role("heading", name="SuggestionsAsked")).to_be_in_viewport()
