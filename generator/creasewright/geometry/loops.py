"""Closed loops of edges: area, perimeter, what lies inside, and neighbours on one line made one edge."""

from collections.abc import Sequence
from math import hypot, sin

from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Arc, Edge, Line, Polygon, arc_sweep
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME


def loop_area(edges: Sequence[Edge]) -> float:
    """mm², positive for a loop that runs clockwise as seen. Each arc adds its segment, r²/2 · (sweep - sin sweep)."""
    total = 0.0
    for edge in edges:
        x0, y0, x1, y1 = float(edge.start.x), float(edge.start.y), float(edge.end.x), float(edge.end.y)
        total += (x0 * y1 - x1 * y0) / 2
        if isinstance(edge, Arc):
            radius, _, sweep = arc_sweep(edge)
            total += radius * radius / 2 * (sweep - sin(sweep))
    return total


def perimeter(edges: Sequence[Edge]) -> float:
    """mm."""
    return sum(edge_length(edge) for edge in edges)


def centroid(polygon: Polygon) -> tuple[float, float]:
    """Centre of mass of a polygon with an area."""
    x0, y0 = polygon[0]
    area = sx = sy = 0.0
    for (ax, ay), (bx, by) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        ax, ay, bx, by = ax - x0, ay - y0, bx - x0, by - y0
        part = ax * by - bx * ay
        area += part
        sx += (ax + bx) * part
        sy += (ay + by) * part
    return x0 + sx / (3 * area), y0 + sy / (3 * area)


def holds(polygon: Polygon, x: float, y: float) -> bool:
    """Whether a point is inside (even-odd rule; on the line itself either answer)."""
    inside = False
    ax, ay = polygon[-1]
    for bx, by in polygon:
        if (ay > y) != (by > y) and x < (bx - ax) * (y - ay) / (by - ay) + ax:
            inside = not inside
        ax, ay = bx, by
    return inside


def gap_to(polygon: Polygon, x: float, y: float) -> float:
    """Distance in mm from a point to the polygon's nearest side."""
    best = float("inf")
    ax, ay = polygon[-1]
    for bx, by in polygon:
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        t = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / square)) if square else 0.0
        best = min(best, hypot(ax + t * dx - x, ay + t * dy - y))
        ax, ay = bx, by
    return best


def inner_point(polygon: Polygon) -> tuple[float, float]:
    """A point well inside a simple polygon: its centroid, or else the middle of the widest chord through a few heights."""
    x, y = centroid(polygon)
    if holds(polygon, x, y) and gap_to(polygon, x, y) > 100 * SAME:
        return x, y
    low, high = min(p[1] for p in polygon), max(p[1] for p in polygon)
    best = (-1.0, x, y)
    for k in range(1, 8):
        level = low + (high - low) * (k / 8 + 0.0137)
        cuts = sorted(
            ax + (level - ay) * (bx - ax) / (by - ay)
            for (ax, ay), (bx, by) in zip(polygon, polygon[1:] + polygon[:1], strict=True)
            if (ay > level) != (by > level)
        )
        for left, right in zip(cuts[::2], cuts[1::2], strict=False):
            best = max(best, (right - left, (left + right) / 2, level))
    return best[1], best[2]


def _one_line(a: Line, b: Line) -> bool:
    x, y = float(a.start.x), float(a.start.y)
    ax, ay = float(b.end.x) - x, float(b.end.y) - y
    bx, by = float(a.end.x) - x, float(a.end.y) - y
    size = hypot(ax, ay)
    return size > 0 and abs(ax * by - ay * bx) <= SAME * size and ax * bx + ay * by > 0


def joined(a: Edge, b: Edge) -> Edge | None:
    """Two edges that follow each other as one, where they run along one line or one circle."""
    if isinstance(a, Line) and isinstance(b, Line):
        return Line(a.start, b.end) if _one_line(a, b) else None
    if isinstance(a, Arc) and isinstance(b, Arc) and a.clockwise == b.clockwise and _near(a.centre, b.centre):
        return Arc(a.start, b.end, a.centre, a.clockwise)
    return None


def _near(a: Point, b: Point) -> bool:
    return hypot(float(a.x - b.x), float(a.y - b.y)) <= SAME


def tidied(edges: Sequence[Edge]) -> tuple[Edge, ...]:
    """The loop with its points on a straight run (or on one circle) left out."""
    kept: list[Edge] = []
    for edge in edges:
        one = joined(kept[-1], edge) if kept else None
        if one is not None:
            kept[-1] = one
        else:
            kept.append(edge)
    if len(kept) > 2:
        one = joined(kept[-1], kept[0])
        if one is not None:
            kept = [one, *kept[1:-1]]
    return tuple(kept)
