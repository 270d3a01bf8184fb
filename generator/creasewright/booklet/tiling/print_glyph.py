"""The sign of a print's direction on a template: its motif in outline and an arrow. mm, y down."""

from math import cos, radians, sin

from creasewright.booklet.drawing import Command, Item, Pen, Shape
from creasewright.booklet.tiling.spots import Spot

LONG, WIDE = 20.5, 5.0
"""Along the direction, and across."""
MOTIF_PEN, SHAFT_PEN = Pen("INK2", 0.6), Pen("INK2", 1.1, cap="butt")


def print_glyph(kind: str, direction: float, centre: Spot) -> list[Item]:
    """Drawn along the direction (degrees clockwise from up the page), its middle at `centre`."""
    turn = radians(direction - 90)

    def at(x: float, y: float) -> Spot:
        x -= LONG / 2
        return centre[0] + x * cos(turn) - y * sin(turn), centre[1] + x * sin(turn) + y * cos(turn)

    def leaf(x0: float, y0: float, x1: float, y1: float, bulge: float) -> Shape:
        nx, ny = -(y1 - y0) * bulge, (x1 - x0) * bulge
        a, b = (x0 + (x1 - x0) * 0.35, y0 + (y1 - y0) * 0.35), (x0 + (x1 - x0) * 0.7, y0 + (y1 - y0) * 0.7)
        out: Command = ("C", *at(a[0] + nx, a[1] + ny), *at(b[0] + nx, b[1] + ny), *at(x1, y1))
        back: Command = ("C", *at(b[0] - nx, b[1] - ny), *at(a[0] - nx, a[1] - ny), *at(x0, y0))
        return Shape((("M", *at(x0, y0)), out, back), MOTIF_PEN, role="print motif")

    def line(x0: float, y0: float, x1: float, y1: float, pen: Pen) -> Shape:
        return Shape((("M", *at(x0, y0)), ("L", *at(x1, y1))), pen, role="print motif")

    def head(tip: float, back: float) -> Shape:
        notch = back + (tip - back) * 0.25
        corners = ((tip, 0.0), (back, 1.3), (notch, 0.0), (back, -1.3))
        return Shape(
            (("M", *at(*corners[0])), *(("L", *at(*corner)) for corner in corners[1:]), ("Z",)), fill="INK2", role="print arrow"
        )

    if kind == "all-over":
        return [leaf(x, y, x + 2.2, y - 0.8, 0.5) for x, y in ((5.0, -0.9), (8.6, 1.6), (11.4, -0.9), (14.6, 1.6))]
    if kind == "grain":
        return [line(2.4, 0, 18.0, 0, MOTIF_PEN), head(20.4, 17.4), head(0.0, 3.0)]
    items: list[Item] = []
    if kind == "two-way":
        items += [leaf(3.4, 0, 0.2, 0, 0.45), line(3.4, 0, 5.8, 0, MOTIF_PEN), leaf(5.8, 0, 9.0, 0, 0.45)]
        return [*items, line(13.0, 0, 17.8, 0, SHAFT_PEN), head(20.4, 17.4), head(10.6, 13.6)]
    items += [
        line(0, 0, 5.2, 0, MOTIF_PEN),
        leaf(5.2, 0, 9.0, 0, 0.42),
        leaf(4.4, 0, 2.2, 2.2, 0.4),
        leaf(4.4, 0, 2.2, -2.2, 0.4),
    ]
    return [*items, line(10.2, 0, 18.0, 0, SHAFT_PEN), head(20.4, 17.2)]
