"""The heights of the wires for a tree on wires."""

from __future__ import annotations

_INCHES_A_FOOT = 12


def wire_heights_in(first_in: float, gap_in: float, *, most: int, under_ft: float | None = None) -> tuple[float, ...]:
    """The wires from the lowest up, at most so many and none above the wanted height; the lowest always stands.

    Three tiers 18 in apart from 18 in up, and the same under 4 ft:

    >>> wire_heights_in(18, 18, most=3), wire_heights_in(18, 18, most=3, under_ft=4)
    ((18, 36, 54), (18, 36))
    """
    heights = tuple(first_in + gap_in * place for place in range(most))
    if under_ft is None:
        return heights
    return heights[:1] + tuple(height for height in heights[1:] if height <= under_ft * _INCHES_A_FOOT)
