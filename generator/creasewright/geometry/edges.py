"""What can be asked of one edge, a line or an arc: its length, middle, tangents, box; and how it is cut, turned round, bent."""

from collections.abc import Iterable
from fractions import Fraction
from math import atan2, cos, hypot, pi, sin

from creasewright.geometry.outline import Arc, Edge, Line, arc_sweep
from creasewright.geometry.point import Number, Point
from creasewright.geometry.vector import length, middle, minus, moved, one_place, outward, unit

Box = tuple[Number, Number, Number, Number]
"""Left, head, right, tail in mm."""


def edge_length(edge: Edge) -> float:
    """In mm."""
    if isinstance(edge, Line):
        return hypot(float(edge.end.x - edge.start.x), float(edge.end.y - edge.start.y))
    radius, _, sweep = arc_sweep(edge)
    return radius * abs(sweep)


def point_on(edge: Edge, part: Fraction) -> Point:
    """The point at that part (0 to 1) of the edge's way."""
    if isinstance(edge, Line):
        return moved(edge.start, minus(edge.end, edge.start), part)
    radius, start, sweep = arc_sweep(edge)
    angle = start + sweep * float(part)
    return Point(float(edge.centre.x) + radius * cos(angle), float(edge.centre.y) + radius * sin(angle))


def edge_middle(edge: Edge) -> Point:
    return middle(edge.start, edge.end) if isinstance(edge, Line) else point_on(edge, Fraction(1, 2))


def tangent(edge: Edge, at: Point) -> Point:
    """Direction of travel at a point of the edge (not of unit length)."""
    if isinstance(edge, Line):
        return minus(edge.end, edge.start)
    spoke = minus(at, edge.centre)
    return Point(-spoke.y, spoke.x) if edge.clockwise else Point(spoke.y, -spoke.x)


def curvature(edge: Edge) -> float:
    """1/mm, positive for a clockwise turn as seen; 0 for a line."""
    if isinstance(edge, Line):
        return 0.0
    radius = hypot(float(edge.start.x - edge.centre.x), float(edge.start.y - edge.centre.y))
    return 1 / radius if edge.clockwise else -1 / radius


def reverse(edge: Edge) -> Edge:
    if isinstance(edge, Line):
        return Line(edge.end, edge.start)
    return Arc(edge.end, edge.start, edge.centre, not edge.clockwise)


def part_of(edge: Edge, start: Point, end: Point) -> Edge:
    """The same line or circle between two of its points."""
    if isinstance(edge, Line):
        return Line(start, end)
    return Arc(start, end, edge.centre, edge.clockwise)


def in_sweep(arc: Arc, angle: float, slack: float) -> bool:
    """Whether a direction from the centre (radians) meets the arc, `slack` radians past its ends included."""
    _, start, sweep = arc_sweep(arc)
    way = (angle - start) % (2 * pi) if sweep > 0 else (start - angle) % (2 * pi)
    return way <= abs(sweep) + slack or way >= 2 * pi - slack


def edge_box(edge: Edge) -> Box:
    """The smallest upright rectangle round the edge; exact for lines and for arcs with rational centre and radius on the axes."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    box = [min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)]
    if isinstance(edge, Arc):
        radius = length(minus(edge.start, edge.centre))
        for quarter, side in ((2, 0), (3, 1), (0, 2), (1, 3)):
            if in_sweep(edge, quarter * pi / 2, 0.0):
                centre = edge.centre.x if side % 2 == 0 else edge.centre.y
                box[side] = min(box[side], centre - radius) if side < 2 else max(box[side], centre + radius)
    return box[0], box[1], box[2], box[3]


def box_of(edges: Iterable[Edge]) -> Box:
    boxes = [edge_box(edge) for edge in edges]
    return (
        min(box[0] for box in boxes), min(box[1] for box in boxes),
        max(box[2] for box in boxes), max(box[3] for box in boxes),
    )  # fmt: skip


def arc_with_rise(start: Point, end: Point, rise: Number) -> Edge:
    """The circular arc between two points of a clockwise outline whose middle stands `rise` mm outside the chord.

    With c the chord and r the rise, the radius is (c²/4 + r²) / 2r (intersecting chords: c/2 · c/2 = r · (2R - r)).
    A negative rise bulges inwards; none gives the chord.
    """
    if rise == 0:
        return Line(start, end)
    chord = minus(end, start)
    size = length(chord)
    radius = (size * size / 4 + rise * rise) / (2 * rise)
    return Arc(start, end, moved(middle(start, end), outward(unit(chord)), rise - radius), rise > 0)


def direction_between(start: Point, end: Point) -> float:
    """From one point to another: angle in radians, clockwise as seen from the x axis."""
    return atan2(float(end.y) - float(start.y), float(end.x) - float(start.x))


def leaving_direction(edge: Edge) -> float:
    """The direction of travel at the edge's start, radians."""
    if isinstance(edge, Line):
        return direction_between(edge.start, edge.end)
    spoke = direction_between(edge.centre, edge.start)
    turned = spoke + pi / 2 if edge.clockwise else spoke - pi / 2
    return atan2(sin(turned), cos(turned))


def way_along(edge: Edge, point: Point) -> float:
    """A number that grows along the edge: the order of its points, not their distance."""
    if isinstance(edge, Line):
        x, y = float(edge.start.x), float(edge.start.y)
        along_x, along_y = float(edge.end.x) - x, float(edge.end.y) - y
        return (float(point.x) - x) * along_x + (float(point.y) - y) * along_y
    if one_place(point, edge.start):
        return 0.0
    _, start, sweep = arc_sweep(edge)
    turn = direction_between(edge.centre, point) - start
    return (turn if sweep > 0 else -turn) % (2 * pi)
