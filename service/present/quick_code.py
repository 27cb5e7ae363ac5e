"""An address as a square code that the camera of a phone reads (ISO/IEC 18004), as SVG or as a grid of dark fields."""

from __future__ import annotations

from io import BytesIO

import segno

QUIET_FIELDS = 4  # the border that the standard asks for


def code_grid(address: str) -> tuple[tuple[bool, ...], ...]:
    """The fields of the code row by row, true where dark, without the border.

    >>> len(code_grid("http://a.example/h/0123456789abcdefghijkl")) in range(21, 41, 4)
    True
    """
    return tuple(tuple(bool(field) for field in row) for row in _code(address).matrix)


def code_svg(address: str, *, title: str) -> bytes:
    """The code as a drawing without a size of its own, dark on white whatever stands around it."""
    drawn = BytesIO()
    _code(address).save(
        drawn, kind="svg", omitsize=True, border=QUIET_FIELDS, dark="#000", light="#fff", title=title,
        svgclass=None, lineclass=None,
    )  # fmt: skip
    return drawn.getvalue()


def _code(address: str) -> segno.QRCode:
    return segno.make_qr(address, error="m")
