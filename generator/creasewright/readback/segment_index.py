"""Straight pieces by place: which of many may be near a given one. Square cells; coordinates in mm."""

from collections.abc import Iterator
from math import floor

from creasewright.booklet.tiling.placing import Segment

CELL = 16.0


class SegmentIndex:
    def __init__(self, segments: list[Segment]) -> None:
        self._cells: dict[tuple[int, int], list[Segment]] = {}
        for segment in segments:
            for cell in _cells(segment, 0.0):
                self._cells.setdefault(cell, []).append(segment)

    def near(self, segment: Segment, reach: float) -> list[Segment]:
        """All whose boxes may come within `reach` of the segment's box, and some more; each once."""
        found = {other: None for cell in _cells(segment, reach) for other in self._cells.get(cell, ())}
        return list(found)


def _cells(segment: Segment, reach: float) -> Iterator[tuple[int, int]]:
    """Every cell that the segment's box, widened by `reach`, touches."""
    x0, y0, x1, y1 = segment
    columns = range(floor((min(x0, x1) - reach) / CELL), floor((max(x0, x1) + reach) / CELL) + 1)
    rows = range(floor((min(y0, y1) - reach) / CELL), floor((max(y0, y1) + reach) / CELL) + 1)
    return ((column, row) for column in columns for row in rows)
