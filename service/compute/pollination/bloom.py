"""Do two trees bloom together? By their bloom classes and, where both are dated alike, by days.

Charts sort bloom into five classes and pair the same or an adjoining one (sources osu-cherry-chart, wfp-almond). Our
scale adds two classes that lie between, "early to mid" and "mid to late"; they stand half a class from each side.
"""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.cultivar import Cultivar, Season

_PLACE: dict[Season, float] = {
    "very_early": 0,
    "early": 1,
    "early_to_mid": 1.5,
    "mid": 2,
    "mid_to_late": 2.5,
    "late": 3,
    "very_late": 4,
}


@dataclass(frozen=True, slots=True)
class BloomLimits:
    """How far apart two trees may bloom and still serve each other; `days` None means that no limit is known."""

    classes: float
    days: float | None = None


def gap_in_classes(one: Season | None, other: Season | None) -> float | None:
    """Classes from one bloom to the other, in one crop; None where either is unknown.

    >>> gap_in_classes("early", "mid"), gap_in_classes("mid_to_late", "late"), gap_in_classes("late", None)
    (1, 0.5, None)
    """
    if one is None or other is None:
        return None
    return abs(_PLACE[one] - _PLACE[other])


def gap_in_days(one: Cultivar, other: Cultivar) -> float | None:
    """Days between two blooms dated against the same reference cultivar, or against each other; else None."""
    dated_one, dated_other = _dated(one), _dated(other)
    for reference, (start, end) in dated_one.items():
        if reference in dated_other:
            other_start, other_end = dated_other[reference]
            return max(0.0, other_start - end, start - other_end)
    return None


def _dated(cultivar: Cultivar) -> dict[str, tuple[float, float]]:
    """Days after each cultivar that this one is dated against: itself, at day nought, and its reference."""
    dated: dict[str, tuple[float, float]] = {}
    if cultivar.bloom_offset is not None:
        offset = cultivar.bloom_offset.value
        dated[offset.reference] = (offset.days, offset.days if offset.to_days is None else offset.to_days)
    return dated | {cultivar.id: (0, 0), cultivar.denomination: (0, 0)}


def together(classes: float | None, days: float | None, limits: BloomLimits) -> bool | None:
    """Whether two blooms overlap; days decide where a limit in days is known, since they are finer than classes.

    >>> together(1, None, BloomLimits(classes=1)), together(2, None, BloomLimits(classes=1))
    (True, False)
    >>> together(None, None, BloomLimits(classes=1)) is None
    True
    """
    if days is not None and limits.days is not None:
        return days <= limits.days
    return None if classes is None else classes <= limits.classes
