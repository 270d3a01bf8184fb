"""A corner between two straight edges of a clockwise outline, cut off or rounded; any angle."""

from creasewright.geometry.edges import arc_with_rise
from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Number, Point
from creasewright.geometry.vector import cross, dot, length, magnitude, minus, moved, unit


def turns_in(before: Line, after: Line) -> bool:
    """Whether the corner is less than 180° inside: the outline turns clockwise there."""
    return cross(minus(before.end, before.start), minus(after.end, after.start)) > 0


def tangent_length(before: Line, after: Line, radius: Number) -> Number:
    """How much of each edge a rounding takes, mm: r / tan(half the angle), with tan(t/2) = sin t / (1 + cos t)."""
    back, on = unit(minus(before.start, before.end)), unit(minus(after.end, after.start))
    return radius * (1 + dot(back, on)) / magnitude(cross(back, on))


def cut_corner(before: Line, after: Line, first: Number, second: Number) -> tuple[Point, Point]:
    """The ends of the cut: `first` mm back along the edge before, `second` mm on along the edge after."""
    corner = before.end
    back, on = unit(minus(before.start, corner)), unit(minus(after.end, corner))
    return moved(corner, back, first), moved(corner, on, second)


def rounded(before: Line, after: Line, radius: Number) -> Arc:
    """The arc that touches both edges. Its centre lies r / sin(angle) along the sum of the two unit edges."""
    corner = before.end
    back, on = unit(minus(before.start, corner)), unit(minus(after.end, corner))
    reach = tangent_length(before, after, radius)
    sine = magnitude(cross(back, on))
    both = Point(back.x + on.x, back.y + on.y)
    centre = moved(corner, both, radius / sine)
    return Arc(moved(corner, back, reach), moved(corner, on, reach), centre, turns_in(before, after))


def notch(edge: Line, at: Point, width: Number, depth: Number, round_foot: bool) -> tuple[Edge, ...]:
    """The way into a straight edge and out again at a point of it; with a round foot its deepest point is `depth` in."""
    along = unit(minus(edge.end, edge.start))
    inward = Point(-along.y, along.x)
    first, last = moved(at, along, -width / 2), moved(at, along, width / 2)
    straight = depth - width / 2 if round_foot else depth
    if round_foot and straight <= 0:
        return (arc_with_rise(first, last, -depth),)
    low_first, low_last = moved(first, inward, straight), moved(last, inward, straight)
    foot = arc_with_rise(low_first, low_last, -width / 2) if round_foot else Line(low_first, low_last)
    return tuple(edge for edge in (Line(first, low_first), foot, Line(low_last, last)) if length(minus(edge.end, edge.start)) > 0)
