"""Values as people read them. Conversions are checked against the definitions of the units (NIST SP 811)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.units import UNITS, feet_to_metres, quantity_text


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (12, "ft", "12 ft (3.7 m)"),
        (8, "in", "8 in (20 cm)"),
        (45, "f", "45 °F (7.2 °C)"),
        (-40, "f", "−40 °F (−40 °C)"),
        (100, "lb", "100 lb (45 kg)"),
        (1000, "hours", "1,000 hours"),
        (1, "hours", "1 hour"),
        (0.85, "share", "85%"),
        (7.5, "zone", "7b"),
        (0.5, "zones", "0.5 zones"),
        (293, "day_of_year", "October 20"),
        (6.5, "ph", "6.5"),
        (58, "portions", "58 chill portions"),
    ],
)
def test_a_value_comes_with_its_unit(value: float, unit: str, text: str) -> None:
    assert quantity_text(value, unit) == text


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (12.5, "ft", "12,5 ft (3,8 m)"),
        (1200, "hours", "1200 horas"),
        (1, "days", "1 día"),
        (60, "day_of_year", "1 de marzo"),
    ],
)
def test_spanish_has_its_own_words_and_its_comma(value: float, unit: str, text: str) -> None:
    assert quantity_text(value, unit, language="es") == text


@given(unit=st.sampled_from(sorted(UNITS)), value=st.floats(0, 13), spanish=st.booleans(), southern=st.booleans())
def test_every_unit_can_be_read_in_both_languages(unit: str, value: float, spanish: bool, southern: bool) -> None:
    text = quantity_text(value, unit, language="es" if spanish else "en", southern=southern)
    assert text
    assert "nan" not in text


def test_a_foot_is_30_48_centimetres() -> None:
    assert feet_to_metres(100) == 30.48
