"""The window of a template page: the part of it that holds the drawing and is kept when tiles are joined. All in mm, y down.

Overlap   the neighbour is cut along its line and laid on a grey strip outside this window
Butt      both are cut along their lines and taped edge to edge; there is no strip, and the window is larger
"""

from msgspec import Struct

from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.settings import BUTT, OVERLAP
from creasewright.units.printer import USUAL_MARGINS, Margins

CROSS_OUT = 4.5
"""How far the corner crosses reach out of the window."""
HEAD, FOOT = 16.8, 21.3
"""Above the window for the page's name and facts; below it, without the strip, for how to join and the map."""
STRIP = 8.5
"""The usual width of the strip that a neighbour is laid on."""
BEYOND_CROSS = 0.3
LEAST = (120.0, 100.0)
"""Width and height below which a page holds no head, foot, check square and drawing."""


class PageSize(Struct, frozen=True):
    width: float
    height: float
    white: Margins = USUAL_MARGINS
    """Nothing is inked in these strips along the left, head, right and tail edges."""


class Joining(Struct, frozen=True):
    """How tiles are joined, as the maker chose."""

    way: str = OVERLAP
    amount: float = STRIP
    """Width of the overlap, mm; nothing in butt joins."""

    @property
    def strip(self) -> float:
        return 0.0 if self.way == BUTT else self.amount


class Window(Struct, frozen=True):
    """On its page: head-left corner and size."""

    left: float
    head: float
    width: float
    height: float
    strip: float = STRIP
    """Width of the strips that neighbours are laid on; 0: tiles are butted."""

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def tail(self) -> float:
        return self.head + self.height

    @property
    def foot(self) -> float:
        """What lies between the window and the words of the foot."""
        return max(self.strip, CROSS_OUT)


USUAL_JOINING = Joining()


def window_of(page: PageSize, joining: Joining = USUAL_JOINING) -> Window:
    """All that the printer leaves of the page, but for the head, the foot and the strips. Raises ProblemsFound where that is too little."""
    fault = no_room(page, joining)
    if fault:
        hint = "take a narrower `overlap`, or `joining: butt`; or measure the margins of your printer again"
        raise ProblemsFound([Problem(NOWHERE, fault, hint)])
    return _window(page, joining)


def no_room(page: PageSize, joining: Joining = USUAL_JOINING) -> str:
    """What is wrong with margins and strips that leave no page; empty where they leave enough."""
    window = _window(page, joining)
    if window.width >= LEAST[0] and window.height >= LEAST[1]:
        return ""
    size = f"{max(0.0, window.width):.0f} × {max(0.0, window.height):.0f} mm"
    return f"these margins leave {size} of a page for a template, and {LEAST[0]:.0f} × {LEAST[1]:.0f} mm is the least"


def _window(page: PageSize, joining: Joining) -> Window:
    (left, head, right, tail), beside = page.white, max(joining.strip, CROSS_OUT)
    x, y = left + BEYOND_CROSS + CROSS_OUT, head + HEAD
    width = page.width - x - right - BEYOND_CROSS - beside
    return Window(x, y, width, page.height - y - tail - FOOT - beside, joining.strip)
