"""Do two trees bloom together? By classes of the seven-class scale and, where both are dated alike, by days."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.cultivar import SEASONS, Cultivar, Season


@dataclass(frozen=True, slots=True)
class BloomLimits:
    """How far apart two trees may bloom and still serve each other; `days` None means that no limit is known."""

    classes: float
    days: float | None = None


def gap_in_classes(one: Season | None, other: Season | None) -> int | None:
    """Steps between two bloom classes of one crop; None where either is unknown.

    >>> gap_in_classes("early", "mid"), gap_in_classes("late", "late"), gap_in_classes("late", None)
    (2, 0, None)
    """
    if one is None or other is None:
        return None
    return abs(SEASONS.index(one) - SEASONS.index(other))


def gap_in_days(one: Cultivar, other: Cultivar) -> float | None:
    """Days between two blooms dated against the same reference cultivar, or against each other; else None."""
    dated_one, dated_other = _dated(one), _dated(other)
    for reference, days in dated_one.items():
        if reference in dated_other:
            return abs(days - dated_other[reference])
    return None


def _dated(cultivar: Cultivar) -> dict[str, float]:
    """Days after each cultivar that this one is dated against: itself, at day nought, and its reference."""
    dated: dict[str, float] = {}
    if cultivar.bloom_offset is not None:
        dated[cultivar.bloom_offset.value.reference] = cultivar.bloom_offset.value.days
    return dated | {cultivar.id: 0, cultivar.denomination: 0}


def together(classes: int | None, days: float | None, limits: BloomLimits) -> bool | None:
    """Whether two blooms overlap; days decide where a limit in days is known, since they are finer than classes.

    >>> together(1, None, BloomLimits(classes=1)), together(2, None, BloomLimits(classes=1))
    (True, False)
    >>> together(None, None, BloomLimits(classes=1)) is None
    True
    """
    if days is not None and limits.days is not None:
        return days <= limits.days
    return None if classes is None else classes <= limits.classes
