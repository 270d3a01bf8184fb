"""The measures of adhesive in a picture: how wide a strip is and how far it stands back from the edges of its place."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot

from creasewright.booklet.diagrams.scene import Dimension, Polygon2, Spot
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.step_views import said
from creasewright.units.ruler import Ruler

WIDTH, SETBACK = "width of glue", "glue from an edge"
"""What such a dimension is of."""
NEAR = 0.06
"""mm by which two edges may be off the distance that is asked for."""
LEVEL = 0.02
"""Sine of the greatest angle between two edges that run alongside."""
LEAST = 4.0
"""mm for which they must."""
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
"""Along that stretch: where the measure is tried, so that nothing lies over it."""
COVER = 1.5
"""mm that it stays off what is held above the work."""

Edge = tuple[Spot, Spot]


def glue_dimensions(
    glue: Polygon2, place: Sequence[Polygon2], width: float, setback: float, ruler: Ruler, above: Sequence[Polygon2] = ()
) -> tuple[Dimension, ...]:
    """Across the glue at its best edge: `width` of a strip (0: all over) and `setback` from an edge of its place; empty if none is seen.

    Best is an edge that runs straight up or across, then the longest. All in one view, mm.
    """
    found = sorted(_alongside(glue, place, width, setback), key=lambda each: (not _straight(each[0]), -_length(each[0])))
    for (start, end), (nx, ny) in found:
        for share in PLACES:
            near = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
            edge = near[0] + setback * nx, near[1] + setback * ny
            far = near[0] - width * nx, near[1] - width * ny
            if not any(_covered(spot, above) for spot in (near, edge, far)):
                back = Dimension(near, edge, said(setback, ruler), "inside", SETBACK)
                return (Dimension(far, near, said(width, ruler), "inside", WIDTH), back) if width else (back,)
    return ()


def _alongside(glue: Polygon2, place: Sequence[Polygon2], width: float, setback: float) -> Iterator[tuple[Edge, Spot]]:
    """Stretches of the glue's edges with an edge of the place `setback` outside them and, of a strip, its other edge `width` inside;
    each with the unit vector outward."""
    inner = list(_edges(glue)) if width else []
    outer = [edge for polygon in place for edge in _edges(polygon)]
    for start, end in _edges(glue):
        size = _length((start, end))
        ux, uy = (end[0] - start[0]) / size, (end[1] - start[1]) / size
        for nx, ny in ((uy, -ux), (-uy, ux)):
            if within((start[0] + (end[0] - start[0]) / 2 + 0.05 * nx, start[1] + (end[1] - start[1]) / 2 + 0.05 * ny), glue):
                continue
            beside = _spans((start, end), (nx, ny), setback, outer)
            across = _spans((start, end), (nx, ny), -width, inner) if width else [(0.0, size)]
            shared = [(max(a, c, 0.0), min(b, d, size)) for a, b in beside for c, d in across]
            low, high = max(shared, key=lambda span: span[1] - span[0], default=(0.0, 0.0))
            if high - low >= LEAST:
                yield ((start[0] + low * ux, start[1] + low * uy), (start[0] + high * ux, start[1] + high * uy)), (nx, ny)


def _spans(edge: Edge, outward: Spot, off: float, others: Iterable[Edge]) -> list[tuple[float, float]]:
    """From where to where along an edge another runs beside it, `off` mm outward."""
    (x, y), size = edge[0], _length(edge)
    ux, uy = (edge[1][0] - x) / size, (edge[1][1] - y) / size
    nx, ny = outward
    found = []
    for (ax, ay), (bx, by) in others:
        if abs((bx - ax) * uy - (by - ay) * ux) <= LEVEL * hypot(bx - ax, by - ay) and abs((ax - x) * nx + (ay - y) * ny - off) < NEAR:
            low, high = sorted(((ax - x) * ux + (ay - y) * uy, (bx - x) * ux + (by - y) * uy))
            found.append((low, high))
    return found


def _edges(polygon: Polygon2) -> Iterator[Edge]:
    return ((a, b) for a, b in pairwise((*polygon, polygon[0])) if hypot(b[0] - a[0], b[1] - a[1]) >= LEAST)


def _length(edge: Edge) -> float:
    return hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1])


def _straight(edge: Edge) -> bool:
    return min(abs(edge[1][0] - edge[0][0]), abs(edge[1][1] - edge[0][1])) < NEAR


def _covered(spot: Spot, above: Sequence[Polygon2]) -> bool:
    x, y = spot
    around = ((x, y), (x - COVER, y), (x + COVER, y), (x, y - COVER), (x, y + COVER))
    return any(within(each, polygon) for polygon in above for each in around)
