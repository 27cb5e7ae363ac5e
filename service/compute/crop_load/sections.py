"""Sizes of wood and crown from what a tape measures."""

from __future__ import annotations

import math

INCH_CM = 2.54
FOOT_M = 0.3048


def diameter_of_girth(girth_in: float) -> float:
    """The diameter of a round trunk in the unit of its girth.

    >>> round(diameter_of_girth(6.283), 2)
    2.0
    """
    return girth_in / math.pi


def section_cm2(diameter_in: float) -> float:
    """The cross-section of a round stem in square centimetres.

    A trunk of 2 in has 20.3 cm² in the published table (UMASS_CROPLOAD), one of 0.75 in has 2.9 cm²:

    >>> round(section_cm2(2), 1), round(section_cm2(0.75), 1)
    (20.3, 2.9)
    """
    return math.pi * (diameter_in * INCH_CM / 2) ** 2


def diameter_of_section(cm2: float) -> float:
    """The diameter in inches of a stem of this cross-section.

    >>> round(diameter_of_section(20.268), 2)
    2.0
    """
    return 2 * math.sqrt(cm2 / math.pi) / INCH_CM


def crown_surface_m2(crown_height_ft: float, spread_ft: float) -> float:
    """The side of a cone as high and as wide as the crown, in square metres.

    A crown of 8 ft by 8 ft; how the trial (COLLINS_GEORGE_1997) measured its crowns was not seen:

    >>> round(crown_surface_m2(8, 8), 1)
    10.4
    """
    radius, height = spread_ft * FOOT_M / 2, crown_height_ft * FOOT_M
    return math.pi * radius * math.hypot(radius, height)
