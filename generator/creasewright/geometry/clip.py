"""Polygons against polygons: what they share, what one leaves of the other, all of them together.

Polygons run clockwise as seen (y down), in mm. A hole in a result is a polygon of its own that runs the other way, so that
signed areas add up; results may be given back in as they are. Worked on a grid of 1e-5 mm; slivers under 1e-4 mm² are left out.
This file and `offset.py` are the only ones that know the polygon library.
"""

from collections.abc import Iterable
from itertools import pairwise

import pyclipper

from creasewright.geometry.outline import Polygon

GRID = 100_000
"""Grid steps in a mm."""

SLIVER = 1e-4
"""mm²: smaller pieces are rounding, not paper."""

Path = list[tuple[int, int]]


def area(polygon: Polygon) -> float:
    """mm², positive where the polygon runs clockwise as seen."""
    total = 0.0
    x0, y0 = polygon[0] if polygon else (0.0, 0.0)
    for (ax, ay), (bx, by) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        total += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
    return total / 2


def total_area(polygons: Iterable[Polygon]) -> float:
    """mm² of a result: its holes taken off."""
    return sum(area(polygon) for polygon in polygons)


def clockwise(polygon: Polygon) -> Polygon:
    return polygon if area(polygon) >= 0 else polygon[::-1]


def to_grid(polygon: Polygon) -> Path:
    return [(round(x * GRID), round(y * GRID)) for x, y in polygon]


def from_grid(paths: Iterable[Iterable[Iterable[int]]]) -> list[Polygon]:
    found: list[Polygon] = []
    for path in paths:
        polygon = tuple((x / GRID, y / GRID) for x, y in path)
        if len(polygon) > 2 and abs(area(polygon)) >= SLIVER:
            found.append(polygon)
    return found


def _clip(kind: int, subjects: Iterable[Polygon], clips: Iterable[Polygon]) -> list[Polygon]:
    work = pyclipper.Pyclipper()
    empty = True
    for polygons, role in ((subjects, pyclipper.PT_SUBJECT), (clips, pyclipper.PT_CLIP)):
        paths = [path for path in map(to_grid, polygons) if _has_area(path)]
        if paths:
            work.AddPaths(paths, role, True)
            empty = empty and role == pyclipper.PT_CLIP
    if empty:
        return []
    return from_grid(work.Execute(kind, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO))


def _has_area(path: Path) -> bool:
    return len(path) > 2 and any(
        (bx - path[0][0]) * (cy - path[0][1]) != (cx - path[0][0]) * (by - path[0][1])
        for (bx, by), (cx, cy) in pairwise(path[1:])
    )


def intersection(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What lies in one of the polygons and in one of the others."""
    return _clip(pyclipper.CT_INTERSECTION, polygons, others)


def difference(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What the others leave of the polygons."""
    return _clip(pyclipper.CT_DIFFERENCE, polygons, others)


def union(polygons: Iterable[Polygon]) -> list[Polygon]:
    """All of them together, overlaps once."""
    return _clip(pyclipper.CT_UNION, polygons, ())
