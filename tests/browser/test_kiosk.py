"""The kiosk as a customer touches it: three ways in, a number for the counter, and no trace once they have gone."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

SIZES = {"portrait": (800, 1280), "landscape": (1280, 800), "phone": (360, 740), "phone on its side": (740, 360)}
TO_TROUBLE = ("Something is wrong", "peach", "Leaves and shoots", "red, puckered peach leaves", "Yes")
TO_TREE = ("My tree now", "peach", "Next", "Small fruit")
TO_CHOICE = ("Choose a tree", "apple", "Next", re.compile("^A corner"), re.compile("^All day"))
WAYS = {"trouble": TO_TROUBLE, "tree": TO_TREE, "choice": TO_CHOICE}
IDLE_S = 90


@pytest.fixture
def kiosk(page: Page) -> Page:
    """The kiosk at its start, under a clock that the test moves."""
    page.clock.install(time="2026-04-20T10:00:00")
    open_kiosk(page)
    return page


def open_kiosk(page: Page) -> None:
    page.goto("/kiosk")
    expect(page.locator(".ways")).to_be_visible()


def touch(page: Page, *names: str | re.Pattern[str]) -> None:
    for name in names:
        exact = isinstance(name, str)
        page.get_by_role("button", name=name, exact=exact).click()
        expect(page.locator("#content:not([aria-busy])")).to_be_visible()


def title(page: Page, words: str | re.Pattern[str]) -> None:
    expect(page.get_by_role("heading", level=1)).to_have_text(words)


def number_of(page: Page) -> str:
    touch(page, "Ask the counter")
    title(page, "Tell the counter this number")
    number = page.locator(".ticket strong").text_content()
    assert number is not None
    assert re.fullmatch(r"[1-9]\d{2}", number)
    return number


def test_something_is_wrong_leads_to_a_cause_and_treatment_to_the_counter(kiosk: Page) -> None:
    asked: list[str] = []
    kiosk.on("request", lambda one: asked.append(one.url))
    touch(kiosk, *TO_TROUBLE)
    title(kiosk, re.compile("peach leaf curl"))
    expect(kiosk.get_by_text("What may be put on it is told at the counter")).to_be_visible()
    ticket = kiosk.request.get(f"/v1/tickets/{number_of(kiosk)}").json()
    assert [one["question"] for one in ticket["questions"]] == ["diagnoses", "treatment-pointers"]
    assert ticket["questions"][0]["asked"]["signs"] == {"present": ["lf_thick_pucker"]}
    assert ticket["questions"][1]["asked"]["disorder"] == "peach_leaf_curl"
    assert [one for one in asked if re.search("shelf|stock|treatment|applications|consultations", one)] == []


def test_my_tree_now_tells_what_to_do_by_the_day(kiosk: Page) -> None:
    touch(kiosk, *TO_TREE)
    title(kiosk, "Now: peach")
    expect(kiosk.get_by_role("heading", name="Too many small fruit: thin")).to_be_visible()
    expect(kiosk.get_by_text("Leave one fruit every")).to_be_visible()
    expect(kiosk.get_by_text("Apr 20, 2026", exact=True)).to_be_visible()
    expect(kiosk.locator(".cautions li").first).to_be_visible()
    ticket = kiosk.request.get(f"/v1/tickets/{number_of(kiosk)}").json()
    assert [one["question"] for one in ticket["questions"]] == ["season-plans", "pruning-plans", "thinning-plans"]
    assert ticket["questions"][1]["asked"]["age_years"] == 3


def test_choose_a_tree_tells_what_suits_near_the_store(kiosk: Page) -> None:
    touch(kiosk, *TO_CHOICE)
    title(kiosk, "These suit")
    expect(kiosk.get_by_text("Reckoned for a garden near")).to_be_visible()
    expect(kiosk.locator("article h2", has_text="apple")).to_have_count(3)
    ticket = kiosk.request.get(f"/v1/tickets/{number_of(kiosk)}").json()
    asked = ticket["questions"][0]["asked"]
    assert asked["wishes"] == {"crops": ["apple"]}
    assert (asked["site"]["width_ft"], asked["site"]["sun_hours"]) == (20, 8)


def test_nobody_has_to_know_anything(kiosk: Page) -> None:
    touch(kiosk, "Choose a tree", "Any fruit", "I don’t know", "I don’t know")
    title(kiosk, "These suit")
    touch(kiosk, "Start over", "My tree now", "fig", "I don’t know", "I don’t know")
    title(kiosk, "Now: fig")
    touch(kiosk, "Start over", "Something is wrong", "fig", "Something else", "I can’t tell", "No more questions")
    title(kiosk, re.compile("not enough"))
    expect(kiosk.get_by_role("button", name="Ask the counter")).to_be_visible()


def test_the_number_opens_the_conversation_at_the_counter(kiosk: Page, browser: Browser, live: str) -> None:
    touch(kiosk, *TO_TROUBLE)
    number = number_of(kiosk)
    counter = browser.new_page(base_url=live)
    counter.goto("/counter#ticket")
    counter.get_by_label("Number of the ticket").fill(number)
    counter.get_by_role("button", name="Open it").click()
    expect(counter).to_have_url(re.compile("#trouble$"))
    expect(counter.get_by_role("heading", name="Very likely: peach leaf curl")).to_be_visible()
    expect(counter.get_by_text(f"Ticket {number}:")).to_be_visible()
    counter.close()


def test_a_number_that_nobody_got_is_told_at_its_field(page: Page) -> None:
    page.goto("/counter#ticket")
    page.get_by_label("Number of the ticket").fill("peach")
    page.get_by_role("button", name="Open it").click()
    expect(page.locator("#ticket-error")).to_have_text("A ticket has a number such as 417.")
    expect(page.get_by_label("Number of the ticket")).to_be_focused()


def test_all_three_ways_speak_spanish(kiosk: Page) -> None:
    touch(kiosk, "Español")
    title(kiosk, "¿En qué ayudamos?")
    expect(kiosk.locator("html")).to_have_attribute("lang", "es")
    touch(kiosk, "Algo anda mal", "durazno", "Hojas y brotes", "hojas de durazno rojas y abolladas", "Sí")
    title(kiosk, "Muy probable: lepra del duraznero")
    touch(kiosk, "Inicio", "Mi árbol ahora", "durazno", "Siguiente", "Fruta chica")
    title(kiosk, "Ahora: durazno")
    touch(kiosk, "Inicio", "Elegir un árbol", "manzana", "Siguiente", "No lo sé", "No lo sé")
    title(kiosk, "Estos van bien")
    touch(kiosk, "Preguntar en el mostrador")
    title(kiosk, "Diga este número en el mostrador")
    number = kiosk.locator(".ticket strong").text_content()
    assert kiosk.request.get(f"/v1/tickets/{number}").json()["language"] == "es"


def test_the_language_is_switched_in_the_middle_and_nothing_told_is_lost(kiosk: Page) -> None:
    touch(kiosk, *TO_TROUBLE, "Español")
    title(kiosk, "Muy probable: lepra del duraznero")
    touch(kiosk, "English", "Back")
    title(kiosk, re.compile("^Pinch a bad leaf"))
    touch(kiosk, "Back")
    title(kiosk, "What is it most like?")


def test_whoever_goes_away_is_warned_and_then_forgotten(kiosk: Page) -> None:
    touch(kiosk, "Español", "Algo anda mal", "durazno")
    kiosk.clock.run_for((IDLE_S - 22) * 1000)
    expect(kiosk.get_by_role("dialog")).to_be_hidden()
    kiosk.clock.run_for(4000)
    warning = kiosk.get_by_role("dialog", name="¿Sigue ahí?")
    expect(warning).to_be_visible()
    expect(warning).to_contain_text("18 segundos")
    assert Axe().run(kiosk).violations_count == 0
    kiosk.clock.run_for(19_000)
    title(kiosk, "What can we help with?")
    expect(kiosk.get_by_role("dialog")).to_be_hidden()


@pytest.mark.parametrize("sign_of_life", ["touch", "button", "key", "Escape"])
def test_any_sign_of_life_takes_the_warning_away(kiosk: Page, sign_of_life: str) -> None:
    touch(kiosk, "Something is wrong", "peach")
    kiosk.clock.run_for((IDLE_S - 10) * 1000)
    expect(kiosk.get_by_role("dialog")).to_be_visible()
    if sign_of_life == "touch":
        kiosk.mouse.click(5, 5)
    elif sign_of_life == "button":
        kiosk.get_by_role("button", name="I am still here").click()
    else:
        kiosk.keyboard.press("Tab" if sign_of_life == "key" else sign_of_life)
    expect(kiosk.get_by_role("dialog")).to_be_hidden()
    kiosk.clock.run_for((IDLE_S - 25) * 1000)
    title(kiosk, "Where does it show?")
    kiosk.clock.run_for(26_000)
    title(kiosk, "What can we help with?")


def test_a_kiosk_that_slept_starts_over_as_it_wakes(kiosk: Page) -> None:
    touch(kiosk, "Something is wrong", "peach")
    kiosk.clock.fast_forward("08:00:00")
    title(kiosk, "What can we help with?")


def test_at_its_start_it_waits_without_a_warning(kiosk: Page) -> None:
    kiosk.clock.run_for(10 * IDLE_S * 1000)
    expect(kiosk.get_by_role("dialog")).to_be_hidden()
    title(kiosk, "What can we help with?")


@pytest.mark.parametrize("way", WAYS)
def test_no_screen_has_a_way_out_or_asks_for_a_word(kiosk: Page, way: str) -> None:
    for step in (None, *WAYS[way], "Ask the counter"):
        if step:
            touch(kiosk, step)
        assert kiosk.locator("a, area, iframe, form, input, textarea, select, [contenteditable]").count() == 0
    assert kiosk.evaluate("history.length") == 3  # the empty page, the kiosk, and the guard of its door


def test_the_back_of_the_device_goes_back_a_screen_and_never_out(kiosk: Page) -> None:
    touch(kiosk, "Something is wrong", "peach")
    kiosk.evaluate("history.back()")
    title(kiosk, "Which tree is it?")
    for _ in range(4):
        kiosk.evaluate("history.back()")
        expect(kiosk).to_have_url(re.compile("/kiosk$"))
    title(kiosk, "What can we help with?")


def test_nothing_of_a_visit_stays_on_the_device(kiosk: Page) -> None:
    touch(kiosk, *TO_TROUBLE, "Ask the counter", "Done")
    title(kiosk, "What can we help with?")
    expect(kiosk.locator(".ways")).to_be_visible()
    kept = kiosk.evaluate("JSON.stringify([{...localStorage}, {...sessionStorage}, document.cookie])")
    names = kiosk.evaluate(
        """() => new Promise((done) => { const asked = indexedDB.open('fruitwright', 1); asked.onsuccess = () => {
           const keys = asked.result.transaction('kept').objectStore('kept').getAllKeys();
           keys.onsuccess = () => done(keys.result); }; })"""
    )
    assert "puck" not in kept
    assert [name for name in names if not name.startswith("reference.")] == []


def test_without_a_line_it_sends_to_the_counter_and_tries_again(browser: Browser, live: str) -> None:
    kiosk = browser.new_context(base_url=live, service_workers="block").new_page()
    open_kiosk(kiosk)
    touch(kiosk, "Something is wrong", "peach", "Leaves and shoots")
    kiosk.route("**/v1/diagnoses", lambda route: route.abort())
    touch(kiosk, "red, puckered peach leaves")
    title(kiosk, "Ask the counter")
    expect(kiosk.get_by_text("There is no connection just now.")).to_be_visible()
    kiosk.unroute("**/v1/diagnoses")
    touch(kiosk, "Try again")
    title(kiosk, re.compile("^Pinch a bad leaf"))
    kiosk.context.close()


def test_the_keyboard_alone_leads_to_an_answer(kiosk: Page) -> None:
    def press(name: str) -> None:
        for _ in range(40):
            kiosk.keyboard.press("Tab")
            if kiosk.evaluate("document.activeElement.innerText").strip() == name:
                break
        kiosk.keyboard.press("Enter")
        expect(kiosk.locator("#content:not([aria-busy])")).to_be_visible()

    for name in ("Something is wrong", "peach", "Leaves and shoots", "red, puckered peach leaves"):
        press(name)
    expect(kiosk.get_by_role("heading", level=1)).to_be_focused()
    press("Yes")
    title(kiosk, re.compile("peach leaf curl"))
    press("Ask the counter")
    title(kiosk, "Tell the counter this number")


@pytest.mark.parametrize("way", WAYS)
def test_every_screen_can_be_read_by_everyone(kiosk: Page, way: str) -> None:
    for step in (None, *WAYS[way], "Ask the counter"):
        if step:
            touch(kiosk, step)
        found = Axe().run(kiosk)
        assert found.violations_count == 0, (step, found.generate_report())


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_targets_are_large_and_nothing_runs_off_the_screen(kiosk: Page, size: tuple[int, int]) -> None:
    kiosk.set_viewport_size({"width": size[0], "height": size[1]})
    touch(kiosk, "Español")
    title(kiosk, "¿En qué ayudamos?")
    for step in (None, "Algo anda mal", "durazno", "Hojas y brotes", "hojas de durazno rojas y abolladas", "Sí"):
        if step:
            touch(kiosk, step)
        assert kiosk.evaluate("document.documentElement.scrollWidth") <= size[0], step
        for button in kiosk.get_by_role("button").all():
            box = button.bounding_box()
            assert box is not None
            assert min(box["width"], box["height"]) >= 48, (step, button.text_content(), box)


def test_the_first_view_is_light(browser: Browser, live: str) -> None:
    context = browser.new_context(base_url=live, service_workers="block")
    page = context.new_page()
    sizes: dict[str, int] = {}
    page.on("response", lambda told: sizes.update({told.url: len(told.body())}))
    open_kiosk(page)
    page.wait_for_load_state("networkidle")
    context.close()
    assert len(sizes) > 10
    assert sum(sizes.values()) < 150_000, sizes
