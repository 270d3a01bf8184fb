"""The window of a template page: the part of it that holds the drawing and is kept when tiles are joined. All in mm, y down.

Overlap   the neighbour is cut along its line and laid on a grey strip outside this window
Butt      both are cut along their lines and taped edge to edge; there is no strip, and the window is larger
"""

from msgspec import Struct

from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.settings import BUTT, OVERLAP

UNPRINTED = 7.2
"""What a home printer may leave bare along each edge of the paper (common practice, no source)."""
CROSS_OUT = 4.5
"""How far the corner crosses reach out of the window."""
HEAD, FOOT = 24.0, 28.5
"""Above the window for the page's name and facts; below it, without the strip, for how to join and the map."""
STRIP = 8.5
"""The usual width of the strip that a neighbour is laid on."""
BEYOND_CROSS = 0.3
LEAST = 60.0
"""A window holds the check square with its clearance, or no page can be checked."""


class PageSize(Struct, frozen=True):
    width: float
    height: float


class Joining(Struct, frozen=True):
    """How tiles are joined, as the maker chose."""

    way: str = OVERLAP
    amount: float = STRIP
    """Width of the overlap, mm; nothing in butt joins."""

    @property
    def strip(self) -> float:
        return 0.0 if self.way == BUTT else self.amount


class Margins(Struct, frozen=True):
    """What the printer leaves bare, mm."""

    left: float = UNPRINTED
    head: float = UNPRINTED
    right: float = UNPRINTED
    tail: float = UNPRINTED


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


USUAL_JOINING, USUAL_MARGINS = Joining(), Margins()


def window_of(page: PageSize, joining: Joining = USUAL_JOINING, margins: Margins = USUAL_MARGINS) -> Window:
    """Raises ProblemsFound where strips and bare margins leave no room for the check square."""
    beside = max(joining.strip, CROSS_OUT)
    left = max(margins.left, UNPRINTED) + BEYOND_CROSS + CROSS_OUT
    head = HEAD + max(0.0, margins.head - UNPRINTED)
    right = max(margins.right, UNPRINTED) + BEYOND_CROSS + beside
    tail = FOOT + max(0.0, margins.tail - UNPRINTED) + beside
    width, height = page.width - left - right, page.height - head - tail
    if min(width, height) < LEAST:
        what = f"margins and strips leave {max(width, 0):.0f} by {max(height, 0):.0f} mm of the page for templates"
        hint = f"leave {LEAST:.0f} mm each way: a narrower `overlap`, `joining: butt`, or smaller margins in the printer's profile"
        raise ProblemsFound([Problem(NOWHERE, what, hint)])
    return Window(left, head, width, height, joining.strip)
