"""The counter page as staff use it: tell the place, choose what they came for, ask, read what to do and why."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

TASKS = ("varieties", "thinning", "pruning", "year", "compare")


def open_task(page: Page, task: str) -> None:
    page.goto(f"/counter#{task}")
    expect(page.get_by_role("button", name="Ask", exact=True)).to_be_visible()


def tell(page: Page, **values: str) -> None:
    for label, value in values.items():
        page.get_by_label(label.replace("_", " ")).fill(value)


def ask(page: Page) -> None:
    page.get_by_role("button", name="Ask", exact=True).click()


def choose_crop(page: Page, crop: str) -> None:
    page.get_by_label("Crop (needed)").select_option(crop)


def ask_for_varieties(page: Page, **values: str) -> None:
    open_task(page, "varieties")
    tell(page, **values)
    ask(page)


def test_a_place_is_answered_with_trees_to_plant_together_and_varieties_that_suit(page: Page) -> None:
    place = {"Hardiness_zone": "7b", "hours_at_or_below": "900", "Width_of": "30", "Depth_of": "20"}
    ask_for_varieties(page, **place, Trees_to_stay="12")
    expect(page.get_by_role("heading", name="What to do")).to_be_visible()
    expect(page.locator(".answer").get_by_text("together", exact=False).first).to_be_visible()
    expect(page.get_by_text("Fits here: ").first).to_be_visible()
    assert page.locator(".cards article").count() >= 3


def test_the_place_folds_to_one_line_once_it_is_answered(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="7b", hours_at_or_below="900", Trees_to_stay="12")
    expect(page.locator(".place summary").first).to_contain_text("zone 7b · 900 h of chill · under 12 ft (3.7 m)")
    expect(page.get_by_label("Hardiness zone")).to_be_hidden()


def test_the_climate_of_the_store_fills_in_what_nobody_said(page: Page) -> None:
    open_task(page, "varieties")
    tell(page, Hardiness_zone="9a")
    page.get_by_role("button", name="Use the store’s climate").click()
    expect(page.get_by_text("It is invented, for trying out.")).to_be_visible()
    expect(page.get_by_label("Hardiness zone")).to_have_value("9a")
    expect(page.get_by_label("Winter chill, hours")).to_have_value("690")


def test_why_is_folded_and_names_rule_facts_and_source(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="7b", hours_at_or_below="900")
    first = page.locator(".cards article").first
    expect(first.locator(".reasons li").first).to_be_hidden()
    first.get_by_text("All reasons").click()
    reason = first.locator(".reasons li").first
    expect(reason).to_contain_text("Because")
    expect(reason).to_contain_text("Source:")
    rule = reason.inner_text().rpartition("Rule ")[2].split()[0]
    expect(reason.get_by_role("link", name="Rule ")).to_have_attribute("href", f"/v1/rules/{rule}")


def test_cautions_stand_open_and_cannot_be_folded_away(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="7b", hours_at_or_below="900")
    cautions = page.locator(".cautions")
    expect(cautions.get_by_role("listitem").first).to_be_visible()
    assert cautions.locator("xpath=ancestor::details").count() == 0
    assert cautions.locator("summary").count() == 0


def test_a_variety_that_is_asked_about_is_answered_for_even_when_it_does_not_fit(page: Page) -> None:
    place = {"hardiness_zone": "10a", "chill_hours": 100}
    told = page.request.post("/v1/variety-suggestions", data={"site": place}).json()
    misfit = told["answer"]["set_aside"][0]["name"]
    ask_for_varieties(page, Hardiness_zone="10a", hours_at_or_below="100", Varieties_they_ask=misfit)
    card = page.locator(".first article.stop")
    expect(card.get_by_role("heading", name=misfit)).to_be_visible()
    expect(card).to_contain_text("Does not fit here")


def test_what_is_not_known_is_said(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="6a")
    expect(page.get_by_text("not known and were not judged")).to_be_visible()


def test_a_milder_winter_shows_what_changes_and_leaves_what_was_told(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="8b", hours_at_or_below="500")
    page.get_by_text("What if?").click()
    page.get_by_role("button", name="Less: Winter chill").click()
    expect(page.get_by_text("no longer among the best")).to_be_visible()
    expect(page.locator(".place summary").first).to_contain_text("500 h of chill")
    page.get_by_role("button", name="Ask with these values").click()
    expect(page.locator(".place summary").first).to_contain_text("400 h of chill")


def test_three_varieties_stand_side_by_side_with_winters_against_their_need(page: Page) -> None:
    open_task(page, "varieties")
    page.get_by_role("button", name="Use the store’s climate").click()
    expect(page.get_by_label("Hardiness zone")).to_have_value("8b")
    ask(page)
    picks = page.locator(".cards .pick input")
    for place in range(3):
        picks.nth(place).check()
    page.get_by_role("button", name="Put 3 side by side").click()
    expect(page.get_by_role("columnheader")).not_to_have_count(0)
    assert page.locator("table.side thead th").count() == 3
    expect(page.get_by_role("img", name="Chill of each winter")).to_be_visible()
    expect(page.get_by_role("img", name="When each is picked")).to_be_visible()


def test_a_fifth_variety_cannot_be_put_beside_four(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="7b", hours_at_or_below="900")
    picks = page.locator(".cards .pick input")
    for place in range(5):
        picks.nth(place).check()
    expect(page.get_by_role("button", name="Put 5 side by side")).to_be_disabled()
    expect(page.get_by_text("two to four of them")).to_be_visible()


def test_a_branch_is_drawn_with_the_fruit_to_keep(page: Page) -> None:
    open_task(page, "thinning")
    choose_crop(page, "peach")
    tell(page, Days_since="30", Length_that="36", Thickness_an_inch="0.6", Fruit_on_it="48")
    ask(page)
    expect(page.get_by_role("heading", name="Thin")).to_be_visible()
    drawing = page.get_by_role("img", name="Branch 1: keep ")
    expect(drawing).to_be_visible()
    branch = {"length_in": 36, "diameter_in": 0.6, "fruit": 48}
    asked = {"crop": "peach", "days_after_full_bloom": 30, "branches": [branch]}
    told = page.request.post("/v1/thinning-plans", data=asked).json()
    assert drawing.locator("circle.fruit").count() == told["answer"]["branches"][0]["keep"]


def test_the_wires_of_a_trained_tree_are_drawn_at_their_heights(page: Page) -> None:
    open_task(page, "pruning")
    choose_crop(page, "apple")
    tell(page, The_day_they="2026-02-20", Trees_to_stay="7")
    page.get_by_label("Form it is trained to").select_option("horizontal_tiers")
    ask(page)
    expect(page.get_by_role("heading", name="Prune now")).to_be_visible()
    expect(page.get_by_role("img", name="Wire heights")).to_contain_text("Wire 1: 18 in (46 cm)")


def test_the_year_is_told_in_order_with_its_strip(page: Page) -> None:
    open_task(page, "year")
    choose_crop(page, "peach")
    ask(page)
    expect(page.get_by_role("heading", name="What comes next")).to_be_visible()
    expect(page.get_by_role("region", name="The year at a glance").locator("svg")).to_be_visible()


def test_a_calendar_file_can_be_saved(page: Page) -> None:
    open_task(page, "year")
    choose_crop(page, "peach")
    ask(page)
    with page.expect_download() as saving:
        page.get_by_role("button", name="Save as calendar").click()
    assert saving.value.path().read_bytes().startswith(b"BEGIN:VCALENDAR")


def test_a_mistake_stands_at_its_field_and_nothing_that_was_typed_is_lost(page: Page) -> None:
    ask_for_varieties(page, Hardiness_zone="warm", Width_of="wide", Depth_of="20", Varieties_they_ask="Liberty")
    wrong = page.get_by_label("Hardiness zone")
    expect(wrong).to_have_accessible_description("such as 7b At most 3 characters are taken. This must be a hardiness "
                                                 "zone such as 7b.")  # fmt: skip
    expect(page.get_by_label("Width of the plot")).to_have_accessible_description("This must be a number.")
    expect(wrong).to_have_attribute("aria-invalid", "true")
    expect(wrong).to_be_focused()
    expect(wrong).to_have_value("warm")
    expect(page.get_by_label("Depth of the plot")).to_have_value("20")
    expect(page.locator(".result")).to_be_hidden()


def test_a_mistake_in_a_folded_part_is_shown(page: Page) -> None:
    open_task(page, "varieties")
    page.get_by_text("Sun, ground, frost and rain").click()
    tell(page, Sun_on="eight")
    page.get_by_text("Sun, ground, frost and rain").click()
    ask(page)
    expect(page.get_by_label("Sun on")).to_be_focused()


def test_a_name_that_nobody_knows_stands_at_its_field_with_near_names(page: Page) -> None:
    ask_for_varieties(page, Varieties_they_ask="Honeycrips")
    names = page.get_by_label("Varieties they ask")
    expect(page.get_by_text("Honeycrisp", exact=False).first).to_be_visible()
    names.fill("Honeycrisp")
    ask(page)
    expect(page.get_by_role("heading", name="Honeycrisp")).to_be_visible()


def test_what_a_person_types_is_shown_as_text_and_never_run(page: Page) -> None:
    ask_for_varieties(page, Varieties_they_ask="<img src=x onerror=alert(1)>")
    expect(page.get_by_text("<img src=x", exact=False).first).to_be_visible()
    assert page.locator("img").count() == 0


def test_lengths_show_metres_beside_and_may_be_typed_in_them(page: Page) -> None:
    open_task(page, "varieties")
    tell(page, Width_of="30")
    expect(page.locator(".field", has_text="Width of the plot").locator(".si")).to_have_text("= 9.1 m")
    tell(page, Width_of="9 m")
    with page.expect_request("**/v1/variety-suggestions") as asking:
        ask(page)
    assert asking.value.post_data_json["site"]["width_ft"] == pytest.approx(9 / 0.3048, abs=0.01)


def test_the_page_can_be_used_with_the_keyboard_alone(page: Page) -> None:
    page.goto("/counter")
    page.get_by_label("Hardiness zone").focus()
    page.keyboard.type("7b")
    page.get_by_role("link", name="What should I plant?").focus()
    page.keyboard.press("Enter")
    page.get_by_label("Trees at the most").focus()
    page.keyboard.type("2")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="What to do")).to_be_visible()
    expect(page.get_by_role("region", name="The answer")).to_be_focused()


def test_the_whole_page_turns_spanish_with_what_was_typed_and_the_answer(page: Page) -> None:
    open_task(page, "thinning")
    choose_crop(page, "peach")
    tell(page, Days_since="30")
    ask(page)
    expect(page.get_by_role("heading", name="Thin")).to_be_visible()
    page.get_by_role("button", name="Español").click()
    expect(page.get_by_role("heading", name="Aclaree")).to_be_visible()
    expect(page.get_by_label("Días desde la plena floración")).to_have_value("30")
    assert page.evaluate("() => document.documentElement.lang") == "es"
    page.reload()
    expect(page.get_by_role("button", name="Siguiente cliente")).to_be_visible()


@pytest.mark.parametrize("address", ["/", "/counter", "/docs", *(f"/counter#{task}" for task in TASKS)])
def test_a_page_can_be_read_by_everyone(page: Page, address: str) -> None:
    page.goto(address)
    if "#" in address:
        expect(page.get_by_role("button", name="Ask", exact=True)).to_be_visible()
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize(("width", "height"), [(390, 844), (800, 1280), (1280, 800)])
def test_an_answer_fits_the_screen_and_can_be_read_by_everyone(page: Page, width: int, height: int) -> None:
    page.set_viewport_size({"width": width, "height": height})
    ask_for_varieties(page, Hardiness_zone="7b", hours_at_or_below="900", Trees_at_the_most="2")
    expect(page.get_by_role("heading", name="What to do")).to_be_visible()
    for fold in page.locator(".answer details").all():
        fold.evaluate("fold => { fold.open = true; }")
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width


def test_the_docs_lead_from_an_operation_to_its_fields(page: Page) -> None:
    page.goto("/docs")
    operation = page.locator("article", has_text="POST /v1/variety-suggestions")
    operation.get_by_role("link", name="SuggestionsAsked").click()
    expect(page.get_by_role("heading", name="SuggestionsAsked")).to_be_in_viewport()
