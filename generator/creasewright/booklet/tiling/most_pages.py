"""What no printer should be sent: a template over hundreds of pages, or pages that hold next to nothing."""

from collections.abc import Iterable
from math import ceil

from creasewright.booklet.tiling.grid import printed_cells
from creasewright.booklet.tiling.placing import Placed, place
from creasewright.booklet.tiling.spots import moved_polygon
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import LEAST, PageSize, Window, window_of
from creasewright.problems import NOWHERE, Problem, ProblemsFound

MOST = 200
"""Pages of one template."""
ROUNDING = 0.01
"""mm"""


def refuse_too_many(templates: Iterable[Template], page: PageSize) -> None:
    """Raises ProblemsFound for templates that would take more than 200 pages."""
    window = window_of(page)
    problems = []
    for template in templates:
        pages = min(_pages(place(template, turn, 0.0, 0.0), window) for turn in (0, 90))
        if pages > MOST:
            what = f"the template of {template.name} would take {pages} pages, and {MOST} is the most"
            problems.append(Problem(NOWHERE, what, "make the piece smaller, or print on larger paper"))
    if problems:
        raise ProblemsFound(problems)


def _pages(placed: Placed, window: Window) -> int:
    """Those that hold a part of it, its head-left corner in the first one's. Looked at one by one only where its box is large."""
    box = ceil((placed.width - ROUNDING) / window.width) * ceil((placed.height - ROUNDING) / window.height)
    return box if box <= MOST else len(printed_cells(moved_polygon(placed.to_grid, placed.template.polygon), window))


def no_room(page: PageSize) -> str:
    """What is wrong with margins that leave no page; empty where they leave enough."""
    window = window_of(page)
    if window.width >= LEAST[0] and window.height >= LEAST[1]:
        return ""
    size = f"{max(0.0, window.width):.0f} × {max(0.0, window.height):.0f} mm"
    return f"these margins leave {size} of a page for a template, and {LEAST[0]:.0f} × {LEAST[1]:.0f} mm is the least"
