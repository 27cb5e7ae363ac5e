"""The counter page on patchy Wi-Fi: it opens, keeps what was typed, holds questions back and says what is old."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect


@pytest.fixture
def tablet(browser: Browser, live: str) -> Iterator[Page]:
    """A page whose line may be cut; requests that fail for it are no complaint."""
    context = browser.new_context(base_url=live)
    page = context.new_page()
    page.set_default_timeout(15_000)
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.goto("/counter#thinning")
    expect(page.get_by_role("button", name="Ask", exact=True)).to_be_visible()
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    yield page
    context.close()
    assert faults == []


def cut_the_line(page: Page) -> None:
    page.context.set_offline(True)
    expect(page.locator("#line")).to_contain_text("No connection")


def ask_about_a_peach(page: Page) -> None:
    page.get_by_label("Crop (needed)").select_option("peach")
    page.get_by_label("Days since").fill("30")
    page.get_by_role("button", name="Ask", exact=True).click()


def test_what_was_typed_survives_a_reload(tablet: Page) -> None:
    tablet.get_by_label("Hardiness zone").fill("7b")
    tablet.get_by_label("Length that bears").fill("36")
    tablet.get_by_role("button", name="Add a branch").click()
    tablet.get_by_label("Length that bears").nth(1).fill("24")
    tablet.reload()
    expect(tablet.get_by_label("Hardiness zone")).to_have_value("7b")
    expect(tablet.get_by_label("Length that bears").nth(0)).to_have_value("36")
    expect(tablet.get_by_label("Length that bears").nth(1)).to_have_value("24")


def test_an_answer_survives_a_reload_without_a_line_and_says_how_old_it_is(tablet: Page) -> None:
    ask_about_a_peach(tablet)
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()
    cut_the_line(tablet)
    tablet.reload()
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()
    expect(tablet.get_by_text("there is no connection to ask again")).to_be_visible()


def test_the_page_opens_without_a_line_with_the_names_last_fetched(tablet: Page) -> None:
    cut_the_line(tablet)
    tablet.goto("/counter#pruning")
    tablet.reload()
    expect(tablet.get_by_label("Crop (needed)").locator("option", has_text="Asian pear")).to_have_count(1)
    expect(tablet.get_by_text("No connection: go on typing")).to_be_visible()


def test_a_question_without_a_line_waits_and_is_sent_when_it_is_back(tablet: Page) -> None:
    cut_the_line(tablet)
    ask_about_a_peach(tablet)
    expect(tablet.get_by_text("kept on this tablet")).to_be_visible()
    expect(tablet.locator("#line")).to_contain_text("1 question waits")
    tablet.reload()
    expect(tablet.get_by_text("kept on this tablet")).to_be_visible()
    expect(tablet.get_by_label("Days since")).to_have_value("30")
    tablet.context.set_offline(False)
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()
    expect(tablet.locator("#line")).to_have_text("Connected")


def test_an_answer_that_comes_while_another_question_is_open_is_announced(tablet: Page) -> None:
    cut_the_line(tablet)
    ask_about_a_peach(tablet)
    expect(tablet.get_by_text("kept on this tablet")).to_be_visible()
    tablet.get_by_role("link", name="How do I prune it?").click()
    tablet.context.set_offline(False)
    expect(tablet.get_by_text("The answer has come: My tree has too much fruit")).to_be_visible()
    tablet.get_by_role("link", name="Show it").click()
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()


def test_a_question_that_waits_can_be_taken_back(tablet: Page) -> None:
    cut_the_line(tablet)
    ask_about_a_peach(tablet)
    tablet.get_by_role("button", name="Do not send it").click()
    expect(tablet.locator("#line")).to_have_text("No connection")


def test_an_answer_to_what_stood_there_before_says_so(tablet: Page) -> None:
    ask_about_a_peach(tablet)
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()
    old = tablet.get_by_text("Something was changed since")
    expect(old).to_be_hidden()
    tablet.get_by_label("Days since").fill("40")
    expect(old).to_be_visible()
    tablet.get_by_label("Days since").fill("30")
    expect(old).to_be_hidden()


def test_the_next_customer_finds_an_empty_page_and_a_slip_can_be_mended(tablet: Page) -> None:
    ask_about_a_peach(tablet)
    expect(tablet.get_by_text("At the tree, in this order")).to_be_visible()
    tablet.get_by_label("Days since").fill("40")
    tablet.get_by_role("button", name="Next customer").click()
    expect(tablet.get_by_text("empty for the next customer")).to_be_visible()
    tablet.get_by_role("link", name="My tree has too much fruit").click()
    expect(tablet.get_by_label("Days since")).to_have_value("")
    expect(tablet.get_by_text("At the tree, in this order")).to_be_hidden()
    tablet.get_by_role("button", name="Bring it back").click()
    expect(tablet.get_by_label("Days since")).to_have_value("40")
