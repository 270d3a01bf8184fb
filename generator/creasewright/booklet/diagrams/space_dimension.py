"""Measures in space: the dimension line stands off along a model axis; its value is upright in a gap of the line."""

from math import hypot

from creasewright.booklet.diagrams.dimension_line import OFF_EDGE, DimensionLine, dimension_items, place_value, take_dimension
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Dimension3, Spot
from creasewright.booklet.diagrams.space_motifs import moved
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at
from creasewright.booklet.drawing import Item
from creasewright.booklet.text_ruler import TextRuler

OFFSET = 7.0
"""mm on the page from the edge to its dimension line."""


def drawn_dimensions(
    dimensions: tuple[Dimension3, ...], view: SpaceView, to_page: Affine, room: Room, ruler: TextRuler, style: PictureStyle
) -> tuple[Item, ...]:
    """All of them, each value where `room` is clear; the room is taken."""
    items: list[Item] = []
    drawn: set[tuple[float, ...]] = set()
    lines = [_page_line(one, view, to_page) for one in dimensions]
    for line in lines:
        place = place_value(line, room, ruler, style)
        take_dimension(line, place, room, ruler, style)
        items += dimension_items(line, place, ruler, style, drawn)
    return tuple(items)


def _page_line(dimension: Dimension3, view: SpaceView, to_page: Affine) -> DimensionLine:
    start, end = (moved(to_page, seen_at(view, spot)) for spot in (dimension.start, dimension.end))
    x, y = seen_at(view, dimension.offset_axis)
    size = hypot(x, y) or 1.0
    off = x / size, y / size
    line = _beside(start, off, OFFSET), _beside(end, off, OFFSET)
    return DimensionLine(_beside(start, off, OFF_EDGE), _beside(end, off, OFF_EDGE), line, off, dimension.text)


def _beside(spot: Spot, way: Spot, by: float) -> Spot:
    return spot[0] + way[0] * by, spot[1] + way[1] * by
