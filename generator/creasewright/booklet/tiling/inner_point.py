"""A place well inside a polygon, for a name: its centroid where that lies deep enough, else the deepest place of a lattice."""

from math import hypot, sqrt

from creasewright.geometry.loops import gap_to, holds
from creasewright.geometry.outline import Polygon

LATTICE = 13
DEEP_ENOUGH = 0.22
"""Of the square root of the area: a square's centroid is 0.5 deep, a strip of 1 to 5 is 0.22."""


def inner_point(polygon: Polygon) -> tuple[float, float]:
    area, centre = area_and_centroid(polygon)
    if holds(polygon, *centre) and gap_to(polygon, *centre) >= DEEP_ENOUGH * sqrt(abs(area)):
        return centre
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    left, head, width, height = min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)
    places = [
        (left + width * (i + 0.5) / LATTICE, head + height * (k + 0.5) / LATTICE) for k in range(LATTICE) for i in range(LATTICE)
    ]
    within = [place for place in (centre, *places) if holds(polygon, *place)]
    return max(within, key=lambda place: gap_to(polygon, *place), default=centre)


def area_and_centroid(polygon: Polygon) -> tuple[float, tuple[float, float]]:
    """Signed area (positive: clockwise as seen, y down) and centroid, by Green's theorem."""
    area = cx = cy = 0.0
    x0, y0 = polygon[-1]
    for x1, y1 in polygon:
        cross = x0 * y1 - x1 * y0
        area += cross / 2
        cx += (x0 + x1) * cross / 6
        cy += (y0 + y1) * cross / 6
        x0, y0 = x1, y1
    return (area, (cx / area, cy / area)) if area else (0.0, polygon[0])


def to_segment(place: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    x, y = nearest_on(start, end, place)
    return hypot(place[0] - x, place[1] - y)


def nearest_on(start: tuple[float, float], end: tuple[float, float], place: tuple[float, float]) -> tuple[float, float]:
    """The place of a segment nearest to another place."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = dx * dx + dy * dy
    t = ((place[0] - start[0]) * dx + (place[1] - start[1]) * dy) / length if length else 0.0
    t = min(1.0, max(0.0, t))
    return start[0] + t * dx, start[1] + t * dy
