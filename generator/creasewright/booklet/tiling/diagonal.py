"""The diagonal of a template that is joined from pages: two far corners, each in a ring, and how far they are apart.

A width alone does not show that pages were joined askew; the distance of two far corners does. mm of the page, y down.
"""

from math import pi

from creasewright.booklet.drawing import Item, Pen, Shape
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.long_measure import LongMeasure, cell_at, far_points
from creasewright.booklet.tiling.panel_labels import text_block
from creasewright.booklet.tiling.placing import Cell, Layout
from creasewright.booklet.tiling.spots import Spot, moved, spot
from creasewright.booklet.tiling.template_form import arc_commands
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Window

RING = 2.0
PEN = Pen("INK2", 0.5, cap="butt")
REACH = 45.0
"""mm that the words may stand from their ring."""
CLEAR = 1.2


def diagonal_of(layout: Layout) -> LongMeasure | None:
    """Between the two farthest corners found of a template over several pages; None where it is on one."""
    if len(layout.printed) < 2:
        return None
    large = layout.placed[0]
    return far_points([moved(large.to_grid, spot(edge.start)) for edge in large.template.outline.edges])


def diagonal_text(diagonal: LongMeasure, layout: Layout, window: Window, words: TileWords) -> str:
    ends = [layout.names[cell_at(place, layout, window)] for place in (diagonal.start, diagonal.end)]
    return words.diagonal.format(first=ends[0], last=ends[1], measure=words.measure(diagonal.length))


def diagonal_items(
    diagonal: LongMeasure, layout: Layout, cell: Cell, shift: Spot, space: FreeSpace, window: Window, words: TileWords, ruler: TextRuler
) -> tuple[list[Item], bool]:
    """The rings on this page with their words beside them, and whether words are left for the foot."""
    text = diagonal_text(diagonal, layout, window, words)
    items: list[Item] = []
    unsaid = False
    for place in (diagonal.start, diagonal.end):
        if cell_at(place, layout, window) != cell:
            continue
        x, y = place[0] + shift[0], place[1] + shift[1]
        items.append(Shape((("M", x + RING, y), *arc_commands((x, y), RING, 0.0, 2 * pi), ("Z",)), PEN, role="diagonal ring"))
        space.mark_box((x - RING, y - RING, x + RING, y + RING))
        block = text_block(text, "Regular", 9.0, ruler)
        at = space.nearest_free((x, y), block.width + 2 * CLEAR, block.height + 2 * CLEAR, REACH)
        if at is None:
            unsaid = True
            continue
        space.mark_box((at[0] - block.width / 2, at[1] - block.height / 2, at[0] + block.width / 2, at[1] + block.height / 2))
        items += block.draw(*at)
    return items, unsaid
