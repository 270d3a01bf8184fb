"""Small templates in the empty corners of large ones' pages, where that saves whole pages.

A shared page is given up when every template on it finds room on pages that are printed anyway: clear of all lines there, away from
the joins, and so that the check square keeps its place. Nothing is moved for less than a page.
"""

from msgspec.structs import replace

from creasewright.booklet.tiling.check_square import ROOM
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.placing import Cell, Layout, Placed, drawn_lines, place, placed_on, turned_size
from creasewright.booklet.tiling.spots import moved_polygon
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.plane_transform import shift

CLEAR = 6.0
"""mm from the lines of other templates."""
FOR_WORDS = 25.0
"""mm beside the check square for labels and a long measure."""
FROM_JOINS = 10.0
"""mm from the window's edges, where discs, combs and names stand."""

Rooms = dict[tuple[int, Cell], FreeSpace]
"""What is free on the pages looked at so far: of the layout by its number, and the cell."""


def host_small(large: list[Layout], shared: list[Layout], window: Window) -> list[Layout]:
    """All layouts, with as many shared ones given up as can be: first those that hold least."""
    kept = list(shared)
    rooms: Rooms = {}
    for layout in sorted(shared, key=lambda one: sum(each.width * each.height for each in one.placed)):
        tried, then = list(large), dict(rooms)
        if all(_hosted(tried, one.template, window, then) for one in layout.placed):
            large, rooms = tried, then
            kept.remove(layout)
    return [*large, *kept]


def _hosted(layouts: list[Layout], template: Template, window: Window, rooms: Rooms) -> bool:
    """Puts the template on the first page with room; changes `layouts` and `rooms`."""
    for k, layout in enumerate(layouts):
        for cell in layout.printed:
            if (k, cell) not in rooms:
                rooms[k, cell] = _space(placed_on(layout, cell, window), cell, window, whole=True)
            found = _room_for(template, layout, cell, window, rooms[k, cell])
            if found is not None:
                layouts[k] = replace(layout, placed=(*layout.placed, found))
                del rooms[k, cell]
                return True
    return False


def _room_for(template: Template, layout: Layout, cell: Cell, window: Window, room: FreeSpace) -> Placed | None:
    here = placed_on(layout, cell, window)
    x, y = cell[1] * window.width, cell[0] * window.height
    for turn in (0.0, 90.0):
        width, height = turned_size(template, turn)
        if max(width - window.width, height - window.height) > -2 * FROM_JOINS:
            continue
        at = room.first_free(width + 2 * CLEAR, height + 2 * CLEAR)
        if at is not None:
            found = place(template, turn, x + at[0] + CLEAR, y + at[1] + CLEAR)
            if _space((*here, found), cell, window, whole=False).holds_square(ROOM + FOR_WORDS):
                return found
    return None


def _space(placed: tuple[Placed, ...], cell: Cell, window: Window, whole: bool) -> FreeSpace:
    """What is free on one page away from the joins, in mm from its window's corner: of whole pieces, or of lines alone."""
    x, y = cell[1] * window.width, cell[0] * window.height
    inset = FROM_JOINS - (CLEAR if whole else 0.0)
    space = FreeSpace(inset, inset, window.width - inset, window.height - inset)
    for x0, y0, x1, y1 in drawn_lines(placed).all:
        space.mark_line((x0 - x, y0 - y, x1 - x, y1 - y))
    if whole:
        for one in placed:
            space.mark_polygon(moved_polygon(one.to_grid.then(shift(-x, -y)), one.template.polygon))
    return space
