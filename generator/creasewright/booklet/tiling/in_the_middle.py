"""What is on one page, moved to the middle of its window: as a whole, and only so far that the check square keeps its place.

By whole millimetres, the cells in which free space is found: a label that had room before has it then.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.placing import Layout, Placed, drawn_lines, place
from creasewright.booklet.tiling.window import Window


def in_the_middle(layout: Layout, window: Window, square: float) -> Layout:
    """A layout of one page; across or down only, or as it was, where only so a place `square` mm wide and high stays free, if it was."""
    left, head = min(one.left for one in layout.placed), min(one.head for one in layout.placed)
    right, tail = max(one.left + one.width for one in layout.placed), max(one.head + one.height for one in layout.placed)
    dx, dy = round((window.width - right + left) / 2 - left), round((window.height - tail + head) / 2 - head)
    needed = _holds(layout.placed, window, square)
    for x, y in ((dx, dy), (dx, 0), (0, dy)):
        moved = tuple(place(one.template, one.turn, one.left + x, one.head + y) for one in layout.placed)
        if not needed or _holds(moved, window, square):
            return replace(layout, placed=moved)
    return layout


def _holds(placed: Sequence[Placed], window: Window, square: float) -> bool:
    space = FreeSpace(0.0, 0.0, window.width, window.height)
    for line in drawn_lines(tuple(placed)).all:
        space.mark_line(line)
    return space.holds_square(square)
