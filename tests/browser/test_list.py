"""Look over my list: pasted or from a file, read back line by line, drawn to scale, mended, and taken along."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

LIST = "2x Honeycrisp on M.9 $39.99 each\nGalla apple\nLiberty\nBartlett on Quince A\nZzyxqv apple"


def tell_place(page: Page) -> None:
    page.goto("/counter")
    for label, value in {"Hardiness zone": "7b", "Winter chill, hours": "900", "Width of the plot": "30",
                         "Depth of the plot": "20", "Trees to stay under": "12"}.items():  # fmt: skip
        page.get_by_label(label).fill(value)
    page.get_by_role("link", name="Look over my list").click()


def paste(page: Page, text: str = LIST) -> None:
    tell_place(page)
    page.get_by_label("The list, as they wrote it").fill(text)
    ask(page)
    expect(page.get_by_role("heading", name="Line by line")).to_be_visible()


def ask(page: Page) -> None:
    page.get_by_role("button", name="Ask", exact=True).click()


def test_each_line_has_a_verdict_and_what_was_written_beside_it(page: Page) -> None:
    paste(page)
    expect(page.get_by_role("heading", name="The list does not work here yet")).to_be_visible()
    expect(page.locator("article.stop", has_text="Bartlett fails on Quince A").first).to_be_visible()
    expect(page.locator("article", has_text="Written: Zzyxqv apple").locator(".verdict")).to_have_text("name not known")


def test_a_guessed_name_is_put_right_with_one_touch(page: Page) -> None:
    paste(page)
    guess = page.locator("article", has_text="Written: Galla apple")
    guess.get_by_role("button", name="Gala", exact=True).click()
    expect(page.get_by_label("The list, as they wrote it")).to_have_value(LIST.replace("Galla", "Gala"))
    expect(page.locator("article", has_text="Written: Gala apple")).to_be_visible()


def test_the_plot_is_drawn_to_scale_with_the_same_as_a_table(page: Page) -> None:
    paste(page)
    sketch = page.get_by_role("img", name="The plot with its trees, to scale").first
    expect(sketch).to_be_visible()
    crowns = sketch.locator("circle.crown")
    radius = [float(crowns.nth(at).get_attribute("r") or 0) for at in range(crowns.count())]
    plot = sketch.locator("rect.plot")
    wide, deep = (float(plot.get_attribute(side) or 0) for side in ("width", "height"))
    assert wide / deep == pytest.approx(30 / 20)
    place = {"hardiness_zone": "7b", "chill_hours": 900, "width_ft": 30, "depth_ft": 20, "max_height_ft": 12}
    told = page.request.post("/v1/planting-lists", data={"text": LIST, "site": place}).json()
    spreads = [tree["spread_ft"] for tree in told["answer"]["sketch"]["trees"]]
    assert radius == pytest.approx([spread / 2 * wide / 30 for spread in spreads])
    figure = page.locator("figure", has_text="to scale").first
    figure.locator("summary").click()
    expect(figure.locator("tbody tr").first).to_be_visible()


def test_a_file_is_read_as_well(page: Page, tmp_path: Path) -> None:
    file = tmp_path / "list.csv"
    file.write_text("variety,quantity\nHoneycrisp,2\nLiberty,1\n", encoding="utf-8")
    tell_place(page)
    page.get_by_label("Or a file").set_input_files(file)
    ask(page)
    expect(page.locator("article", has_text="Liberty").first).to_be_visible()
    page.reload()
    expect(page.locator("article", has_text="Liberty").first).to_be_visible()


def test_a_photo_is_refused_with_the_reason_at_its_field(page: Page, tmp_path: Path) -> None:
    photo = tmp_path / "IMG_0042.HEIC"
    photo.write_bytes(b"\x00\x00\x00\x18ftypheic")
    tell_place(page)
    page.get_by_label("Or a file").set_input_files(photo)
    ask(page)
    expect(page.locator("#list-file-error")).to_contain_text("one wrong name is one wrong tree")
    expect(page.get_by_label("Or a file")).to_be_focused()


def test_a_photo_under_another_name_is_refused_by_the_service_at_the_same_field(page: Page, tmp_path: Path) -> None:
    photo = tmp_path / "list.csv"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4)
    tell_place(page)
    page.get_by_label("Or a file").set_input_files(photo)
    ask(page)
    expect(page.locator("#list-file-error")).not_to_be_empty()


def test_the_answer_can_be_taken_along_as_a_file(page: Page) -> None:
    paste(page)
    for name, start in (("Spreadsheet", b"PK"), ("PDF", b"%PDF-"), ("Plain text", b"")):
        with page.expect_download() as waiting:
            page.get_by_role("button", name=name, exact=True).click()
        assert waiting.value.path().read_bytes().startswith(start)


@pytest.mark.parametrize("width", [360, 1024])
def test_the_answer_can_be_read_by_everyone(page: Page, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 768})
    paste(page)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
