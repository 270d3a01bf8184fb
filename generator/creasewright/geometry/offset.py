"""Polygons moved in from their edges, corners kept.

`inset` all round; `inset_edges` from some edges only (the strip along each is taken off); `inset_outline` for outlines of
lines and arcs, where lines stay lines and arcs keep their centre.
"""

from collections.abc import Iterable
from math import hypot

import pyclipper

from creasewright.geometry.clip import GRID, difference, from_grid, to_grid
from creasewright.geometry.crossing import lines_cross, meetings
from creasewright.geometry.edges import curvature, tangent
from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Arc, Edge, Line, Outline, Polygon
from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import cross, dot, length, minus, moved, one_place, outward, unit

MITRE_LIMIT = 20.0
"""How far a corner may stand out, as a multiple of the offset."""


def inset(polygon: Polygon, mm: float) -> list[Polygon]:
    """The polygon moved in by `mm` (out, where negative) with its corners kept.

    Several pieces where it is narrow, none where nothing is left.
    """
    work = pyclipper.PyclipperOffset(MITRE_LIMIT)
    path = to_grid(polygon)
    if len(path) < 3:
        return []
    work.AddPath(path, pyclipper.JT_MITER, pyclipper.ET_CLOSEDPOLYGON)
    return from_grid(work.Execute(-mm * GRID))


def inset_edges(polygon: Polygon, edges: Iterable[tuple[int, float]]) -> list[Polygon]:
    """The polygon without the strip of so many mm along each edge named; edge i runs from corner i to the next."""
    strips = [_strip(polygon, index, mm) for index, mm in edges if mm > 0]
    return difference([polygon], strips)


def _strip(polygon: Polygon, index: int, mm: float) -> Polygon:
    count = len(polygon)
    (ax, ay), (bx, by) = polygon[index], polygon[(index + 1) % count]
    size = hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / size, (by - ay) / size
    start = _foot(polygon[index], (ux, uy), polygon[index - 1], mm, -1)
    end = _foot(polygon[(index + 1) % count], (ux, uy), polygon[(index + 2) % count], mm, 1)
    return ((ax, ay), (bx, by), end, start)


def _foot(
    corner: tuple[float, float], along: tuple[float, float], neighbour: tuple[float, float], mm: float, way: int
) -> tuple[float, float]:
    """Where the strip's inner side ends: on the neighbouring edge's line where the corner is open, else straight across."""
    nx, ny = -along[1], along[0]
    dx, dy = neighbour[0] - corner[0], neighbour[1] - corner[1]
    depth, forward = dx * nx + dy * ny, dx * along[0] + dy * along[1]
    slide = mm * forward / depth if depth > 0 else 0.0
    slide = slide if 0 < slide * way <= MITRE_LIMIT * mm else 0.0
    return corner[0] + nx * mm + along[0] * slide, corner[1] + ny * mm + along[1] * slide


def inset_outline(outline: Outline, mm: Number) -> Outline | None:
    """The outline moved in by `mm`; edges that shrink to nothing go. None where nothing is left.

    Each line moves along its own normal, each arc keeps its centre, and neighbours meet where their new curves do.
    """
    if mm == 0:
        return outline
    kept = [edge for edge in outline.edges if _moved_in(edge, mm) is not None]
    while len(kept) > 1:
        moved_in = [edge for edge in (_moved_in(edge, mm) for edge in kept) if edge is not None]
        corners = [_corner(a, b) for a, b in zip(moved_in[-1:] + moved_in[:-1], moved_in, strict=True)]
        turned = [
            index
            for index, edge in enumerate(moved_in)
            if not _runs_on(edge, corners[index], corners[(index + 1) % len(corners)])
        ]
        if not turned:
            edges = tuple(
                _between(edge, corners[index], corners[(index + 1) % len(corners)]) for index, edge in enumerate(moved_in)
            )
            return Outline(edges) if loop_area(edges) > 0 else None
        worst = min(turned, key=lambda index: float(length(minus(kept[index].end, kept[index].start))))
        del kept[worst]
    return None


def _moved_in(edge: Edge, mm: Number) -> Edge | None:
    if isinstance(edge, Line):
        aside = outward(unit(minus(edge.end, edge.start)))
        return Line(moved(edge.start, aside, -mm), moved(edge.end, aside, -mm))
    spoke = length(minus(edge.start, edge.centre))
    radius = spoke - mm if edge.clockwise else spoke + mm
    if radius <= SAME:
        return None
    start, end = (moved(edge.centre, minus(p, edge.centre), radius / spoke) for p in (edge.start, edge.end))
    return Arc(start, end, edge.centre, edge.clockwise)


def _corner(before: Edge, after: Edge) -> Point:
    """Where two edges that were neighbours meet again."""
    if one_place(before.end, after.start):
        return after.start
    if isinstance(before, Line) and isinstance(after, Line):
        return lines_cross(before, after) or after.start
    long_before, long_after = _lengthened(before), _lengthened(after)
    met = meetings(long_before, long_after) if not isinstance(before, Arc) or not isinstance(after, Arc) else []
    near = before.end
    return min(met, key=lambda p: float(length(minus(p, near))), default=near)


def _lengthened(edge: Edge) -> Edge:
    if isinstance(edge, Line):
        along = minus(edge.end, edge.start)
        return Line(moved(edge.start, along, -1), moved(edge.end, along, 1))
    start, end = edge.start, edge.end
    aside = unit(tangent(edge, start)), unit(tangent(edge, end))
    radius = 1 / abs(curvature(edge))
    more = radius / 2
    first, last = moved(start, aside[0], -more), moved(end, aside[1], more)
    spokes = [moved(edge.centre, unit(minus(p, edge.centre)), radius) for p in (first, last)]
    return Arc(spokes[0], spokes[1], edge.centre, edge.clockwise)


def _runs_on(edge: Edge, start: Point, end: Point) -> bool:
    """Whether the edge still runs the way it did between its new ends."""
    if one_place(start, end):
        return False
    if isinstance(edge, Line):
        return dot(minus(end, start), minus(edge.end, edge.start)) > 0
    turn = cross(minus(start, edge.centre), minus(end, edge.centre))
    was = cross(minus(edge.start, edge.centre), minus(edge.end, edge.centre))
    return (float(turn) > 0) == (float(was) > 0) or abs(float(was)) <= SAME


def _between(edge: Edge, start: Point, end: Point) -> Edge:
    return Line(start, end) if isinstance(edge, Line) else Arc(start, end, edge.centre, edge.clockwise)
