"""A patch of a paper: one side of it, or the front with a corner turned over to show the back. mm, head-left at (0, 0)."""

from creasewright.booklet.diagrams.boxes import Box, polyline
from creasewright.booklet.diagrams.motifs import motif_group
from creasewright.booklet.diagrams.picture_style import NORMAL, PictureStyle
from creasewright.booklet.diagrams.plan_facets import fill_of
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Motif, Polygon2
from creasewright.booklet.drawing import Item, Pen, Shape
from creasewright.fitting.paper_facts import PaperFacts

PRINTS = ("one-way", "two-way", "all-over")
CORNER = 0.55
"""Side of the turned corner, as a part of the patch's height."""


def paper_patch(paper: PaperFacts, side: str, width: float, height: float, style: PictureStyle = NORMAL) -> tuple[Item, ...]:
    """One side of the paper, the way up it is printed."""
    ring = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return (*_face(paper, side, ring, style), _rim(ring, style))


def turned_patch(paper: PaperFacts, width: float, height: float, style: PictureStyle = NORMAL) -> tuple[Item, ...]:
    """The front, its top right corner turned over so that the back shows."""
    fold = height * CORNER
    front = ((0.0, 0.0), (width - fold, 0.0), (width, fold), (width, height), (0.0, height))
    back = ((width - fold, 0.0), (width, fold), (width - fold, fold))
    return (
        *_face(paper, "front", front, style, Box(width - fold, 0.0, width, fold)),
        *_face(paper, "back", back, style),
        _rim(front, style),
        _rim(back, style),
    )


def _face(paper: PaperFacts, side: str, ring: Polygon2, style: PictureStyle, clear: Box | None = None) -> tuple[Item, ...]:
    fill = Shape(polyline(ring, closed=True), None, fill_of(paper, side == "front"), role="paper")
    kind = paper.front if side == "front" else paper.back
    if kind not in PRINTS:
        return (fill,)
    room = Room(width=1000.0, height=1000.0)
    if clear:
        room.take_box(clear)
    motif = Motif(kind, paper.tone, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), outline_only=side == "back" and not paper.sides_alike)
    printed = motif_group(motif, (ring,), 1.0, room, style)
    return (fill, printed) if printed else (fill,)


def _rim(ring: Polygon2, style: PictureStyle) -> Shape:
    return Shape(polyline(ring, closed=True), Pen("INK", 0.65 * style.weight), role="paper rim")
