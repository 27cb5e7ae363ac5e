"""The drawings of a planting list as a browser sets them: real letters cover one another as little as reckoned ones."""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Browser

from service.domain.units import Language
from service.present.drawings.harvest_chart import harvest_chart
from service.present.drawings.planting_sketch import planting_sketch
from service.present.drawings.shapes import Drawing
from service.present.drawings.svg import svg_of

BOXES = """() => {
  const svg = document.querySelector('svg'), page = svg.getBoundingClientRect();
  return [...svg.querySelectorAll('text')].map(text => {
    const box = text.getBoundingClientRect();
    return {text: text.textContent, left: box.left - page.left, right: box.right - page.left,
            top: box.top - page.top, bottom: box.bottom - page.top, width: page.width, height: page.height};
  });
}"""
SPREADS = {"Liberty": 8, "Cox's Orange Pippin": 12, "Esopus Spitzenburg": 18, "Gala / Fuyu / Hosui": 15}


def tree(line: int, name: str, x: float, y: float) -> dict[str, Any]:
    spread = SPREADS[name]
    return {"line": line, "cultivars": [{"name": name}], "x_ft": x, "y_ft": y, "spread_ft": spread, "nearest_ft": 12.0}


def drawings() -> list[Drawing]:
    trees = [tree(1, "Liberty", 4 + 8 * place, 4) for place in range(6)]
    trees += [tree(2, "Cox's Orange Pippin", 6 + 12 * place, 15) for place in range(4)]
    trees += [tree(3, "Esopus Spitzenburg", 9, 31), tree(4, "Gala / Fuyu / Hosui", 26, 31)]
    sketch = {"width_ft": 50.0, "depth_ft": 40.0, "trees": trees, "left_over": [], "standing": []}
    times = [
        {"line": line, "name": name, "from": "12-20", "to": "02-10", "trees": line, "basis": "offset"}
        for line, name in enumerate(SPREADS, 1)
    ]
    harvest = {
        "first_month": 1,
        "times": times,
        "weeks": [{"from": "01-01", "trees": 10}, {"from": "01-08", "trees": 9}],
        "gap_months": [11],
        "busiest_week": {"from": "01-01", "trees": 10},
        "busiest_share": 1.0,
        "unknown_trees": 2,
    }
    tongues: tuple[Language, ...] = ("en", "es")
    sketches = [planting_sketch(sketch, language=tongue) for tongue in tongues]
    return sketches + [harvest_chart(harvest, language=tongue) for tongue in tongues]


@pytest.mark.parametrize("drawing", drawings(), ids=lambda drawing: f"{drawing.name}-{drawing.language}")
def test_no_letters_stand_on_letters_or_beyond_the_page(browser: Browser, drawing: Drawing) -> None:
    page = browser.new_page()
    page.set_content(svg_of(drawing))
    boxes = page.evaluate(BOXES)
    page.close()
    assert len(boxes) > 10
    for place, one in enumerate(boxes):
        assert one["left"] >= -1
        assert one["right"] <= one["width"] + 1, one["text"]
        assert one["bottom"] <= one["height"] + 2, one["text"]
        for other in boxes[place + 1 :]:
            beside = one["right"] <= other["left"] or other["right"] <= one["left"]
            # A box of letters holds the room for accents above and tails below, some of which lines may share.
            apart = one["bottom"] - 3 <= other["top"] or other["bottom"] - 3 <= one["top"]
            assert beside or apart, (one["text"], other["text"])
