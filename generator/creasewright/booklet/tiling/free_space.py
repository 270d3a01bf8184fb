"""Where on a page nothing is drawn yet: a raster of 1 mm cells over a box, one whole number a row, one bit a cell.

Lines are marked cell by cell, labels and marks as boxes; questions are answered by shifting and joining whole rows, so that the
largest empty square of a page is found in a few thousand operations. Answers are on the safe side by up to a cell.
"""

from functools import cache
from math import ceil, floor, hypot
from operator import and_

from creasewright.booklet.tiling.placing import Segment, clipped
from creasewright.geometry.outline import Polygon

CELL = 1.0
"""mm"""
STEP = 0.45
"""mm between the places of a line that are marked."""
Box = tuple[float, float, float, float]
"""Left, head, right, tail, mm."""


class FreeSpace:
    """Mutable: each thing placed is marked, so that the next keeps off it. Coordinates in mm of the page."""

    def __init__(self, left: float, head: float, right: float, tail: float) -> None:
        self.left, self.head = left, head
        self.columns, self.rows = floor((right - left) / CELL), floor((tail - head) / CELL)
        self.taken = [0] * self.rows

    def copy(self) -> "FreeSpace":
        other = FreeSpace(self.left, self.head, self.left + self.columns * CELL, self.head + self.rows * CELL)
        other.taken = list(self.taken)
        return other

    def mark_line(self, segment: Segment) -> None:
        part = clipped(segment, self.left, self.head, self.left + self.columns * CELL, self.head + self.rows * CELL)
        if part is None:
            return
        ends = sorted(((part[1] - self.head) / CELL, (part[0] - self.left) / CELL) for part in (part[:2], part[2:]))
        (y0, x0), (y1, x1) = ends
        rows = range(min(floor(y0), self.rows - 1), min(floor(y1), self.rows - 1) + 1)
        if x0 == x1:
            column = 1 << max(min(floor(x0), self.columns - 1), 0)
            for row in rows:
                self.taken[row] |= column
            return
        lean = (x1 - x0) / (y1 - y0) if y1 > y0 else 0.0
        for row in rows:
            enters = x0 + lean * (row - y0) if row > y0 else x0
            leaves = x0 + lean * (row + 1 - y0) if row + 1 < y1 else x1
            first = min(floor(min(enters, leaves)), self.columns - 1)
            last = min(floor(max(enters, leaves)), self.columns - 1)
            self.taken[row] |= ((1 << (last - first + 1)) - 1) << max(first, 0)

    def mark_box(self, box: Box) -> None:
        rows, mask = self._cells(box)
        for row in rows:
            self.taken[row] |= mask

    def mark_polygon(self, polygon: Polygon) -> None:
        """Every row of cells between the polygon's borders, at the middle of the row."""
        crossings: list[list[float]] = [[] for _ in range(self.rows)]
        x0, y0 = polygon[-1]
        for x1, y1 in polygon:
            if y0 != y1:
                low, high = (y0, y1) if y0 < y1 else (y1, y0)
                lean = (x1 - x0) / (y1 - y0)
                # the rows whose middle lies from `low` (with it) to `high` (without it)
                first = max(0, ceil((low - self.head) / CELL - 0.5))
                for row in range(first, min(self.rows, ceil((high - self.head) / CELL - 0.5))):
                    crossings[row].append(x0 + (self.head + (row + 0.5) * CELL - y0) * lean)
            x0, y0 = x1, y1
        for row, found in enumerate(crossings):
            found.sort()
            level = self.head + (row + 0.5) * CELL
            for left, right in zip(found[::2], found[1::2], strict=True):
                self.mark_box((left, level - CELL / 4, right, level + CELL / 4))

    def is_free(self, box: Box) -> bool:
        """Wholly within the raster, and nothing drawn in it."""
        if box[0] < self.left or box[1] < self.head:
            return False
        if box[2] > self.left + self.columns * CELL or box[3] > self.head + self.rows * CELL:
            return False
        rows, mask = self._cells(box)
        return not any(self.taken[row] & mask for row in rows)

    def sees(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """No cell between the two places is taken."""
        count = max(1, ceil(hypot(end[0] - start[0], end[1] - start[1]) / STEP))
        for k in range(count + 1):
            column = floor((start[0] + (end[0] - start[0]) * k / count - self.left) / CELL)
            row = floor((start[1] + (end[1] - start[1]) * k / count - self.head) / CELL)
            if 0 <= row < self.rows and 0 <= column < self.columns and self.taken[row] >> column & 1:
                return False
        return True

    def nearest_free(
        self, centre: tuple[float, float], width: float, height: float, reach: float, seen_past: "FreeSpace | None" = None
    ) -> tuple[float, float] | None:
        """The centre of the nearest free box of that size whose centre is no farther than `reach` mm, or None.

        With `seen_past`, nothing that it holds may lie between the two centres.
        """
        x, y = centre
        columns, first_column = _span(x - self.left, width)
        rows, first_row = _span(y - self.head, height)
        starts = self._starts(columns, rows)
        if not any(starts):
            return None
        for dx, dy in _rings(ceil(reach / CELL)):
            if hypot(dx, dy) * CELL > reach:
                break
            row, column = first_row + dy, first_column + dx
            if 0 <= row < len(starts) and column >= 0 and starts[row] >> column & 1:
                found = (x + dx * CELL, y + dy * CELL)
                if seen_past is None or seen_past.sees(centre, found):
                    return found
        return None

    def first_free(self, width: float, height: float) -> tuple[float, float] | None:
        """The head-left corner of the free box of that size nearest the head, then nearest the left."""
        columns, rows = ceil(width / CELL), ceil(height / CELL)
        if columns > self.columns or rows > self.rows:
            return None
        for row, bits in enumerate(self._starts(columns, rows)):
            if bits:
                return self.left + ((bits & -bits).bit_length() - 1) * CELL, self.head + row * CELL
        return None

    def holds_square(self, side: float) -> bool:
        """Some square of `side` mm is free."""
        cells = ceil(side / CELL)
        return cells <= min(self.columns, self.rows) and any(self._starts(cells, cells))

    def emptiest_square(self, least: float) -> tuple[float, float, float] | None:
        """Centre and side of the largest free square, or None if none is `least` mm; among equals the one nearest the middle."""
        low, high = ceil(least / CELL), min(self.columns, self.rows)
        best = self._starts(low, low) if low <= high else []
        if not any(best):
            return None
        while low < high:
            middle = (low + high + 1) // 2
            starts = self._starts(middle, middle)
            if any(starts):
                low, best = middle, starts
            else:
                high = middle - 1
        places = [(row, column) for row, bits in enumerate(best) for column in _ones(bits)]
        row, column = min(places, key=lambda at: (hypot(at[1] + low / 2 - self.columns / 2, at[0] + low / 2 - self.rows / 2), at))
        return self.left + (column + low / 2) * CELL, self.head + (row + low / 2) * CELL, low * CELL

    def _cells(self, box: Box) -> tuple[range, int]:
        first, last = max(0, floor((box[0] - self.left) / CELL)), min(self.columns, ceil((box[2] - self.left) / CELL))
        top, bottom = max(0, floor((box[1] - self.head) / CELL)), min(self.rows, ceil((box[3] - self.head) / CELL))
        return range(top, bottom), ((1 << max(0, last - first)) - 1) << first

    def _starts(self, columns: int, rows: int) -> list[int]:
        """Row by row, the cells at which a free box of so many cells has its head-left corner."""
        full = (1 << self.columns) - 1
        known = {taken: _run_starts(~taken & full, columns) for taken in set(self.taken)}
        starts = [known[taken] for taken in self.taken]
        done = 1
        while done < rows:
            step = min(done, rows - done)
            starts = list(map(and_, starts, starts[step:]))
            done += step
        return starts


def _span(middle: float, size: float) -> tuple[int, int]:
    """How many cells a stretch touches, and the first of them."""
    first, last = floor((middle - size / 2) / CELL), ceil((middle + size / 2) / CELL)
    return last - first, first


def _run_starts(free: int, side: int) -> int:
    """The bits at which a run of `side` ones begins."""
    done = 1
    while done < side and free:
        step = done if done < side - done else side - done
        free &= free >> step
        done += step
    return free


def _ones(bits: int) -> list[int]:
    return [k for k in range(bits.bit_length()) if bits >> k & 1]


@cache
def _rings(reach: int) -> tuple[tuple[int, int], ...]:
    """Steps of 2 cells within a reach, nearest first; sideways before up and down."""
    steps = range(-(reach // 2) * 2, reach + 1, 2)
    return tuple(
        sorted(((dx, dy) for dx in steps for dy in steps), key=lambda at: (at[0] ** 2 + at[1] ** 2, at[1] ** 2, at[1], at[0]))
    )
