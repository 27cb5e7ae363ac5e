"""How far the heat of a season has brought an insect: degree days from a day that a person can name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from service.domain.cut import Wording

ByHeat = Literal["not_yet", "due", "over"]


@dataclass(frozen=True, slots=True)
class InsectClock:
    """The published clock of one insect, in °F degree days between two thresholds.

    `starts` says from which day on they are counted. Harm by this year's insects begins at `from_f_days`; no new harm
    is expected past `until_f_days`, where that is known.
    """

    id: str
    disorder: str
    starts: Wording
    lower_f: float
    upper_f: float
    from_f_days: float
    sources: tuple[str, ...]
    until_f_days: float | None = None
    from_memory: bool = False

    def standing(self, f_days: float) -> ByHeat:
        """Whether harm is not to be expected yet, is due, or is over.

        >>> clock = InsectClock("a", "codling_moth", Wording("", ""), 50, 88, 250, ())
        >>> clock.standing(249), clock.standing(250)
        ('not_yet', 'due')
        """
        if f_days < self.from_f_days:
            return "not_yet"
        return "due" if self.until_f_days is None or f_days <= self.until_f_days else "over"
