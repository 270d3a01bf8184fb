"""The straight hollow block arrow: a piece is laid on or slid in. No other arrow is hollow, so folds are never meant."""

from collections.abc import Sequence
from math import hypot

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.visible_lines import crossings
from creasewright.booklet.drawing import Pen, Shape

WIDE, SHAFT_WIDE, HEAD = 4.2, 1.7, 3.6
"""mm"""
SHORTEST, ON_PIECE = 9.0, 9.0
"""mm: a shorter way is drawn longer backwards; of the way over the piece itself only so much is drawn."""
RIM = 1.1
"""pt"""


def slide_span(start: Spot, end: Spot, leaves: float) -> tuple[Spot, Spot]:
    """From where to where the arrow is drawn; `leaves` (0 to 1) is where on its way it comes out from over the piece. Its tip is where the
    piece goes, however far that is."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    way = hypot(dx, dy)
    if way < 1e-6:
        return (start[0], start[1] - SHORTEST), start
    back = max((1 - leaves) * way + min(leaves * way, ON_PIECE), SHORTEST)
    return (end[0] - back * dx / way, end[1] - back * dy / way), end


def leaving(start: Spot, end: Spot, facets: Sequence[PageFacet]) -> float:
    """Where on the straight way the rim of what moves is crossed last; half way where it is not."""
    return max((at for facet in facets if facet.source.moves for at in crossings(start, end, facet.polygon)), default=0.5)


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
