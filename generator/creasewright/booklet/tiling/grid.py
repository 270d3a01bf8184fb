"""The fewest tiles for a template: its turn and where it lies on the grid of windows.

A tile is printed if a part of the piece lies in its window. Which tiles those are changes with the turn and with the
offset of the template against the grid; tried are all offsets that bring an edge of the detail to a join, that keep a
join 15 mm from it or half way between two details, that centre the template, and a coarse sweep of those between.
Among the arrangements with the fewest tiles the one wins whose nearest join keeps farthest from fine detail (more
than 15 mm is no better), then whose outer edges keep off the frame, then no turn, then the most even margins.
"""

from itertools import pairwise
from math import ceil, floor

from msgspec import Struct

from creasewright.booklet.tiling.bands import Span, spans_in_band
from creasewright.booklet.tiling.fine_detail import fine_detail
from creasewright.booklet.tiling.inner_point import area_and_centroid
from creasewright.booklet.tiling.placing import Cell, Layout, NearJoin, Placed, place
from creasewright.booklet.tiling.spots import moved, moved_polygon, spot
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Polygon

CLEAR_OF_DETAIL = 15.0
OFF_THE_FRAME = 5.0
"""What an outer edge of the template keeps from the frame, mm, where there is room."""
ROOM_FOR_LABELS, ROOM_FOR_NAME = 32.0, 12.0
"""What a join keeps from the place of the largest panel's labels, and of any other panel's name, mm, where there is room."""
TOUCH = 0.01
"""mm; a part that reaches less far into a window is no reason to print it (the frame's own line hides more)."""
SWEEP = 12.0
NEARLY_FULL = 0.85
"""Of the box around a template: with so much filled, no more rows or columns than needed are tried."""


class _Offset(Struct, frozen=True):
    """Along one axis: the template's box starts so far into the first window."""

    at: float
    join_shortfall: float
    """How far the nearest join misses CLEAR_OF_DETAIL, mm."""
    frame_shortfall: float
    name_shortfall: float
    """How far joins miss the distance that leaves room for panels' names, mm."""
    uneven: float
    """Difference of the two outer margins, mm."""


def tile_over_pages(template: Template, window: Window) -> Layout:
    """One template on the fewest tiles."""
    best: tuple[tuple[float, ...], Placed, tuple[Cell, ...], float] | None = None
    for turn in (0, 90):
        at_origin = place(template, turn, 0.0, 0.0)
        polygon = moved_polygon(at_origin.to_grid, template.polygon)
        filled = abs(area_and_centroid(polygon)[0]) / (at_origin.width * at_origin.height)
        across, down = fine_detail(at_origin)
        names = _name_spans(at_origin)
        columns = _offsets(across, names[0], at_origin.width, window.width, filled)
        for y in _offsets(down, names[1], at_origin.height, window.height, filled):
            rows = _rows(polygon, y.at, at_origin.height, window.height)
            for x in columns:
                joins = max(x.join_shortfall, y.join_shortfall)
                rank = (
                    _count(rows, x.at, window.width),
                    round(joins, 3),
                    round(x.frame_shortfall + y.frame_shortfall, 3),
                    round(x.name_shortfall + y.name_shortfall, 3),
                    turn,
                    round(x.uneven + y.uneven, 3),
                    y.at,
                    x.at,
                )
                if best is None or rank < best[0]:
                    best = (rank, place(template, turn, x.at, y.at), _cells(rows, x.at, window.width), joins)
    assert best is not None
    _, placed, printed, joins = best
    near = (NearJoin(template.key, CLEAR_OF_DETAIL - joins),) if joins > 1e-6 and len(printed) > 1 else ()
    return Layout((placed,), printed, near)


def printed_cells(polygon: Polygon, window: Window) -> tuple[Cell, ...]:
    """The tiles that hold a part of a polygon given in the grid frame, in reading order."""
    tail = max(y for _, y in polygon)
    return _cells(_rows(polygon, 0.0, tail, window.height), 0.0, window.width)


def _name_spans(placed: Placed) -> tuple[list[Span], list[Span]]:
    """Spans that joins should leave to the names of panels, of x and of y."""
    places = [moved(placed.to_grid, spot(at)) for _, at in placed.template.panel_names]
    room = [ROOM_FOR_LABELS if k == 0 else ROOM_FOR_NAME for k in range(len(places))]
    across, down = ([(at[axis] - r, at[axis] + r) for at, r in zip(places, room, strict=True)] for axis in (0, 1))
    return across, down


def _offsets(detail: list[Span], names: list[Span], size: float, period: float, filled: float) -> list[_Offset]:
    """Offsets worth trying, from 0 to one window."""
    slack = ceil((size - TOUCH) / period) * period - size
    wanted = {0.0, slack / 2, slack, max(0.0, slack - OFF_THE_FRAME), min(OFF_THE_FRAME, slack)}
    wanted.update(step * SWEEP for step in range(ceil(period / SWEEP)))
    avoided = [0.0, size]
    for low, high in detail:
        avoided.extend((low, high, low - CLEAR_OF_DETAIL, high + CLEAR_OF_DETAIL))
    avoided.extend((before[1] + after[0]) / 2 for before, after in pairwise(detail))
    for low, high in names:
        avoided.extend((low, high))
    wanted.update(-join % period for join in avoided)
    most = slack if filled > NEARLY_FULL else period
    return [
        _judged(at, detail, names, size, period) for at in sorted({round(at, 6) for at in wanted}) if -1e-6 <= at <= most + 1e-6
    ]


def _judged(at: float, detail: list[Span], names: list[Span], size: float, period: float) -> _Offset:
    count = ceil((at + size - TOUCH) / period)
    nearest, missed = CLEAR_OF_DETAIL, 0.0
    for k in range(1, count):
        join = k * period - at
        for low, high in detail:
            nearest = min(nearest, max(low - join, join - high, 0.0))
        missed += sum(max(0.0, min(join - low, high - join)) for low, high in names)
    after = count * period - at - size
    frame = max(0.0, OFF_THE_FRAME - at) + max(0.0, OFF_THE_FRAME - after)
    return _Offset(at, CLEAR_OF_DETAIL - nearest, frame, missed, abs(at - after))


def _rows(polygon: Polygon, at: float, height: float, period: float) -> list[list[Span]]:
    """Row by row, how far the polygon reaches across; it is moved down by `at`."""
    count = ceil((at + height - TOUCH) / period)
    return [spans_in_band(polygon, k * period - at + TOUCH, (k + 1) * period - at - TOUCH) for k in range(count)]


def _columns(spans: list[Span], at: float, period: float) -> list[int]:
    found: list[int] = []
    for low, high in spans:
        first, last = floor((low + at + TOUCH) / period), ceil((high + at - TOUCH) / period) - 1
        if found:
            first = max(first, found[-1] + 1)
        found.extend(range(first, last + 1))
    return found


def _count(rows: list[list[Span]], at: float, period: float) -> int:
    return sum(len(_columns(spans, at, period)) for spans in rows)


def _cells(rows: list[list[Span]], at: float, period: float) -> tuple[Cell, ...]:
    return tuple((row, column) for row, spans in enumerate(rows) for column in _columns(spans, at, period))
