"""The drawings of a planting list: to scale, legible, with no label on another; trees, places and dates are made up."""

from __future__ import annotations

import math
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.compute.harvest_spread import Picking, spread_over
from service.compute.plot_layout import ToPlace, lay_out
from service.domain.month_day import season_day
from service.domain.units import FOOT_M
from service.present.drawings import drawing_words
from service.present.drawings import harvest_chart as chart
from service.present.drawings import planting_sketch as sketches
from service.present.drawings.harvest_chart import harvest_chart
from service.present.drawings.labels import area_of
from service.present.drawings.planting_sketch import planting_sketch
from service.present.drawings.shapes import GREY, INK, PAGE_WIDTH, WHITE, Box, Disc, Drawing, Stroke, Words
from service.present.drawings.svg import svg_of

SVG = "{http://www.w3.org/2000/svg}"
NAMES = ("Liberty", "Cox's Orange Pippin", "Gala", "Hosui", "Esopus Spitzenburg", "Fuyu")
Sketch = dict[str, Any]


def sketched(rows: list[tuple[str, float, int]], plot: tuple[float, float], *, share: float = 0.5) -> Sketch:
    """A sketch as an answer tells it, of lines with a name, a spread and a number of trees."""
    each = [(line, name, spread) for line, (name, spread, count) in enumerate(rows, 1) for _ in range(count)]
    layout = lay_out([ToPlace(spread, spread) for _, _, spread in each], plot, edge_share=share)
    trees = [
        {
            "line": each[spot.tree][0],
            "cultivars": [{"cultivar": "x", "name": name} for name in each[spot.tree][1].split("/")],
            "x_ft": round(spot.x_ft, 2),
            "y_ft": round(spot.y_ft, 2),
            "spread_ft": spot.spread_ft,
            "nearest_ft": layout.nearest_ft.get(spot.tree),
        }
        for spot in layout.placed
    ]
    left = [each[tree][0] for tree in layout.left_over]
    over = [{"line": line, "trees": left.count(line)} for line in sorted(set(left))]
    return {"width_ft": plot[0], "depth_ft": plot[1], "trees": trees, "left_over": over, "standing": []}


def told(rows: list[tuple[str, int, int, int]], *, southern: bool = False, unknown: int = 0) -> dict[str, Any]:
    """A harvest as an answer tells it, of lines with a name, a first and a last day, and a number of trees."""
    spread = spread_over([Picking(*row[1:]) for row in rows], southern=southern)

    def day(number: int) -> str:
        return season_day(number, southern=southern).text

    times = [
        {"line": line, "name": name, "from": day(first), "to": day(last), "trees": trees, "basis": "cultivar_dates"}
        for line, (name, first, last, trees) in enumerate(rows, 1)
    ]
    busiest = spread.busiest
    return {
        "first_month": 7 if southern else 1,
        "times": times,
        "weeks": [{"from": day(week.from_day), "trees": week.trees} for week in spread.weeks if week.trees],
        "gap_months": list(spread.gaps),
        "busiest_week": None if busiest is None else {"from": day(busiest.from_day), "trees": busiest.trees},
        "busiest_share": spread.busiest_share,
        "unknown_trees": unknown,
    }


def of_kind(drawing: Drawing, kind: type[Any]) -> list[Any]:
    return [shape for shape in drawing.shapes if isinstance(shape, kind)]


def texts(drawing: Drawing) -> list[str]:
    return [words.text for words in of_kind(drawing, Words)]


def assert_legible(drawing: Drawing) -> None:
    """No words on words, and all of them on the page."""
    areas = [(words, area_of(words)) for words in of_kind(drawing, Words)]
    for words, area in areas:
        assert area.left >= 0, words
        assert area.right <= drawing.width, words
        assert area.top >= 0, words
        assert area.bottom <= drawing.height, words
    for (one, covers), (other, covered) in combinations(areas, 2):
        assert not covers.meets(covered), (one, other)


SPREADS = st.sampled_from((6.0, 8.0, 12.0, 18.5, 30.0))
ROW = st.tuples(st.sampled_from((*NAMES, "Gala/Fuyu/Hosui")), SPREADS, st.integers(1, 7))
ROWS = st.lists(ROW, min_size=1, max_size=6)
SIDES = st.sampled_from((6.0, 8.0, 12.5, 20.0, 45.0, 61.0, 100.0, 240.0, 1000.0, 4000.0))
LANGUAGES = st.sampled_from(("en", "es"))


@settings(max_examples=60)
@given(ROWS, st.tuples(SIDES, SIDES), st.sampled_from((0.0, 0.25, 0.5)), LANGUAGES)
def test_no_label_of_a_sketch_covers_another_or_leaves_the_page(
    rows: list[tuple[str, float, int]], plot: tuple[float, float], share: float, language: Any
) -> None:
    assert_legible(planting_sketch(sketched(rows, plot, share=share), language=language))


@settings(max_examples=60)
@given(ROWS, st.tuples(SIDES, SIDES), st.sampled_from((0.0, 0.5)))
def test_crowns_and_places_are_to_one_scale(rows: Any, plot: tuple[float, float], share: float) -> None:
    sketch = sketched(rows, plot, share=share)
    drawing = planting_sketch(sketch)
    crowns = [disc for disc in of_kind(drawing, Disc) if disc.says]
    assert len(crowns) == len(sketch["trees"])
    if not crowns:
        return
    scale = crowns[0].radius * 2 / sketch["trees"][0]["spread_ft"]
    first, origin = sketch["trees"][0], crowns[0]
    for tree, crown in zip(sketch["trees"], crowns, strict=True):
        assert crown.radius * 2 == pytest.approx(tree["spread_ft"] * scale)
        assert crown.x - origin.x == pytest.approx((tree["x_ft"] - first["x_ft"]) * scale, abs=1e-6)
        assert origin.y - crown.y == pytest.approx((tree["y_ft"] - first["y_ft"]) * scale, abs=1e-6)
        assert crown.x - crown.radius >= 0
        assert crown.x + crown.radius <= PAGE_WIDTH


def test_the_bars_of_the_scale_are_as_long_as_they_say() -> None:
    drawing = planting_sketch(sketched([("Liberty", 12, 2)], (60, 40)))
    crown = next(disc for disc in of_kind(drawing, Disc) if disc.says)
    halves = [box for box in of_kind(drawing, Box) if box.height == 4]
    feet, metres = halves[0].width + halves[1].width, halves[2].width + halves[3].width
    assert feet == pytest.approx(10 * crown.radius * 2 / 12)
    assert metres == pytest.approx(3 / FOOT_M * crown.radius * 2 / 12)
    assert {"10 ft", "3 m"} <= set(texts(drawing))


def test_trees_are_named_in_their_crowns_and_told_apart_by_line_and_letter() -> None:
    words = texts(planting_sketch(sketched([("Liberty", 12, 2), ("Cox's Orange Pippin", 12, 1)], (60, 40))))
    assert {"1a", "1b", "2", "Liberty", "Cox's Orange", "Pippin"} <= set(words)


def test_distances_stand_between_trunks_in_feet_and_metres() -> None:
    words = texts(planting_sketch(sketched([("Liberty", 12, 2)], (30, 20))))
    between = [text for text in words if text == "12 ft (3.7 m)"]
    assert len(between) == 1 + 2 * 2  # between the trunks, and in the key how wide each grows and its nearest trunk


def test_a_plot_on_which_trees_would_be_specks_is_shown_in_part_and_says_so() -> None:
    drawing = planting_sketch(sketched([("Liberty", 12, 2)], (4000, 3000)))
    assert min(disc.radius for disc in of_kind(drawing, Disc) if disc.says) > 12
    assert "The plot goes on where its edge is broken." in texts(drawing)
    assert [stroke.dash for stroke in of_kind(drawing, Stroke)].count((2.0, 3.0)) == 2


def test_what_found_no_room_is_said() -> None:
    assert "No room was found for: 1 of line 1." in texts(planting_sketch(sketched([("Liberty", 25, 1)], (12, 14))))


def test_a_standing_tree_has_a_broken_edge_and_no_number() -> None:
    sketch = sketched([("Liberty", 12, 1)], (60, 40))
    sketch["standing"] = [{"cultivars": [], "crop_name": "cherry", "x_ft": 40.0, "y_ft": 20.0, "spread_ft": 16.0}]
    drawing = planting_sketch(sketch)
    broken = [disc for disc in of_kind(drawing, Disc) if disc.dash]
    assert [disc.fill for disc in broken] == [sketches.STANDING]
    assert "cherry (stands already)" in texts(drawing)
    assert "cherry" not in drawing.description


def test_a_sketch_tells_its_trees_in_words() -> None:
    description = planting_sketch(sketched([("Gala", 10, 1)], (30, 20))).description
    assert description == (
        "Plot 30 ft (9.1 m) wide and 20 ft (6.1 m) deep, one tree with the width that it grows to. "
        "1 Gala: 5 ft (1.5 m) from the left, 5 ft (1.5 m) from the front, grows 10 ft (3 m) wide."
    )


DAYS = st.integers(1, 365)
HARVESTS = st.lists(st.tuples(st.sampled_from(NAMES), DAYS, DAYS, st.integers(1, 9)), min_size=1, max_size=45)


@settings(max_examples=60)
@given(HARVESTS, st.booleans(), LANGUAGES)
def test_no_label_of_a_chart_covers_another_or_leaves_the_page(rows: Any, southern: bool, language: Any) -> None:
    drawing = harvest_chart(told(rows, southern=southern, unknown=3), language=language)
    assert_legible(drawing)
    for box in of_kind(drawing, Box):
        assert 0 <= box.x <= box.x + box.width <= drawing.width
        assert 0 <= box.y <= box.y + box.height <= drawing.height


@given(DAYS, DAYS, st.booleans())
def test_a_bar_begins_and_ends_where_its_days_do(first: int, last: int, southern: bool) -> None:
    drawing = harvest_chart(told([("Gala", first, last, 1)], southern=southern))
    bars = [box for box in of_kind(drawing, Box) if box.says]
    assert len(bars) == (1 if first <= last else 2)
    a_day = (PAGE_WIDTH - 136) / 365
    assert bars[0].x == pytest.approx(128 + (first - 1) * a_day)
    assert bars[-1].x + bars[-1].width == pytest.approx(128 + last * a_day, abs=1.5)


def test_months_stand_in_the_order_of_the_season() -> None:
    assert texts(harvest_chart(told([("Gala", 20, 30, 1)])))[:2] == ["Jan", "Feb"]
    assert texts(harvest_chart(told([("Gala", 20, 30, 1)], southern=True), language="es"))[:2] == ["jul", "ago"]


def test_columns_are_as_high_as_their_trees_and_the_fullest_is_dark_and_numbered() -> None:
    drawing = harvest_chart(told([("Gala", 8, 21, 1), ("Fuyu", 15, 21, 3)]))
    columns = [box for box in of_kind(drawing, Box) if not box.says]
    assert [box.fill for box in columns] == [chart.COLUMN, chart.FULLEST]
    assert columns[1].height == pytest.approx(4 * columns[0].height)
    assert "4" in texts(drawing)


def test_a_month_without_harvest_between_others_is_named() -> None:
    words = texts(harvest_chart(told([("Gala", 200, 205, 1), ("Fuyu", 260, 270, 1)])))
    assert "none" in words
    assert "Months without harvest between: August." in words


def test_an_estimate_has_a_broken_edge_and_the_chart_says_why() -> None:
    harvest = told([("Gala", 200, 230, 1)])
    harvest["times"][0]["basis"] = "ripening_class"
    drawing = harvest_chart(harvest)
    assert [box.dash for box in of_kind(drawing, Box) if box.says] == [(2.0, 1.5)]
    assert any(text.startswith("A broken edge is an estimate") for text in texts(drawing))
    assert not any("broken" in text for text in texts(harvest_chart(told([("Gala", 200, 230, 1)]))))


def test_of_a_long_list_the_rows_are_cut_but_all_are_counted_and_told() -> None:
    drawing = harvest_chart(told([("Gala", 200 + day, 250, 1) for day in range(45)]))
    assert "… and 9 more, counted below" in texts(drawing)
    assert drawing.description.count("Gala: ") == 45
    assert "45" in texts(drawing)


def brightness(colour: str) -> float:
    """Relative luminance by WCAG 2.2."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return math.fsum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    light, dark = sorted((brightness(one), brightness(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("ground", [*sketches.CROWNS, sketches.STANDING, WHITE])
def test_words_stand_out_from_every_ground(ground: str) -> None:
    assert contrast(INK, ground) >= 7
    assert contrast(GREY, WHITE) >= 4.5


@pytest.mark.parametrize("colour", [chart.COLUMN, chart.FULLEST, INK])
def test_what_carries_meaning_stands_out_from_the_paper(colour: str) -> None:
    assert contrast(colour, WHITE) >= 3


@pytest.mark.parametrize("language", ["en", "es"])
def test_drawings_are_svg_with_title_and_description_and_nothing_from_elsewhere(language: Any) -> None:
    drawings = [
        planting_sketch(sketched([("<Gala> & co", 10, 1)], (30, 20)), language=language),
        harvest_chart(told([("<Gala> & co", 200, 230, 1)]), language=language),
    ]
    for drawing in drawings:
        written = svg_of(drawing)
        top = ElementTree.fromstring(written)
        assert (top.tag, top.get("role")) == (f"{SVG}svg", "img")
        assert [top[0].text, top[1].text] == [drawing.title, drawing.description]
        assert top.get("aria-labelledby", "").split() == [top[0].get("id"), top[1].get("id")]
        assert [each.text for each in top.iter(f"{SVG}text")] == texts(drawing)
        assert "href" not in written
        assert "style" not in written


def test_every_word_of_a_drawing_is_there_in_both_languages() -> None:
    for words in (*drawing_words.SKETCH.values(), *drawing_words.HARVEST.values()):
        assert set(words) == {"en", "es"}
    assert [len(names) for names in drawing_words.MONTHS.values()] == [12, 12]
