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


def to_grid(polygon: Polygon) -> Path:
    """In grid steps."""
    return tuple([(round(x * GRID), round(y * GRID)) for x, y in polygon])


class _Known:
    """A polygon and its box in grid steps, which often answers alone; its corners in grid steps, worked out when they are asked for."""

    __slots__ = ("_path", "_solid", "head", "left", "polygon", "right", "tail")

    def __init__(self, polygon: Polygon) -> None:
        self.polygon = polygon
        xs, ys = zip(*polygon, strict=True)
        self.left: int = round(min(xs) * GRID)
        self.head: int = round(min(ys) * GRID)
        self.right: int = round(max(xs) * GRID)
        self.tail: int = round(max(ys) * GRID)
        self._path: Path | None = None
        self._solid: bool | None = None

    def path(self) -> Path:
        """Empty without an area."""
        if self._path is None:
            path = to_grid(self.polygon)
            self._path = path if _has_area(path) else ()
        return self._path

    def is_solid(self) -> bool:
        """Not a hole."""
        if self._solid is None:
            self._solid = area(self.polygon) > 0
        return self._solid

    def is_box(self) -> bool:
        """As most panels are: four corners straight across and down."""
        if len(self.polygon) != 4:
            return False
        corners = [(self.left, self.head), (self.left, self.tail), (self.right, self.head), (self.right, self.tail)]
        return sorted(self.path()) == corners

    def lies_in(self, other: "_Known") -> bool:
        """As far as the boxes tell."""
        return other.left <= self.left and self.right <= other.right and other.head <= self.head and self.tail <= other.tail


_known = lru_cache(maxsize=4096)(_Known)
"""The same few polygons are met with one another again and again."""


def _all_known(polygons: Iterable[Polygon]) -> list[_Known]:
    return [_known(polygon) for polygon in polygons if polygon]


def from_grid(paths: Iterable[Iterable[Iterable[int]]]) -> list[Polygon]:
    found: list[Polygon] = []
    for path in paths:
        polygon = tuple((x / GRID, y / GRID) for x, y in path)
        if len(polygon) > 2 and abs(area(polygon)) >= SLIVER:
            found.append(polygon)
    return found


def _clip(kind: int, subjects: list[_Known], clips: list[_Known]) -> list[Polygon]:
    ours, theirs = ([path for each in polygons if (path := each.path())] for polygons in (subjects, clips))
    if not ours:
        return []
    work = pyclipper.Pyclipper()
    work.AddPaths(ours, pyclipper.PT_SUBJECT, True)
    if theirs:
        work.AddPaths(theirs, pyclipper.PT_CLIP, True)
    return from_grid(work.Execute(kind, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO))


def _near(polygons: list[_Known], others: list[_Known]) -> list[_Known]:
    """The polygons whose boxes reach into the box of all the others."""
    if not others:
        return []
    if len(others) == 1:
        one = others[0]
        left, head, right, tail = one.left, one.head, one.right, one.tail
        return [each for each in polygons if each.left < right and each.right > left and each.head < tail and each.tail > head]
    left, head = min([each.left for each in others]), min([each.head for each in others])
    right, tail = max([each.right for each in others]), max([each.tail for each in others])
    return [each for each in polygons if each.left < right and each.right > left and each.head < tail and each.tail > head]


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
    subjects = _all_known(polygons)
    clips = _near(_all_known(others), subjects)
    return _clip(pyclipper.CT_INTERSECTION, subjects, clips) if clips else []


def difference(polygons: Iterable[Polygon], others: Iterable[Polygon]) -> list[Polygon]:
    """What the others leave of the polygons. What lies whole under one box is left out beforehand: most hidden paper does."""
    subjects, clips = _all_known(polygons), _all_known(others)
    clips = _near(clips, subjects)
    if not clips and len(subjects) == 1 and subjects[0].is_solid():
        return [subjects[0].polygon]
    boxes = [each for each in clips if any(one.lies_in(each) for one in subjects) and each.is_box()]
    if boxes and all(each.is_solid() for each in clips):
        subjects = [one for one in subjects if not any(one.lies_in(box) for box in boxes)]
    return _clip(pyclipper.CT_DIFFERENCE, subjects, clips)


def union(polygons: Iterable[Polygon]) -> list[Polygon]:
    """All of them together, overlaps once."""
    return _clip(pyclipper.CT_UNION, _all_known(polygons), [])
