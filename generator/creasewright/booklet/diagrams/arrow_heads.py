"""Arrow heads and shafts of the accent arrows: 3.3 long, 2.7 wide, with a small notch. All in mm on the page."""

from collections.abc import Sequence
from math import hypot

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Pen, Shape

HEAD, WIDE, NOTCH = 3.3, 2.7, 0.75
SHAFT = 1.7
"""pt"""
CASING = 1.1
"""pt on each side of a shaft"""
OPEN_PEN = 0.9
"""pt: rim of an open head"""
DOT = 0.75
"""mm: radius of the dot that a fold starts from"""
SHAFT_DASH = (3.2, 2.4)
"""pt"""


def head_corners(tip: Spot, back: Spot, size: float = 1.0) -> tuple[Spot, Spot, Spot, Spot]:
    """Tip, one barb, the notch, the other barb, for a head that comes from `back`."""
    dx, dy = tip[0] - back[0], tip[1] - back[1]
    length = hypot(dx, dy) or 1.0
    ux, uy = dx / length, dy / length
    bx, by = tip[0] - HEAD * size * ux, tip[1] - HEAD * size * uy
    wx, wy = -uy * WIDE / 2 * size, ux * WIDE / 2 * size
    notch = tip[0] - (HEAD - NOTCH) * size * ux, tip[1] - (HEAD - NOTCH) * size * uy
    return tip, (bx + wx, by + wy), notch, (bx - wx, by - wy)


def arrow_head(tip: Spot, back: Spot, solid: bool, style: PictureStyle, size: float = 1.0) -> Shape:
    corners = polyline(head_corners(tip, back, size), closed=True)
    pen = Pen("ACC", OPEN_PEN * style.weight)
    return Shape(corners, pen, "ACC" if solid else "WHITE", role="arrow head")


def casing(spots: Sequence[Spot], ground: str, style: PictureStyle) -> Shape:
    """The quiet band under a shaft, in the tone of the ground."""
    return Shape(polyline(spots), Pen(ground, (SHAFT + 2 * CASING) * style.weight, cap="butt"), role="arrow casing")


def head_casing(tip: Spot, back: Spot, ground: str, style: PictureStyle, size: float = 1.0) -> Shape:
    corners = polyline(head_corners(tip, back, size), closed=True)
    return Shape(corners, Pen(ground, 2 * CASING * style.weight), ground, role="arrow casing")


def shaft(spots: Sequence[Spot], style: PictureStyle, dashed: bool = False) -> Shape:
    dash = tuple(part * style.weight for part in SHAFT_DASH) if dashed else ()
    return Shape(polyline(spots), Pen("ACC", SHAFT * style.weight, dash, "butt" if dashed else "round"), role="arrow shaft")


def trimmed(spots: Sequence[Spot], length: float) -> list[Spot]:
    """The chain without its last `length` mm."""
    left = length
    chain = list(spots)
    while len(chain) > 1:
        a, b = chain[-2], chain[-1]
        step = hypot(b[0] - a[0], b[1] - a[1])
        if step > left:
            t = 1 - left / step
            chain[-1] = a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])
            return chain
        left -= step
        chain.pop()
    return chain
