"""Where two edges meet.

Rational lines meet in rational points. A meeting within the tolerance of an end is that end itself, so that what the
design makes meet in one point stays one point.
"""

from math import atan2, hypot, sqrt

from creasewright.geometry.edges import in_sweep
from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import cross, minus, moved, one_place

PARALLEL = 1e-12
"""Sine of the angle below which two lines count as parallel."""
TOUCHING = 1e-3
"""mm from a shared end, within which curves that run smoothly into each other do not meet again."""


def lines_cross(a: Line, b: Line) -> Point | None:
    """The one point of two endless lines; None where they are parallel."""
    r, s = minus(a.end, a.start), minus(b.end, b.start)
    size = cross(r, s)
    if abs(float(size)) <= PARALLEL * hypot(*map(float, r)) * hypot(*map(float, s)):
        return None
    return _settled(a, b, moved(a.start, r, cross(minus(b.start, a.start), s) / size))


def _settled(a: Line, b: Line, p: Point) -> Point:
    """An upright or level line keeps its own exact x or y."""
    x: Number = p.x
    y: Number = p.y
    for line in (a, b):
        if line.start.x == line.end.x:
            x = line.start.x
        if line.start.y == line.end.y:
            y = line.start.y
    return Point(x, y)


def meetings(a: Edge, b: Edge) -> list[Point]:
    """Every point the edges share; for edges that lie on each other, the ends of the shared run."""
    if isinstance(a, Line) and isinstance(b, Line):
        return _line_line(a, b)
    shared = [p for p in (a.start, a.end) if one_place(p, b.start) or one_place(p, b.end)]
    if isinstance(a, Line):
        found = _line_arc(a, b) if isinstance(b, Arc) else []
    else:
        found = _line_arc(b, a) if isinstance(b, Line) else _arc_arc(a, b)
    return shared + [p for p in found if not any(_close(p, end) for end in shared)]


def _close(a: Point, b: Point) -> bool:
    """Where edges touch in an end that they share, rounding may give that end again, or two places beside it."""
    return hypot(float(a.x - b.x), float(a.y - b.y)) <= TOUCHING


def _line_line(a: Line, b: Line) -> list[Point]:
    ax, ay, bx, by = float(a.start.x), float(a.start.y), float(b.start.x), float(b.start.y)
    rx, ry = float(a.end.x) - ax, float(a.end.y) - ay
    sx, sy = float(b.end.x) - bx, float(b.end.y) - by
    a_size, b_size = hypot(rx, ry), hypot(sx, sy)
    if a_size <= SAME or b_size <= SAME:
        return []
    size = rx * sy - ry * sx
    if abs(size) <= PARALLEL * a_size * b_size:
        if abs((bx - ax) * ry - (by - ay) * rx) > SAME * a_size:
            return []
        ends = [p for p in (b.start, b.end) if _along(a, p)] + [p for p in (a.start, a.end) if _along(b, p)]
        return ends
    t = ((bx - ax) * sy - (by - ay) * sx) / size
    u = ((bx - ax) * ry - (by - ay) * rx) / size
    if not (-SAME <= t * a_size <= a_size + SAME and -SAME <= u * b_size <= b_size + SAME):
        return []
    for way, total, line in ((t * a_size, a_size, a), (u * b_size, b_size, b)):
        if way <= SAME:
            return [line.start]
        if way >= total - SAME:
            return [line.end]
    met = lines_cross(a, b)
    return [] if met is None else [met]


def _along(line: Line, p: Point) -> bool:
    """Whether a point of the endless line is between its ends."""
    x, y = float(line.start.x), float(line.start.y)
    rx, ry = float(line.end.x) - x, float(line.end.y) - y
    size = hypot(rx, ry)
    way = ((float(p.x) - x) * rx + (float(p.y) - y) * ry) / size
    return -SAME <= way <= size + SAME


def _line_arc(line: Line, arc: Arc) -> list[Point]:
    """The roots of |start + t · along - centre| = radius."""
    cx, cy = float(arc.centre.x), float(arc.centre.y)
    px, py = float(line.start.x) - cx, float(line.start.y) - cy
    dx, dy = float(line.end.x - line.start.x), float(line.end.y - line.start.y)
    radius = hypot(float(arc.start.x) - cx, float(arc.start.y) - cy)
    size = hypot(dx, dy)
    if size <= SAME:
        return []
    dx, dy = dx / size, dy / size
    foot = -(px * dx + py * dy)
    off = abs(px * dy - py * dx)
    if off > radius + SAME:
        return []
    half = sqrt(max(0.0, radius * radius - off * off))
    found: list[Point] = []
    for way in {foot - half, foot + half}:
        x, y = px + way * dx, py + way * dy
        if -SAME <= way <= size + SAME and in_sweep(arc, atan2(y, x), SAME / radius):
            p = _line_end_or(line, way, size, Point(x + cx, y + cy))
            found.append(next((end for end in (arc.start, arc.end) if one_place(end, p)), p))
    return found


def _line_end_or(line: Line, way: float, size: float, p: Point) -> Point:
    if way <= SAME:
        return line.start
    if way >= size - SAME:
        return line.end
    return _settled(line, line, p)


def _arc_arc(a: Arc, b: Arc) -> list[Point]:
    """Where two circles cross, as far as both arcs reach; for arcs of one circle, the ends of the shared run."""
    ax, ay, bx, by = float(a.centre.x), float(a.centre.y), float(b.centre.x), float(b.centre.y)
    ra, rb = hypot(float(a.start.x) - ax, float(a.start.y) - ay), hypot(float(b.start.x) - bx, float(b.start.y) - by)
    apart = hypot(bx - ax, by - ay)
    if apart <= SAME:
        if abs(ra - rb) > SAME:
            return []
        return [p for p in (b.start, b.end) if _reaches(a, p, ra)] + [p for p in (a.start, a.end) if _reaches(b, p, rb)]
    if apart > ra + rb + SAME or apart < abs(ra - rb) - SAME:
        return []
    way = (apart * apart + ra * ra - rb * rb) / (2 * apart)
    half = sqrt(max(0.0, ra * ra - way * way))
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    found: list[Point] = []
    for off in {half, -half}:
        p = Point(ax + way * ux - off * uy, ay + way * uy + off * ux)
        if _reaches(a, p, ra) and _reaches(b, p, rb):
            found.append(next((end for end in (a.start, a.end, b.start, b.end) if one_place(end, p)), p))
    return found


def _reaches(arc: Arc, p: Point, radius: float) -> bool:
    return in_sweep(arc, atan2(float(p.y - arc.centre.y), float(p.x - arc.centre.x)), SAME / radius)
