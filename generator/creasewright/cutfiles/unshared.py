"""What of an edge has not been drawn yet: no blade shall run twice along one line, whoever's border it is."""

from collections.abc import Iterable, Sequence
from math import atan2, cos, hypot, pi, sin

from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Arc, Edge, Line, arc_sweep
from creasewright.geometry.point import Point

NEAR = 1e-3
"""mm between two lines that are one."""
Part = tuple[float, float]
"""From where to where on an edge, 0 at its start and 1 at its end."""


def unshared(edge: Edge, drawn: Iterable[Edge]) -> list[Edge]:
    """The parts of an edge that lie on none of the others, in its own direction; the edge itself where nothing does."""
    size = edge_length(edge)
    if size <= NEAR:
        return []
    parts = [part for other in drawn if (part := shared_part(edge, other)) is not None and (part[1] - part[0]) * size > NEAR]
    return [edge] if not parts else [edge_between(edge, *free) for free in left_free(parts, NEAR / size)]


def left_free(parts: Sequence[Part], least: float) -> list[Part]:
    """What of 0 to 1 is in none of the parts, stretches up to `least` left out."""
    free: list[Part] = []
    reached = 0.0
    for low, high in [*sorted(parts), (1.0, 1.0)]:
        if low - reached > least:
            free.append((reached, low))
        reached = max(reached, high)
    return free


def shared_part(edge: Edge, other: Edge) -> Part | None:
    """The stretch of `edge` that lies on `other`; None where they are not on one line or circle, or do not meet on it."""
    if isinstance(edge, Line) and isinstance(other, Line):
        return _shared_line(edge, other)
    if isinstance(edge, Arc) and isinstance(other, Arc):
        return _shared_arc(edge, other)
    return None


def place_on(edge: Edge, at: Point) -> float:
    """How far along the edge a point lies: 0 at its start, 1 at its end."""
    x, y = float(at.x), float(at.y)
    if isinstance(edge, Line):
        x0, y0, dx, dy = _frame(edge)
        return ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)
    _, start, sweep = arc_sweep(edge)
    way = (atan2(y - float(edge.centre.y), x - float(edge.centre.x)) - start) / sweep
    turn = 2 * pi / abs(sweep)
    way %= turn
    return way if way <= (1 + turn) / 2 else way - turn


def edge_between(edge: Edge, low: float, high: float) -> Edge:
    """The part of an edge from one place to another, its own ends kept exactly."""
    from_, to = (edge.start if low <= 0.0 else point_at(edge, low)), (edge.end if high >= 1.0 else point_at(edge, high))
    return Line(from_, to) if isinstance(edge, Line) else Arc(from_, to, edge.centre, edge.clockwise)


def point_at(edge: Edge, part: float) -> Point:
    if isinstance(edge, Line):
        x0, y0, dx, dy = _frame(edge)
        return Point(x0 + dx * part, y0 + dy * part)
    radius, start, sweep = arc_sweep(edge)
    angle = start + sweep * part
    return Point(float(edge.centre.x) + radius * cos(angle), float(edge.centre.y) + radius * sin(angle))


def _frame(edge: Line) -> tuple[float, float, float, float]:
    x0, y0 = float(edge.start.x), float(edge.start.y)
    return x0, y0, float(edge.end.x) - x0, float(edge.end.y) - y0


def _shared_line(edge: Line, other: Line) -> Part | None:
    x0, y0, dx, dy = _frame(edge)
    size = hypot(dx, dy)
    for at in (other.start, other.end):
        if abs((float(at.x) - x0) * dy - (float(at.y) - y0) * dx) > NEAR * size:
            return None
    low, high = sorted((place_on(edge, other.start), place_on(edge, other.end)))
    low, high = max(0.0, low), min(1.0, high)
    return (low, high) if low < high else None


def _shared_arc(edge: Arc, other: Arc) -> Part | None:
    apart = hypot(float(edge.centre.x - other.centre.x), float(edge.centre.y - other.centre.y))
    radius, _, sweep = arc_sweep(edge)
    theirs, _, span = arc_sweep(other)
    if apart > NEAR or abs(radius - theirs) > NEAR:
        return None
    along = other if (sweep > 0) == (span > 0) else Arc(other.end, other.start, other.centre, not other.clockwise)
    low = place_on(edge, along.start)
    low, high = max(0.0, low), min(1.0, low + abs(span / sweep))
    return (low, high) if low < high else None
