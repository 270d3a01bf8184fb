"""Polygons against polygons: what they share, what one leaves of the other, all of them together.

Polygons run clockwise as seen (y down), in mm. A hole in a result is a polygon of its own that runs the other way, so that
signed areas add up; results may be given back in as they are. Worked on a grid of 1e-5 mm; slivers under 1e-4 mm² are left out.
This file and `offset.py` are the only ones that know the polygon library.
"""

from collections.abc import Iterable
from functools import lru_cache

import pyclipper

from creasewright.geometry.outline import Polygon

GRID = 100_000
"""Grid steps in a mm."""

SLIVER = 1e-4
"""mm²: smaller pieces are rounding, not paper."""

Path = tuple[tuple[int, int], ...]


def area(polygon: Polygon) -> float:
    """mm², positive where the polygon runs clockwise as seen."""
    total = ax = ay = 0.0
    x0, y0 = polygon[0] if polygon else (0.0, 0.0)
    for x, y in polygon:
        bx, by = x - x0, y - y0
        total += ax * by - bx * ay
        ax, ay = bx, by
    return total / 2


def total_area(polygons: Iterable[Polygon]) -> float:
    """mm² of a result: its holes taken off."""
    return sum(area(polygon) for polygon in polygons)


def clockwise(polygon: Polygon) -> Polygon:
    return polygon if area(polygon) >= 0 else polygon[::-1]


@lru_cache(maxsize=4096)
def to_grid(polygon: Polygon) -> Path:
    """In grid steps. The same few polygons are met with one another again and again."""
    return tuple([(round(x * GRID), round(y * GRID)) for x, y in polygon])


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
    if len(path) < 3:
        return False
    (x0, y0), (bx, by) = path[:2]
    for cx, cy in path[2:]:
        if (bx - x0) * (cy - y0) != (cx - x0) * (by - y0):
            return True
        bx, by = cx, cy
    return False


def intersection(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What lies in one of the polygons and in one of the others."""
    return _clip(pyclipper.CT_INTERSECTION, polygons, others)


def difference(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What the others leave of the polygons."""
    return _clip(pyclipper.CT_DIFFERENCE, polygons, others)


def union(polygons: Iterable[Polygon]) -> list[Polygon]:
    """All of them together, overlaps once."""
    return _clip(pyclipper.CT_UNION, polygons, ())
