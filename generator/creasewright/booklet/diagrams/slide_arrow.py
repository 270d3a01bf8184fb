"""The straight hollow block arrow: a piece is laid on or slid in. No other arrow is hollow, so folds are never meant."""

from math import hypot

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.page_facet import Chain
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Pen, Shape

WIDE, SHAFT_WIDE, HEAD = 4.2, 1.7, 3.6
"""mm"""
SHORTEST, LONGEST = 9.0, 24.0
"""mm: a shorter way is drawn longer backwards, a longer one only by its middle."""
RIM = 1.1
"""pt"""


def slide_span(start: Spot, end: Spot) -> tuple[Spot, Spot]:
    """From where to where the arrow is drawn."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    way = hypot(dx, dy)
    if way < 1e-6:
        return (start[0], start[1] - SHORTEST), start
    ux, uy = dx / way, dy / way
    if way < SHORTEST:
        return (end[0] - SHORTEST * ux, end[1] - SHORTEST * uy), end
    cut = max(0.0, way - LONGEST) / 2
    return (start[0] + cut * ux, start[1] + cut * uy), (end[0] - cut * ux, end[1] - cut * uy)


def block_corners(start: Spot, end: Spot) -> Chain:
    """The seven corners, the tip last but three."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    way = hypot(dx, dy)
    ux, uy = dx / way, dy / way
    neck = end[0] - HEAD * ux, end[1] - HEAD * uy

    def beside(spot: Spot, by: float) -> Spot:
        return spot[0] - uy * by, spot[1] + ux * by

    half, wide = SHAFT_WIDE / 2, WIDE / 2
    return (
        beside(start, half), beside(neck, half), beside(neck, wide), end,
        beside(neck, -wide), beside(neck, -half), beside(start, -half),
    )  # fmt: skip


def slide_arrow(start: Spot, end: Spot, style: PictureStyle) -> Shape:
    return Shape(polyline(block_corners(start, end), closed=True), Pen("ACC", RIM * style.weight), "WHITE", role="slide arrow")
