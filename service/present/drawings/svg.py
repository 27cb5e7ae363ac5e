"""Writes a drawing as SVG for screen and printer, without styles, scripts or anything from elsewhere."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from service.present.drawings.shapes import Box, Disc, Drawing, Shape, Stroke, Words


def svg_of(drawing: Drawing) -> str:
    """The drawing as one SVG element with title and description."""
    ids = f"{drawing.name}-title {drawing.name}-description"
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(drawing.width)}pt" height="{_n(drawing.height)}pt" '
        f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" role="img" aria-labelledby="{ids}" '
        f'xml:lang="{drawing.language}" font-family="Helvetica, Arial, sans-serif">'
    )
    told = (
        f'<title id="{drawing.name}-title">{escape(drawing.title)}</title>'
        f'<desc id="{drawing.name}-description">{escape(drawing.description)}</desc>'
    )
    ground = f'<rect width="{_n(drawing.width)}" height="{_n(drawing.height)}" fill="#ffffff"/>'
    return "\n".join([head, told, ground, *map(_written, drawing.shapes), "</svg>\n"])


def _written(shape: Shape) -> str:
    if isinstance(shape, Words):
        return _words(shape)
    if isinstance(shape, Stroke):
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in shape.points)
        return f'<polyline points="{points}" fill="none"{_line(shape.colour, shape.line_width, shape.dash)}/>'
    return _area(shape)


def _area(shape: Box | Disc) -> str:
    if isinstance(shape, Box):
        form = f'rect x="{_n(shape.x)}" y="{_n(shape.y)}" width="{_n(shape.width)}" height="{_n(shape.height)}"'
    else:
        form = f'circle cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.radius)}"'
    look = f' fill="{shape.fill or "none"}"{_line(shape.stroke, shape.line_width, shape.dash)}'
    if not shape.says:
        return f"<{form}{look}/>"
    return f"<{form}{look}><title>{escape(shape.says)}</title></{form.split()[0]}>"


def _line(colour: str | None, width: float, dash: tuple[float, ...]) -> str:
    if colour is None:
        return ""
    broken = f' stroke-dasharray="{" ".join(map(_n, dash))}"' if dash else ""
    return f' stroke="{colour}" stroke-width="{_n(width)}"{broken}'


def _words(shape: Words) -> str:
    x, y = _n(shape.x), _n(shape.y)
    extra = "" if shape.anchor == "start" else f" text-anchor={quoteattr(shape.anchor)}"
    extra += ' font-weight="bold"' if shape.bold else ""
    extra += f' transform="rotate(-90 {x} {y})"' if shape.turned else ""
    return (
        f'<text x="{x}" y="{y}" font-size="{_n(shape.size)}" fill="{shape.colour}"{extra}>{escape(shape.text)}</text>'
    )


def _n(number: float) -> str:
    return f"{round(number, 2):g}"
