"""Where a cut may fall: sums of sizes, found once for each axis.

Normal positions (Herz 1972; Christofides & Whitlock 1977): in some best pattern every piece is pushed to the head and to the left,
so that a cut falls only where widths (or heights) of pieces add up to.
"""

from collections.abc import Iterable


def sums_up_to(length: int, sizes: Iterable[tuple[int, int]]) -> list[int]:
    """Every sum of sizes from 1 to `length`; a pair is a size and how often it may be taken."""
    mask = (1 << (length + 1)) - 1
    reached = 1
    for size, often in sizes:
        left, step = min(often, length // size), 1
        while left > 0:
            take = min(step, left)
            reached |= (reached << (size * take)) & mask
            left, step = left - take, step * 2
    return [place for place in range(1, length + 1) if reached >> place & 1]
