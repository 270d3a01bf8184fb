"""Which tiles hold a part of a polygon, row by row."""

from math import ceil, floor

from creasewright.booklet.tiling.bands import Span, spans_in_band
from creasewright.booklet.tiling.bound import TOUCH
from creasewright.booklet.tiling.placing import Cell
from creasewright.geometry.outline import Polygon


def rows_of(polygon: Polygon, at: float, height: float, period: float) -> list[list[Span]]:
    """Row by row, how far the polygon reaches across; it is moved down by `at`."""
    count = ceil((at + height - TOUCH) / period)
    return [spans_in_band(polygon, k * period - at + TOUCH, (k + 1) * period - at - TOUCH) for k in range(count)]


def columns_of(spans: list[Span], at: float, period: float) -> list[int]:
    """The columns of one row that are printed, the polygon moved right by `at`."""
    found: list[int] = []
    for low, high in spans:
        first, last = floor((low + at + TOUCH) / period), ceil((high + at - TOUCH) / period) - 1
        if found:
            first = max(first, found[-1] + 1)
        found.extend(range(first, last + 1))
    return found


def count_tiles(rows: list[list[Span]], at: float, period: float) -> int:
    count = 0
    for spans in rows:
        last = -1
        for low, high in spans:
            first = max(floor((low + at + TOUCH) / period), last + 1)
            end = ceil((high + at - TOUCH) / period) - 1
            if end >= first:
                count += end - first + 1
                last = end
    return count


def fewest_in(rows: list[list[Span]], period: float) -> int:
    """No offset across takes fewer tiles: each row as many as its longest part asks for."""
    return sum(max(1, max(ceil((high - low - 2 * TOUCH) / period) for low, high in spans)) for spans in rows if spans)


def cells_of(rows: list[list[Span]], at: float, period: float) -> tuple[Cell, ...]:
    """In reading order."""
    return tuple((row, column) for row, spans in enumerate(rows) for column in columns_of(spans, at, period))
