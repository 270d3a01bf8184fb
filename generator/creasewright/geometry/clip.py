"""Polygons against polygons: what they share, what one leaves of the other, all of them together.

Polygons run clockwise as seen (y down), in mm. A hole in a result is a polygon of its own that runs the other way, so that
signed areas add up; results may be given back in as they are. Worked on a grid of 1e-5 mm; slivers under 1e-4 mm² are left out.
This file and `offset.py` are the only ones that know the polygon library.
"""

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

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


def to_grid(polygon: Polygon) -> Path:
    """In grid steps."""
    return tuple([(round(x * GRID), round(y * GRID)) for x, y in polygon])


class _OnGrid(NamedTuple):
    path: Path
    left: int
    head: int
    right: int
    tail: int
    clockwise: bool
    full: bool
    """It is its own box, as most panels are: four corners straight across and down."""


@lru_cache(maxsize=4096)
def _on_grid(polygon: Polygon) -> _OnGrid | None:
    """None without an area. The same few polygons are met with one another again and again, so they are kept."""
    path = to_grid(polygon)
    if not _has_area(path):
        return None
    xs, ys = [x for x, _ in path], [y for _, y in path]
    left, head, right, tail = min(xs), min(ys), max(xs), max(ys)
    turns = sum([a[0] * b[1] - b[0] * a[1] for a, b in zip(path, path[1:] + path[:1], strict=True)])
    full = len(path) == 4 and abs(turns) == 2 * (right - left) * (tail - head)
    return _OnGrid(path, left, head, right, tail, turns > 0, full)


def from_grid(paths: Iterable[Iterable[Iterable[int]]]) -> list[Polygon]:
    found: list[Polygon] = []
    for path in paths:
        polygon = tuple((x / GRID, y / GRID) for x, y in path)
        if len(polygon) > 2 and abs(area(polygon)) >= SLIVER:
            found.append(polygon)
    return found


def _clip(kind: int, subjects: list[_OnGrid], clips: list[_OnGrid]) -> list[Polygon]:
    work = pyclipper.Pyclipper()
    for polygons, role in ((subjects, pyclipper.PT_SUBJECT), (clips, pyclipper.PT_CLIP)):
        if polygons:
            work.AddPaths([each.path for each in polygons], role, True)
    return from_grid(work.Execute(kind, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO))


def _all_on_grid(polygons: Iterable[Polygon]) -> list[_OnGrid]:
    return [each for each in map(_on_grid, polygons) if each is not None]


def _near(polygons: list[_OnGrid], others: list[_OnGrid]) -> list[_OnGrid]:
    """The polygons whose boxes reach into the box of all the others."""
    if not others:
        return []
    left, head = min([each.left for each in others]), min([each.head for each in others])
    right, tail = max([each.right for each in others]), max([each.tail for each in others])
    return [each for each in polygons if each.left < right and each.right > left and each.head < tail and each.tail > head]


def _lies_in(one: _OnGrid, box: _OnGrid) -> bool:
    return box.left <= one.left and one.right <= box.right and box.head <= one.head and one.tail <= box.tail


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
    subjects = _all_on_grid(polygons)
    clips = _near(_all_on_grid(others), subjects)
    return _clip(pyclipper.CT_INTERSECTION, subjects, clips) if clips else []


def difference(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What the others leave of the polygons. What lies whole under one box is left out beforehand: most hidden paper does."""
    subjects = _all_on_grid(polygons)
    clips = _all_on_grid(others)
    if all(each.clockwise for each in clips):
        boxes = [each for each in clips if each.full]
        subjects = [each for each in subjects if not any(_lies_in(each, box) for box in boxes)]
    return _clip(pyclipper.CT_DIFFERENCE, subjects, clips) if subjects else []


def union(polygons: Iterable[Polygon]) -> list[Polygon]:
    """All of them together, overlaps once."""
    subjects = _all_on_grid(polygons)
    return _clip(pyclipper.CT_UNION, subjects, []) if subjects else []
