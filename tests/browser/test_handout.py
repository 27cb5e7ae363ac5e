"""Something to take home: a code opens the answers on a phone that runs no script, until they expire."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect


def answer_pruning(page: Page) -> None:
    page.goto("/counter#pruning")
    page.get_by_label("Crop (needed)").select_option("apple")
    page.get_by_role("button", name="Ask", exact=True).click()
    expect(page.locator(".answer h2").first).to_be_visible()


def answer_trouble(page: Page) -> None:
    page.goto("/counter#trouble")
    page.get_by_label("Crop (needed)").select_option("japanese_plum")
    page.get_by_label("In their own words").fill("Zyxwvia Qqq says leaves are curled and sticky")
    page.get_by_role("button", name="Ask", exact=True).click()
    expect(page.get_by_role("heading", name="Did they mean this?")).to_be_visible()


def make(page: Page) -> str:
    page.get_by_role("link", name="Something to take home").click()
    page.get_by_role("button", name="Make the page").click()
    expect(page.get_by_role("heading", name="Let the customer point their phone at this")).to_be_visible()
    address = page.locator(".hand-out a").first.get_attribute("href")
    assert address is not None
    return address


def check_for_everyone(page: Page) -> None:
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


def test_without_an_answer_there_is_nothing_to_take(page: Page) -> None:
    page.goto("/counter#handout")
    expect(page.get_by_text("Nothing has been answered yet")).to_be_visible()
    check_for_everyone(page)


def test_the_answers_of_a_visit_stand_on_one_page_with_a_code(page: Page) -> None:
    answer_pruning(page)
    answer_trouble(page)
    address = make(page)
    code = page.get_by_role("img", name="Let the customer point their phone at this")
    assert code.evaluate("one => one.decode().then(() => one.naturalWidth)") > 0
    check_for_everyone(page)
    page.goto(address)
    for title in ("Pruning: apple", "What is wrong: Japanese plum"):
        expect(page.get_by_role("heading", name=title)).to_be_visible()
    expect(page.get_by_text("Zyxwvia")).to_have_count(0)
    check_for_everyone(page)


def test_only_what_is_chosen_goes_onto_the_page(page: Page) -> None:
    answer_pruning(page)
    answer_trouble(page)
    page.get_by_role("link", name="Something to take home").click()
    page.get_by_label("Something is wrong with my tree").uncheck()
    address = make(page)
    page.goto(address)
    expect(page.get_by_role("heading", name="Pruning: apple")).to_be_visible()
    expect(page.get_by_role("heading", name="What is wrong")).to_have_count(0)


def test_the_page_opens_on_a_phone_without_script(page: Page, browser: Browser, live: str) -> None:
    answer_pruning(page)
    address = make(page)
    phone = browser.new_context(base_url=live, java_script_enabled=False, viewport={"width": 360, "height": 740})
    opened = phone.new_page()
    opened.goto(address)
    expect(opened.get_by_role("heading", name="Pruning: apple")).to_be_visible()
    assert opened.get_by_role("img").first.bounding_box()["width"] > 100  # type: ignore[index]
    sheet = opened.get_by_role("link", name="Sheet to print (PDF)").get_attribute("href")
    assert phone.request.get(sheet or "").body().startswith(b"%PDF-")
    phone.close()


def test_a_page_that_is_no_more_says_so(page: Page) -> None:
    gone = page.request.get("/h/AAAAAAAAAAAAAAAAAAAAAA")
    assert gone.status == 404
    assert "This page is no more" in gone.text()


def test_without_a_line_the_page_says_that_it_is_made_later(page: Page) -> None:
    answer_pruning(page)
    page.route("**/v1/hand-outs", lambda route: route.abort("internetdisconnected"))
    page.get_by_role("link", name="Something to take home").click()
    page.get_by_role("button", name="Make the page").click()
    expect(page.get_by_text("No connection: the page is made by the service.")).to_be_visible()


def test_a_spanish_page_is_handed_out_in_spanish(page: Page) -> None:
    answer_pruning(page)
    page.get_by_role("button", name="Español").click()
    page.get_by_role("link", name="Algo para llevar a casa").click()
    page.get_by_role("button", name="Hacer la página").click()
    expect(page.get_by_role("heading", name="Que el cliente apunte aquí con su teléfono")).to_be_visible()
    address = page.locator(".hand-out a").first.get_attribute("href")
    page.goto(address or "")
    expect(page.get_by_role("heading", name="Poda: manzana")).to_be_visible()
    expect(page.locator("html")).to_have_attribute("lang", "es")
    check_for_everyone(page)
