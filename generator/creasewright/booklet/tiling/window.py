"""The window of a template page: the part of it that holds the drawing and is kept when tiles are joined. All in mm, y down."""

from msgspec import Struct

LEFT, HEAD, RIGHT, TAIL = 12.0, 24.0, 16.0, 37.0
"""From the paper's edges to the window; right and tail leave room for the strips that neighbours are laid on."""
STRIP = 8.5
"""Width of the strip that the neighbour is laid on."""
UNPRINTED = 7.2
"""Nothing is inked nearer to the paper's edge."""


class PageSize(Struct, frozen=True):
    width: float
    height: float


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
    return Window(LEFT, HEAD, page.width - LEFT - RIGHT, page.height - HEAD - TAIL)
