"""How few pages a template can take, however it is turned and shifted: what the tiler is measured by.

Area   n windows cover no more than n times their area.
Span   a shape in one piece that is w wide and h high touches at least C = w / W columns and R = h / H rows of windows, each rounded
       up; the windows it touches hang together side by side, and so many of them are at least R + C - 1.

Both hold at each turn. Between two turns d apart a width changes by no more than 2 sin(d / 2) times the greatest distance of two
points of the shape (each point moves no farther than that about any other), so that a sweep in small steps misses nothing.
"""

from math import ceil, cos, hypot, pi, radians, sin

from creasewright.booklet.tiling.inner_point import area_and_centroid
from creasewright.booklet.tiling.spots import Spot
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Polygon

STEP = 0.5
"""Degrees between the turns of the sweep."""
TOUCH = 0.01
"""mm; a part that reaches less far into a window is no reason to print it (the frame's own line hides more)."""


def least_pages(polygon: Polygon, window: Window) -> int:
    """At any turn whatever."""
    corners = hull(polygon)
    area = by_area(abs(area_and_centroid(polygon)[0]), window)
    slack = 2 * sin(radians(STEP) / 4) * _diameter(corners)
    best = None
    for k in range(ceil(180 / STEP)):
        width, height = turned_box(corners, k * STEP)
        count = by_span(width - slack, height - slack, window)
        best = count if best is None else min(best, count)
        if best <= area:
            return area
    return max(area, best or 1)


def least_at(corners: Polygon, area: float, turn: float, window: Window) -> int:
    """At one turn (degrees clockwise) of a shape given by its hull and its area."""
    return max(by_area(area, window), by_span(*turned_box(corners, turn), window))


def by_area(area: float, window: Window) -> int:
    """`area` in mm²; of one template, or of all together."""
    return max(1, ceil(area / (window.width * window.height) - 1e-9))


def by_span(width: float, height: float, window: Window) -> int:
    across, down = ((size - 2 * TOUCH) / side for size, side in ((width, window.width), (height, window.height)))
    return max(1, ceil(across)) + max(1, ceil(down)) - 1


def turned_box(corners: Polygon, turn: float) -> Spot:
    """Width and height of the box around the corners turned clockwise by `turn` degrees."""
    c, s = cos(radians(turn)), sin(radians(turn))
    xs, ys = [x * c - y * s for x, y in corners], [x * s + y * c for x, y in corners]
    return max(xs) - min(xs), max(ys) - min(ys)


def hull(polygon: Polygon) -> Polygon:
    """The corners of the convex hull (Andrew's monotone chain, 1979)."""
    points = sorted(set(polygon))
    if len(points) < 3:
        return tuple(points)
    found: list[Spot] = []
    for way in (points, points[::-1]):
        side: list[Spot] = []
        for at in way:
            while len(side) > 1 and _turns(side[-2], side[-1], at) <= 0:
                side.pop()
            side.append(at)
        found += side[:-1]
    return tuple(found)


def _turns(a: Spot, b: Spot, c: Spot) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _diameter(corners: Polygon) -> float:
    """No less than the greatest distance of two corners: the greatest width over 36 turns, grown by what may lie between."""
    widest = max(turned_box(corners, 5.0 * k)[0] for k in range(36))
    return min(widest / cos(pi / 72), hypot(*turned_box(corners, 0.0)))
