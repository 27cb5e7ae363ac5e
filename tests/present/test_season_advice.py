"""The plan of a year as a person, a calendar and a printer read it."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any, NamedTuple
from xml.etree import ElementTree

import pytest
from icalendar import Calendar

from service.domain.month_day import MonthDay
from service.domain.season_tree import SeasonTree, Sighting
from service.domain.site import Site
from service.domain.units import Language
from service.present.calendar import season_calendar
from service.present.season import season_advice, tree_keys
from service.present.year_strip import year_strip
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_season import START, VALLEY, asked, year_round

STAMP = datetime(2026, 11, 25, 13, 0, tzinfo=UTC)
SVG = "{http://www.w3.org/2000/svg}"
GATE = "by the <gate> & wall"


class Box(NamedTuple):
    """A rectangle of the page."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.x + self.width


@pytest.fixture(scope="module")
def book(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return year_round(tmp_path_factory.mktemp("season"), rulebook)


def told(book: Rulebook, *trees: SeasonTree, language: Language = "en", **question: Any) -> dict[str, Any]:
    question.setdefault("ground", VALLEY)
    answer = asked(book, *(trees or (SeasonTree("apple"),)), **question)
    return season_advice(answer, rulebook=book, language=language)


def events(plan: dict[str, Any]) -> dict[str, Any]:
    calendar = Calendar.from_ical(season_calendar(plan, STAMP))
    return {str(event["UID"]): event for event in calendar.walk("VEVENT")}


def tasks(plan: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {task["task"]: task for tree in plan["answer"]["trees"] for task in tree["tasks"]}


def test_a_task_says_what_when_how_sure_and_why(book: Rulebook) -> None:
    scab = tasks(told(book))["scab"]
    assert (scab["what"], scab["text"], scab["why"]) == ("Watch for scab", "Do scab.", "The reason for scab.")
    assert (scab["from"], scab["to"]) == ("2027-03-03", "2027-04-23")
    assert (scab["earliest"], scab["latest"]) == ("2027-02-18", "2027-05-06")
    assert (scab["basis"], scab["spread_days"]) == ("estimated", 13)


def test_a_plan_covers_a_year_less_a_day(book: Rulebook) -> None:
    answer = told(book)["answer"]
    assert (answer["from"], answer["to"]) == ("2026-11-25", "2027-11-24")


def test_a_stage_tells_its_frost_in_both_scales(book: Rulebook) -> None:
    stages = told(book, site=Site(last_spring_frost=MonthDay(5, 1)))["answer"]["trees"][0]["stages"]
    bloom = next(stage for stage in stages if stage["stage"] == "bloom")
    assert (bloom["kill_10_percent_f"], bloom["kill_10_percent_c"]) == (28, -2.2)
    assert bloom["frost_risk"] == "likely"
    assert bloom["reasons"][0]["text"] == "Frost at 28 °F (−2.2 °C)."


def test_nitrogen_and_product_stand_in_ounces_and_grams(book: Rulebook) -> None:
    plan = told(book, SeasonTree("apple", age_years=4), fertiliser_percent=21)
    assert plan["answer"]["trees"][0]["nitrogen"] == {
        "year_oz": 6.4, "year_g": 181, "doses": 2, "dose_oz": 3.2, "dose_g": 91, "product_oz": 15.2, "product_g": 431,
        "limited_by": "age",
    }  # fmt: skip


def test_in_spanish_the_plan_speaks_spanish(book: Rulebook) -> None:
    plan = told(book, language="es")
    assert tasks(plan)["scab"]["what"] == "Vigilar la sarna"
    assert tasks(plan)["scab"]["kind_name"] == "plagas y enfermedades"
    assert "diciembre" in year_strip(plan)
    assert any("Las fechas son una estimación" in str(one["DESCRIPTION"]) for one in events(plan).values())


def test_trees_of_one_name_are_told_apart_by_a_number() -> None:
    assert tree_keys([SeasonTree("apple"), SeasonTree("apple", "apple.gala"), SeasonTree("apple")]) == [
        "apple", "apple.gala", "apple #2",
    ]  # fmt: skip


def test_every_dated_task_is_a_whole_day_event_that_ends_the_day_after(book: Rulebook) -> None:
    plan = told(book)
    found = events(plan)
    assert len(found) == len(tasks(plan))
    for task in tasks(plan).values():
        event = found[task["uid"]]
        assert event.start == date.fromisoformat(task["from"])
        assert event.end - timedelta(days=1) == date.fromisoformat(task["to"])
        assert event["DTSTAMP"].dt == STAMP
        assert event["TRANSP"] == "TRANSPARENT"


def test_asked_again_after_bloom_was_seen_the_same_events_move(book: Rulebook) -> None:
    first = events(told(book))
    bloom = date(2027, 4, 20)
    again = events(told(book, SeasonTree("apple", seen=Sighting(full_bloom=bloom)), start=bloom))
    both = first.keys() & again.keys()
    moved = {str(first[uid]["SUMMARY"]) for uid in both if first[uid].start != again[uid].start}
    assert {"apple: Watch for scab", "apple: Pick"} <= moved


def test_the_plans_of_two_customers_share_no_event(book: Rulebook) -> None:
    assert not events(told(book, plan="one")).keys() & events(told(book, plan="two")).keys()


def test_an_event_says_whether_its_dates_are_an_estimate_or_the_calendars(book: Rulebook) -> None:
    said = {str(event["SUMMARY"]): str(event["DESCRIPTION"]) for event in events(told(book)).values()}
    assert "they may come 13 days earlier or later" in said["apple: Watch for scab"]
    assert "follow the calendar" in said["apple: Plant bare-root trees"]
    assert said["apple: Protect against leaf curl at leaf fall"].startswith("Only where it shows.")


def test_a_calendar_keeps_to_the_format(book: Rulebook) -> None:
    plan = told(book, SeasonTree("apple", label="Grandmother's tree, by the old well; " * 3))
    written = season_calendar(plan, STAMP)
    lines = written.split(b"\r\n")
    assert (lines[0], lines[1], lines[-2]) == (b"BEGIN:VCALENDAR", b"VERSION:2.0", b"END:VCALENDAR")
    assert all(len(line) <= 75 for line in lines)
    assert b"\n" not in written.replace(b"\r\n", b"")
    assert written == season_calendar(plan, STAMP)


def test_the_strip_is_one_page_with_every_task_on_it(book: Rulebook) -> None:
    plan = told(book, SeasonTree("apple"), SeasonTree("peach", label=GATE))
    page = ElementTree.fromstring(year_strip(plan))
    assert (page.tag, page.get("width"), page.get("height")) == (f"{SVG}svg", "297mm", "210mm")
    words = [each.text for each in page.iter(f"{SVG}text")]
    for tree in plan["answer"]["trees"]:
        assert all(task["what"] in words for task in tree["tasks"])
    assert any(word and word.startswith(GATE) for word in words)


def test_nothing_on_the_strip_leaves_the_page_or_covers_another_bar(book: Rulebook) -> None:
    trees = [SeasonTree(crop) for crop in ("apple", "peach", "apricot")]
    page = ElementTree.fromstring(year_strip(told(book, *trees)))
    width, height = (float(size) for size in page.get("viewBox", "").split()[2:])
    bars = [Box(*(float(rect.get(name, "")) for name in Box._fields)) for rect in page.findall(f"{SVG}g/{SVG}rect")]
    assert len(bars) > 40
    for place, bar in enumerate(bars):
        assert 0 <= bar.x <= bar.right <= width
        assert 0 <= bar.y <= bar.y + bar.height <= height
        beside = [other for other in bars[place + 1 :] if other.y == bar.y]
        assert all(bar.right <= other.x + 0.1 or other.right <= bar.x + 0.1 for other in beside)


def test_an_estimate_has_a_broken_edge_and_work_to_leave_alone_is_white(book: Rulebook) -> None:
    page = ElementTree.fromstring(year_strip(told(book)))
    boxes = {}
    for group in page.iter(f"{SVG}g"):
        box, title = group.find(f"{SVG}rect"), group.find(f"{SVG}title")
        assert box is not None
        assert title is not None
        boxes[str(title.text).split(":")[0]] = box
    assert boxes["Watch for scab"].get("stroke-dasharray")
    assert not boxes["Plant bare-root trees"].get("stroke-dasharray")
    assert boxes["No insecticide in bloom"].get("fill") == "#fff"


def test_a_plan_that_began_before_its_first_day_starts_at_the_edge(book: Rulebook) -> None:
    page = ElementTree.fromstring(year_strip(told(book, start=START + timedelta(days=5))))
    firsts = [float(box.get("x", "")) for box in page.iter(f"{SVG}rect") if box.get("x")]
    assert min(firsts) == 132.0
