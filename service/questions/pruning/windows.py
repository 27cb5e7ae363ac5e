"""The days for each kind of cuts at this place: what the rules say, narrowed by harvest, rain and frost."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from service.compute.pruning_window import Days, closed_before, dates_of, opened_after, standing
from service.questions.pruning.question import WINDOWS, DatedWindow, Facts, WindowName
from service.reasoning.vocabulary import Value

_SUMMER: tuple[WindowName, ...] = ("early_summer", "after_harvest", "late_summer")


class Windows:
    """Works the windows out from what pruning.tree concluded and from what is known of place and day."""

    def __init__(self, concluded: Mapping[str, Value], facts: Facts) -> None:
        self.concluded = {name: value for name, value in concluded.items() if isinstance(value, int | float)}
        self.day, self.harvest, self.rains, self.frost = (
            _whole(facts.get(name))
            for name in ("date.day", "harvest.last_day", "site.rains_begin_day", "site.first_autumn_frost_day")
        )
        self.harvested = facts.get("tree.harvested")

    def all(self, today: date | None, *, southern: bool) -> Mapping[WindowName, DatedWindow]:
        """Every window that the rules speak of."""
        found = {}
        for name in WINDOWS:
            calendar = self.calendar(name)
            if calendar is not None:
                days, narrowed_by = self.narrowed(name, calendar)
                found[name] = self.dated(days, narrowed_by, today=today, southern=southern)
        return found

    def calendar(self, name: WindowName) -> Days | None:
        """The days that the rules name, before anything narrows them."""
        first, last = self.number(f"{name}_from_day"), self.number(f"{name}_to_day")
        if name == "after_harvest":
            first = self.first_after_harvest()
        return None if first is None or last is None else Days(first, last)

    def comes_too_late(self, name: WindowName, days: Days) -> bool:
        """Whether the fruit hangs longer than cuts after harvest may be made; these never run over the new year."""
        return name == "after_harvest" and days.from_day > days.to_day

    def first_after_harvest(self) -> int | None:
        """The day after the last fruit is picked; no later than today on a bare tree, and never before summer."""
        first = None if self.harvest is None else self.harvest + 1
        if self.harvested and self.day is not None:
            first = self.day if first is None else min(self.day, first)
        summer = self.number("early_summer_from_day")
        return first if first is None or summer is None else max(first, summer)

    def narrowed(self, name: WindowName, days: Days) -> tuple[Days | None, tuple[str, ...]]:
        """The days that are left, and what took the others."""
        if self.comes_too_late(name, days):
            return None, ("harvest",)
        kept: Days | None = days
        by = []
        for reason, narrow in self.narrowings(name):
            left = None if kept is None else narrow(kept)
            if left != kept:
                by.append(reason)
            kept = left
        return kept, tuple(by)

    def narrowings(self, name: WindowName) -> list[tuple[str, Callable[[Days], Days | None]]]:
        """What narrows a window: harvest, the rains that a wound must not meet, and the frost that ends summer."""
        found: list[tuple[str, Callable[[Days], Days | None]]] = []
        last_picked, dry, frost = self.last_picked(name), self.number("dry_weeks"), self.number("frost_weeks")
        if last_picked is not None:
            found.append(("harvest", lambda days: opened_after(days, last_picked)))
        if dry is not None and self.rains is not None:
            rains, weeks = self.rains, dry
            found.append(("rain", lambda days: closed_before(days, rains, weeks=weeks)))
        if name in _SUMMER and frost is not None and self.frost is not None:
            first, before = self.frost, frost
            found.append(("frost", lambda days: closed_before(days, first, weeks=before)))
        return found

    def last_picked(self, name: WindowName) -> int | None:
        """The last day of harvest where the window waits for it; a tree that is bare already waits no longer."""
        waits = name == "main" and self.concluded.get("main_waits_for_harvest", False)
        return self.harvest if waits and not self.harvested else None

    def dated(
        self, days: Days | None, narrowed_by: tuple[str, ...], *, today: date | None, southern: bool
    ) -> DatedWindow:
        """The window with where the day stands to it, and with dates where a day is asked about."""
        where = None if self.day is None else standing(days, self.day)
        if days is None or today is None:
            return DatedWindow(days, where, narrowed_by=narrowed_by)
        opens, closes = dates_of(days, today, southern=southern)
        return DatedWindow(days, where, opens, closes, narrowed_by)

    def number(self, name: str) -> int | None:
        """A concluded number as a whole one."""
        return _whole(self.concluded.get(name))


def window_facts(windows: Mapping[WindowName, DatedWindow]) -> dict[str, Value]:
    """The windows as facts for the rules that come after."""
    facts: dict[str, Value] = {}
    for name, window in windows.items():
        if window.standing is not None:
            facts[f"window.{name}"] = window.standing.state
        if window.days is not None:
            facts[f"window.{name}_from_day"] = window.days.from_day
            facts[f"window.{name}_to_day"] = window.days.to_day
    main = windows.get("main")
    if main is not None and main.standing is not None:
        for which, days in (("left", main.standing.days_left), ("to_open", main.standing.days_to_open)):
            if days is not None:
                facts[f"window.main_days_{which}"] = days
    return facts


def _whole(value: Value | None) -> int | None:
    return round(value) if isinstance(value, int | float) else None
