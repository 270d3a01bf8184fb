"""On which side of one of its edges an outline lies, whatever its shape."""

from math import hypot

from creasewright.geometry.outline import Polygon

NEAR = 1e-3
"""mm off the line at which an edge still lies on it."""


def lies_beyond(polygon: Polygon, start: tuple[float, float], end: tuple[float, float]) -> bool:
    """Whether the outline lies where (end - start) x (p - start) is positive, of the line along one of its edges.

    The edge on the line tells it, by the way round: a middle or a sum of corners is wrong for outlines that reach round behind
    the line. Without an edge on the line (a curve laid flat in chords) the corners decide.
    """
    (ax, ay), (bx, by) = start, end
    dx, dy = bx - ax, by - ay
    size = hypot(dx, dy)
    shared = 0.0
    for (px, py), (qx, qy) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if abs(dx * (py - ay) - dy * (px - ax)) > NEAR * size or abs(dx * (qy - ay) - dy * (qx - ax)) > NEAR * size:
            continue
        along = sorted(((px - ax) * dx + (py - ay) * dy, (qx - ax) * dx + (qy - ay) * dy))
        common = min(along[1], size * size) - max(along[0], 0.0)
        if common > 0:
            shared += common if (qx - px) * dx + (qy - py) * dy > 0 else -common
    if shared == 0.0:
        return sum(dx * (y - ay) - dy * (x - ax) for x, y in polygon) > 0
    twice = sum(px * qy - qx * py for (px, py), (qx, qy) in zip(polygon, (*polygon[1:], polygon[0]), strict=True))
    return (shared > 0) == (twice > 0)
