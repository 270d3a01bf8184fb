"""The small ink arrow that says which way a print runs on a piece. mm, in a box of its own, head-left at (0, 0)."""

from math import cos, radians, sin

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Item, Pen, Shape

SIDE = 4.2
"""Of its box."""
HEAD_LONG, HEAD_WIDE = 2.0, 2.4


def print_arrow(direction: int, both_ways: bool = False) -> tuple[Item, ...]:
    """Points `direction` degrees clockwise from up; a head at either end where the print runs both ways."""
    turn = radians(direction)

    def at(x: float, y: float) -> Spot:
        return SIDE / 2 + x * cos(turn) - y * sin(turn), SIDE / 2 + x * sin(turn) + y * cos(turn)

    def head(sign: int) -> Shape:
        tip, foot = sign * -SIDE / 2, sign * (-SIDE / 2 + HEAD_LONG)
        corners = (at(0, tip), at(HEAD_WIDE / 2, foot), at(-HEAD_WIDE / 2, foot))
        return Shape(polyline(corners, closed=True), None, "INK", role="print arrow")

    ends = (at(0, -SIDE / 2 + 1.0), at(0, SIDE / 2 - (1.0 if both_ways else 0.0)))
    shaft = Shape(polyline(ends), Pen("INK", 0.9, cap="butt"), role="print arrow")
    return (shaft, head(1), head(-1)) if both_ways else (shaft, head(1))
