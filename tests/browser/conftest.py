"""A browser without a window. It may load nothing but what the service serves."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

LACKING = "Chromium is missing; on Debian: apt-get install chromium"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium, as the system has it."""
    program = shutil.which("chromium")
    if program is None:
        pytest.fail(LACKING, pytrace=False)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def page(browser: Browser, live: str) -> Iterator[Page]:
    """An empty page that fails the test when a page complains or asks another host."""
    context = browser.new_context(base_url=live)
    page = context.new_page()
    page.set_default_timeout(15_000)
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda asked: None if asked.url.startswith(live) else complaints.append(asked.url))
    yield page
    context.close()
    ours = ("status of 422", "ERR_INTERNET_DISCONNECTED")  # what a test itself brings about
    assert [said for said in complaints if not any(one in said for one in ours)] == []
