"""An outline without its teeth: the steps of layers that end a little apart, straightened; what is round or deep stays as it is."""

from itertools import pairwise
from math import hypot

from creasewright.geometry.outline import Polygon
from creasewright.joining.girth import hull


def without_teeth(ring: Polygon, least: float) -> Polygon:
    """The ring with every notch and every bump that is less than `least` mm deep cut straight across.

    A notch is a stretch between two corners of the convex outline; within a deeper one the same is asked of its own convex outline,
    and so on, so that nothing but what is shallow moves.
    """
    corners = set(hull(list(ring)))
    first = next(index for index, spot in enumerate(ring) if spot in corners)
    return _plain((*ring[first:], *ring[: first + 1]), corners, least)[:-1]


def _plain(chain: Polygon, corners: set[tuple[float, float]], least: float) -> Polygon:
    """The chain from one corner to the next, each stretch between two of them made plain."""
    at = [index for index, spot in enumerate(chain) if spot in corners]
    kept: list[tuple[float, float]] = [chain[0]]
    for low, high in pairwise(at):
        stretch = chain[low : high + 1]
        if len(stretch) > 2 and _depth(stretch) >= least:
            kept += _plain(stretch, set(hull(list(stretch))), least)[1:]
        else:
            kept.append(stretch[-1])
    return tuple(kept)


def _depth(stretch: Polygon) -> float:
    """How far the stretch stands off the straight line between its ends."""
    (ax, ay), (bx, by) = stretch[0], stretch[-1]
    dx, dy = bx - ax, by - ay
    size = hypot(dx, dy)
    if not size:
        return max(hypot(x - ax, y - ay) for x, y in stretch)
    return max(abs(dx * (y - ay) - dy * (x - ax)) for x, y in stretch) / size
