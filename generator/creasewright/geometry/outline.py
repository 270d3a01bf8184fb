"""Outlines: closed paths of straight edges and circular arcs, clockwise as seen (x right, y down)."""

from collections.abc import Iterable
from math import acos, atan2, ceil, cos, hypot, pi, sin

from msgspec import Struct

from creasewright.geometry.point import Point

FLATTENING = 0.02
"""Greatest distance in mm between an arc and the chords that stand for it in a polygon."""


class Line(Struct, frozen=True):
    start: Point
    end: Point


class Arc(Struct, frozen=True):
    """Circular, shorter than a full turn; `clockwise` as seen with y down."""

    start: Point
    end: Point
    centre: Point
    clockwise: bool


Edge = Line | Arc

Polygon = tuple[tuple[float, float], ...]
"""Corners in mm, clockwise as seen with y down, not closed."""


class Outline(Struct, frozen=True):
    """Each edge starts where the one before ends; the last ends where the first starts."""

    edges: tuple[Edge, ...]


def arc_sweep(arc: Arc) -> tuple[float, float, float]:
    """Radius, start angle and signed sweep (radians; positive is clockwise as seen, y down)."""
    cx, cy = float(arc.centre.x), float(arc.centre.y)
    a0 = atan2(float(arc.start.y) - cy, float(arc.start.x) - cx)
    a1 = atan2(float(arc.end.y) - cy, float(arc.end.x) - cx)
    sweep = (a1 - a0) % (2 * pi)
    if not arc.clockwise:
        sweep -= 2 * pi
    return hypot(float(arc.start.x) - cx, float(arc.start.y) - cy), a0, sweep


def flattened(edges: Iterable[Edge], tolerance: float = FLATTENING) -> Polygon:
    """The outline as corners; arcs become chords no farther than `tolerance` mm from the curve."""
    corners: list[tuple[float, float]] = []
    for edge in edges:
        corners.append((float(edge.start.x), float(edge.start.y)))
        if isinstance(edge, Arc):
            radius, a0, sweep = arc_sweep(edge)
            step = 2 * acos(max(0.0, 1 - tolerance / radius)) if radius > tolerance else pi / 4
            count = max(2, ceil(abs(sweep) / step))
            cx, cy = float(edge.centre.x), float(edge.centre.y)
            angles = [a0 + sweep * k / count for k in range(1, count)]
            corners += [(cx + radius * cos(a), cy + radius * sin(a)) for a in angles]
    return tuple(corners)


def chain_of(edge: Edge, tolerance: float = FLATTENING) -> Polygon:
    """The edge as an open chain of places, both ends included; an arc's chords no farther than `tolerance` mm from it."""
    return (*flattened((edge,), tolerance), (float(edge.end.x), float(edge.end.y)))
