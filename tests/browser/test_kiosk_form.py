"""The example form on a page of another origin: it asks with its key, and without it or from elsewhere it cannot."""

from __future__ import annotations

import re
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from service.api.kiosk_door import hash_of, new_key
from service.settings import CHECKOUT
from tests.live import free_port, running

EXAMPLE = CHECKOUT / "service" / "pages" / "static" / "embed"
KEY = new_key()


class Quiet(SimpleHTTPRequestHandler):
    """A web server of a store that says nothing."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript"}  # noqa: RUF012

    def log_message(self, *_: object) -> None:
        """Nothing."""


@contextmanager
def store_page(folder: Path, port: int, **data: str) -> Iterator[str]:
    """The example as a store serves it on an origin of its own, with its own address and key of the service."""
    shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True)
    page = folder / "example.html"
    text = page.read_text(encoding="utf-8")
    for name, value in data.items():
        assert f'data-{name}=""' in text
        text = text.replace(f'data-{name}=""', f'data-{name}="{value}"')
    page.write_text(text, encoding="utf-8")
    server = ThreadingHTTPServer(("127.0.0.1", port), partial(Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{port}/example.html"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.fixture(scope="module")
def listed() -> int:
    """The port of the origin that the service lets in."""
    return free_port()


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory, listed: int) -> Iterator[str]:
    """A service that knows one kiosk."""
    settings = {
        "FRUITWRIGHT_LOG_LEVEL": "warning",
        "FRUITWRIGHT_WORKERS": "1",
        "FRUITWRIGHT_KIOSK_ORIGINS": f"http://127.0.0.1:{listed}",
        "FRUITWRIGHT_KIOSK_KEYS": f"lobby:{hash_of(KEY)}",
    }
    with running(tmp_path_factory.mktemp("kiosk"), settings) as address:
        yield address


@pytest.fixture
def visitor(browser: Browser) -> Iterator[Page]:
    """An empty page."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


def test_a_page_of_a_listed_origin_asks_with_its_key(
    visitor: Page, service: str, listed: int, tmp_path: Path
) -> None:
    with store_page(tmp_path, listed, service=service, key=KEY) as address:
        visitor.goto(address)
        visitor.get_by_label("Fruit").select_option("apple")
        visitor.get_by_label("Hardiness zone").fill("7b")
        visitor.get_by_role("button", name="Ask", exact=True).click()
        expect(visitor.locator("article h3", has_text="apple")).to_have_count(3)
        expect(visitor.locator(".cautions")).to_be_visible()
        found = Axe().run(visitor)
        assert found.violations_count == 0, found.generate_report()
        visitor.get_by_role("button", name="Ask the counter").click()
        number = visitor.get_by_text("Tell the counter this number:").locator("strong").text_content()
        ticket = visitor.request.get(f"{service}/v1/tickets/{number}").json()
        assert ticket["questions"][0]["asked"] == {"wishes": {"crops": ["apple"]}, "site": {"hardiness_zone": "7b"}}


def test_a_refusal_stands_at_its_field_and_nothing_typed_is_lost(
    visitor: Page, service: str, listed: int, tmp_path: Path
) -> None:
    with store_page(tmp_path, listed, service=service, key=KEY) as address:
        visitor.goto(address)
        visitor.get_by_label("Hardiness zone").fill("warm")
        visitor.get_by_label("Tallest tree").fill("900")
        visitor.get_by_role("button", name="Ask", exact=True).click()
        expect(visitor.locator("#zone-fault")).to_contain_text("such as 7b")
        expect(visitor.locator("#height-fault")).not_to_be_empty()
        expect(visitor.get_by_label("Hardiness zone")).to_be_focused()
        expect(visitor.get_by_label("Tallest tree")).to_have_value("900")


@pytest.mark.parametrize("key", ["", "a-key-that-nobody-made"])
def test_without_its_key_the_page_is_told_so(
    visitor: Page, service: str, listed: int, tmp_path: Path, key: str
) -> None:
    with store_page(tmp_path, listed, service=service, key=key) as address:
        visitor.goto(address)
        expect(visitor.get_by_role("alert")).to_contain_text(re.compile("key"))
        expect(visitor.get_by_label("Fruit").locator("option")).to_have_count(1)


def test_from_an_origin_that_is_not_listed_the_browser_lets_nothing_through(
    visitor: Page, service: str, tmp_path: Path
) -> None:
    said: list[str] = []
    visitor.on("console", lambda message: said.append(message.text))
    with store_page(tmp_path, free_port(), service=service, key=KEY) as address:
        visitor.goto(address)
        expect(visitor.get_by_role("alert")).to_contain_text("no connection")
    assert any("blocked by CORS policy" in one for one in said)


def test_the_example_works_where_the_service_serves_it_itself(visitor: Page, service: str) -> None:
    visitor.goto(f"{service}/static/embed/example.html")
    visitor.get_by_label("Fruit").select_option("fig")
    visitor.get_by_role("button", name="Ask", exact=True).click()
    expect(visitor.locator("article h3", has_text="fig").first).to_be_visible()
