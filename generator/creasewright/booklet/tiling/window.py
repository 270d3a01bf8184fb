"""The window of a template page: the part of it that holds the drawing and is kept when tiles are joined. All in mm, y down."""

from msgspec import Struct

from creasewright.units.printer import USUAL_MARGINS, USUAL_WHITE, Margins

LEFT, HEAD, RIGHT, TAIL = 12.0, 24.0, 16.0, 37.0
"""From the paper's edges to the window on a usual printer; right and tail leave room for the strips that neighbours are laid on."""
STRIP = 8.5
"""Width of the strip that the neighbour is laid on."""
LEAST = (120.0, 100.0)
"""Width and height below which a page holds no head, foot, check square and drawing."""


class PageSize(Struct, frozen=True):
    width: float
    height: float
    white: Margins = USUAL_MARGINS
    """Nothing is inked in these strips along the left, head, right and tail edges."""


class Window(Struct, frozen=True):
    """On its page: head-left corner and size."""

    left: float
    head: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def tail(self) -> float:
        return self.head + self.height


def window_of(page: PageSize) -> Window:
    """All that the printer leaves of the page, but for the head, the foot and the strips."""
    left, head, right, tail = (edge + (white - USUAL_WHITE) for edge, white in zip((LEFT, HEAD, RIGHT, TAIL), page.white, strict=True))
    return Window(left, head, page.width - left - right, page.height - head - tail)
