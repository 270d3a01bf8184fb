"""A cubic (Bezier) curve as circular arcs that run smoothly into each other, so that all else need know only lines and arcs.

Each piece of the curve becomes a pair of arcs with the curve's own tangents at its ends (a biarc, after K. M. Bolton,
"Biarc curves", Computer-Aided Design 7(2), 1975); a piece is halved until no place of it is farther than `WITHIN` from its arcs.
"""

from itertools import pairwise
from math import atan2, hypot, pi, sqrt

from creasewright.geometry.edges import in_sweep, leaving_direction, reverse
from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Point

WITHIN = 0.005
"""mm: the greatest distance between the curve and the arcs that stand for it."""
HALVINGS = 6
"""A curve is halved at most so often: 64 pieces, 128 arcs."""
LOOKED_AT = 16
"""Places of a piece whose distance is measured."""
SMOOTH = 1e-3
"""Radians: a greater turn from one arc to the next is a kink."""
STRAIGHT = 1e-9
"""Sine of the angle below which an arc is a line."""

Spot = tuple[float, float]


def cubic_edges(start: Point, first: Point, second: Point, end: Point) -> tuple[Edge, ...] | None:
    """The curve from `start` to `end` with handles `first` and `second`; None where it has a kink that no arcs follow."""
    spots = [(float(p.x), float(p.y)) for p in (start, first, second, end)]
    pieces = _pieces(spots[0], spots[1], spots[2], spots[3], HALVINGS)
    if pieces is None or any(_kink(before, after) for before, after in pairwise(pieces)):
        return None
    head, tail = pieces[0], pieces[-1]
    pieces[0] = _between(head, start, head.end)
    pieces[-1] = _between(pieces[-1], pieces[-1].start, end) if tail is not head else _between(pieces[0], start, end)
    return tuple(pieces)


def _kink(before: Edge, after: Edge) -> bool:
    turn = leaving_direction(after) - leaving_direction(reverse(before)) + pi
    return abs((turn + pi) % (2 * pi) - pi) > SMOOTH


def _between(edge: Edge, start: Point, end: Point) -> Edge:
    return Line(start, end) if isinstance(edge, Line) else Arc(start, end, edge.centre, edge.clockwise)


def _pieces(a: Spot, b: Spot, c: Spot, d: Spot, halvings: int) -> list[Edge] | None:
    fitted = _biarc(a, _towards(a, b, c, d), d, _towards(d, c, b, a, -1.0))
    if fitted is not None and all(_off(spot, fitted) <= WITHIN for spot in _places(a, b, c, d)):
        return fitted
    if halvings == 0:
        return None
    ab, bc, cd = _mid(a, b), _mid(b, c), _mid(c, d)
    abc, bcd = _mid(ab, bc), _mid(bc, cd)
    middle = _mid(abc, bcd)
    before, after = _pieces(a, ab, abc, middle, halvings - 1), _pieces(middle, bcd, cd, d, halvings - 1)
    return [*before, *after] if before is not None and after is not None else None


def _mid(a: Spot, b: Spot) -> Spot:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _towards(a: Spot, b: Spot, c: Spot, d: Spot, sign: float = 1.0) -> Spot:
    """Unit tangent at `a`; a handle of no length leaves it to the next one."""
    for x, y in (b, c, d):
        size = hypot(x - a[0], y - a[1])
        if size > 1e-9:
            return sign * (x - a[0]) / size, sign * (y - a[1]) / size
    return 1.0, 0.0


def _places(a: Spot, b: Spot, c: Spot, d: Spot) -> list[Spot]:
    found = []
    for k in range(1, LOOKED_AT):
        t = k / LOOKED_AT
        u = 1 - t
        w = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        found.append(
            (w[0] * a[0] + w[1] * b[0] + w[2] * c[0] + w[3] * d[0], w[0] * a[1] + w[1] * b[1] + w[2] * c[1] + w[3] * d[1])
        )
    return found


def _biarc(start: Spot, t0: Spot, end: Spot, t1: Spot) -> list[Edge] | None:
    """Two arcs of equal handles: they meet at the middle of the handles' ends, which lie `d` along the tangents."""
    vx, vy = end[0] - start[0], end[1] - start[1]
    along = vx * (t0[0] + t1[0]) + vy * (t0[1] + t1[1])
    bend = 2 * (1 - t0[0] * t1[0] - t0[1] * t1[1])
    square = vx * vx + vy * vy
    if square < 1e-18:
        return None
    if bend < 1e-12:
        d = square / (2 * along) if along > 1e-12 else 0.0
    else:
        d = (sqrt(along * along + bend * square) - along) / bend
    if d <= 0:
        return None
    joint = ((start[0] + end[0] + d * (t0[0] - t1[0])) / 2, (start[1] + end[1] + d * (t0[1] - t1[1])) / 2)
    first, last = _arc(start, t0, joint), _arc(end, (-t1[0], -t1[1]), joint)
    if first is None or last is None:
        return None
    return [first, Line(last.end, last.start) if isinstance(last, Line) else Arc(last.end, last.start, last.centre, not last.clockwise)]


def _arc(start: Spot, tangent: Spot, end: Spot) -> Edge | None:
    """The arc that leaves `start` along the unit tangent and ends at `end`: radius c / (2 sin t), t between tangent and chord c."""
    cx, cy = end[0] - start[0], end[1] - start[1]
    chord = hypot(cx, cy)
    if chord < 1e-9:
        return None
    sine = (tangent[0] * cy - tangent[1] * cx) / chord
    a, b = Point(*start), Point(*end)
    if abs(sine) < STRAIGHT:
        return Line(a, b) if tangent[0] * cx + tangent[1] * cy > 0 else None
    radius = chord / (2 * sine)
    return Arc(a, b, Point(start[0] - tangent[1] * radius, start[1] + tangent[0] * radius), sine > 0)


def _off(spot: Spot, edges: list[Edge]) -> float:
    """mm from a place to the nearest of the arcs."""
    return min(_off_one(spot, edge) for edge in edges)


def _off_one(spot: Spot, edge: Edge) -> float:
    x, y = spot
    ends = min(hypot(x - float(p.x), y - float(p.y)) for p in (edge.start, edge.end))
    if isinstance(edge, Arc):
        cx, cy = float(edge.centre.x), float(edge.centre.y)
        if not in_sweep(edge, atan2(y - cy, x - cx), 0.0):
            return ends
        return abs(hypot(x - cx, y - cy) - hypot(float(edge.start.x) - cx, float(edge.start.y) - cy))
    ax, ay = float(edge.start.x), float(edge.start.y)
    dx, dy = float(edge.end.x) - ax, float(edge.end.y) - ay
    size = dx * dx + dy * dy
    t = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / size)) if size else 0.0
    return hypot(ax + t * dx - x, ay + t * dy - y)
