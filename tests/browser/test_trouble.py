"""Something is wrong with the tree: words are agreed on, drawings are pointed at, and a cause stands out."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect


def open_trouble(page: Page, crop: str = "japanese_plum") -> None:
    page.goto("/counter#trouble")
    page.get_by_label("Crop (needed)").select_option(crop)


def ask(page: Page) -> None:
    page.get_by_role("button", name="Ask", exact=True).click()


def check_for_everyone(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def say(page: Page, words: str) -> None:
    page.get_by_label("In their own words").fill(words)
    ask(page)
    expect(page.get_by_role("heading", name="Did they mean this?")).to_be_visible()


def test_words_are_offered_back_and_count_for_nothing_before_the_customer_agrees(page: Page) -> None:
    open_trouble(page)
    say(page, "leaves are curled up and sticky")
    expect(page.get_by_role("heading", name="Not enough is known yet")).to_be_visible()
    expect(page.get_by_role("button", name="plum leaves curl tight")).to_be_visible()
    expect(page.get_by_role("heading", name="What it may be")).to_have_count(0)
    check_for_everyone(page)


def test_a_dialogue_leads_from_words_to_a_cause_and_on_to_what_can_be_used(page: Page) -> None:
    open_trouble(page)
    say(page, "leaves are curled up and sticky")
    page.get_by_role("button", name="plum leaves curl tight").click()
    page.get_by_role("button", name="Yes: Pinch a curled leaf").click()
    expect(page.get_by_text("Speaks for it:").first).to_be_visible()
    expect(page.locator(".evidence").first).to_contain_text("blade of normal thickness")
    check_for_everyone(page)
    page.get_by_role("button", name="What can be used against it").first.click()
    expect(page.get_by_label("What it is against")).to_have_value("leaf-curl plum aphid")
    expect(page.get_by_role("heading", name="What helps without a product")).to_be_visible()


def test_an_answer_that_is_taken_back_asks_again_without_it(page: Page) -> None:
    open_trouble(page)
    say(page, "leaves are curled up and sticky")
    page.get_by_role("button", name="Yes: Are the leaves sticky").click()
    seen = page.locator(".evidence").first
    expect(seen).to_contain_text("sticky")
    seen.get_by_role("button", name="Remove").click()
    expect(seen).to_be_hidden()
    expect(page.get_by_role("button", name="Yes: Are the leaves sticky")).to_be_visible()


def test_drawings_of_a_part_are_pointed_at(page: Page) -> None:
    open_trouble(page, "peach")
    page.get_by_text("Point at what you see").click()
    page.get_by_role("button", name="leaf", exact=True).click()
    curl = page.locator(".drawing-choice", has_text="thick").first
    curl.click()
    expect(curl).to_have_attribute("aria-pressed", "true")
    check_for_everyone(page)
    ask(page)
    expect(page.get_by_role("heading", name="What it may be")).to_be_visible()
    page.reload()
    expect(page.locator(".evidence").first).to_contain_text("thick")


def test_what_cannot_be_it_is_said_with_what_to_think_of_instead(page: Page) -> None:
    answer = page.request.post("/v1/diagnoses", data={"crop": "japanese_plum", "signs": {"present": ["lf_curl_tight"]}})
    first = next(one for one in answer.json()["answer"]["ruled_out"] if one["often_confused"])
    open_trouble(page)
    say(page, "leaves are curled up and sticky")
    page.get_by_role("button", name="Yes: Pinch a curled leaf").click()
    expect(page.get_by_role("heading", name=f"Not {first['name']}")).to_be_visible()


def test_a_forgotten_crop_stands_at_its_field_and_the_words_stay(page: Page) -> None:
    page.goto("/counter#trouble")
    page.get_by_label("In their own words").fill("sticky leaves")
    ask(page)
    expect(page.get_by_label("Crop (needed)")).to_be_focused()
    expect(page.get_by_label("Crop (needed)")).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_label("In their own words")).to_have_value("sticky leaves")


def test_the_dialogue_speaks_spanish(page: Page) -> None:
    open_trouble(page)
    page.get_by_role("button", name="Español").click()
    page.get_by_label("Con sus propias palabras").fill("hojas enroscadas y pegajosas")
    page.get_by_role("button", name="Preguntar", exact=True).click()
    expect(page.get_by_role("heading", name="¿Quisieron decir esto?")).to_be_visible()
    expect(page.get_by_role("button", name="No se puede ver").first).to_be_visible()
    check_for_everyone(page)


def test_on_a_phone_nothing_hangs_over_the_edge(page: Page) -> None:
    page.set_viewport_size({"width": 360, "height": 740})
    open_trouble(page)
    say(page, "leaves are curled up and sticky")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
