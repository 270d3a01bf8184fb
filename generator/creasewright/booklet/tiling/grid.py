"""The fewest tiles for a template: its turn and where it lies on the grid of windows.

A tile is printed if a part of the piece lies in its window. Which tiles those are changes with the turn and with the
offset of the template against the grid; tried are all offsets that bring an edge of the detail to a join, that keep a
join 15 mm from it or half way between two details, that centre the template, and a coarse sweep of those between.
Where none of these is as few as the bound (`bound.py`), other turns are tried (`slanted.py`). Among the arrangements with
the fewest tiles the one wins whose nearest join keeps farthest from fine detail (more than 15 mm is no better), then
whose outer edges keep off the frame, then no turn, then the most even margins.
"""

from itertools import pairwise
from math import ceil

from msgspec import Struct

from creasewright.booklet.tiling.bands import Span
from creasewright.booklet.tiling.bound import TOUCH, least_at, least_pages
from creasewright.booklet.tiling.fine_detail import fine_detail
from creasewright.booklet.tiling.inner_point import area_and_centroid
from creasewright.booklet.tiling.placing import COARSE, Cell, Layout, NearJoin, Placed, place
from creasewright.booklet.tiling.rows import cells_of, count_tiles, fewest_in, rows_of
from creasewright.booklet.tiling.slanted import fewest_slanted
from creasewright.booklet.tiling.spots import Spot, moved, moved_polygon, spot
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Polygon, flattened
from creasewright.problems import Problem, ProblemsFound

CLEAR_OF_DETAIL = 15.0
OFF_THE_FRAME = 5.0
"""What an outer edge of the template keeps from the frame, mm, where there is room."""
ROOM_FOR_LABELS, ROOM_FOR_NAME = 32.0, 12.0
"""What a join keeps from the place of the largest panel's labels, and of any other panel's name, mm, where there is room."""
SWEEP = 12.0
MOST_PAGES = 200
"""Of one template: nobody joins more."""
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


class _Found(Struct, frozen=True):
    """The best arrangement so far."""

    rank: tuple[float, ...]
    placed: Placed
    printed: tuple[Cell, ...]
    join_shortfall: float


def tile_over_pages(template: Template, window: Window) -> Layout:
    """One template on the fewest tiles. Raises ProblemsFound where they are more than MOST_PAGES."""
    least = least_pages(template.polygon, window)
    _refuse_if_over(least, template)
    best = _straight(template, window)
    if len(best.printed) > least:
        slant = fewest_slanted(flattened(template.outline.edges, COARSE), window, len(best.printed))
        if slant is not None:
            turn, left, head, _ = slant
            best = _arranged(template, turn, window, best, (left, head))
    _refuse_if_over(len(best.printed), template)
    short = best.join_shortfall
    near = (NearJoin(template.key, CLEAR_OF_DETAIL - short),) if short > 1e-6 and len(best.printed) > 1 else ()
    return Layout((best.placed,), best.printed, near, least=least)


def _refuse_if_over(pages: int, template: Template) -> None:
    if pages > MOST_PAGES:
        what = f"the template of `{template.name}` would take {pages} pages"
        hint = f"make the piece smaller, or mark it out with a ruler: templates go up to {MOST_PAGES} pages"
        raise ProblemsFound([Problem(template.where, what, hint)])


def _straight(template: Template, window: Window) -> _Found:
    best = _arranged(template, 0.0, window, None)
    return _arranged(template, 90.0, window, best)


def _arranged(template: Template, turn: float, window: Window, best: _Found | None, also: Spot | None = None) -> _Found:
    """The best arrangement at one turn, if it is better than `best`; `also`: an offset to try besides."""
    at_origin = place(template, turn, 0.0, 0.0)
    polygon = moved_polygon(at_origin.to_grid, template.polygon)
    area = abs(area_and_centroid(polygon)[0])
    if best is not None and least_at(polygon, area, 0.0, window) > len(best.printed):
        return best
    across, down = fine_detail(at_origin)
    names = _name_spans(at_origin)
    filled = area / (at_origin.width * at_origin.height)
    columns = _offsets(across, names[0], at_origin.width, window.width, filled, also and also[0])
    for y in _offsets(down, names[1], at_origin.height, window.height, filled, also and also[1]):
        rows = rows_of(polygon, y.at, at_origin.height, window.height)
        if best is not None and fewest_in(rows, window.width) > best.rank[0]:
            continue
        for x in columns:
            count = count_tiles(rows, x.at, window.width)
            if best is not None and count > best.rank[0]:
                continue
            rank = _rank(count, x, y, turn)
            if best is None or rank < best.rank:
                joins = max(x.join_shortfall, y.join_shortfall)
                best = _Found(rank, place(template, turn, x.at, y.at), cells_of(rows, x.at, window.width), joins)
    assert best is not None
    return best


def _rank(count: int, x: "_Offset", y: "_Offset", turn: float) -> tuple[float, ...]:
    return (
        count,
        round(max(x.join_shortfall, y.join_shortfall), 3),
        round(x.frame_shortfall + y.frame_shortfall, 3),
        round(x.name_shortfall + y.name_shortfall, 3),
        turn,
        round(x.uneven + y.uneven, 3),
        y.at,
        x.at,
    )


def printed_cells(polygon: Polygon, window: Window) -> tuple[Cell, ...]:
    """The tiles that hold a part of a polygon given in the grid frame, in reading order."""
    tail = max(y for _, y in polygon)
    return cells_of(rows_of(polygon, 0.0, tail, window.height), 0.0, window.width)


def _name_spans(placed: Placed) -> tuple[list[Span], list[Span]]:
    """Spans that joins should leave to the names of panels, of x and of y."""
    places = [moved(placed.to_grid, spot(at)) for _, at in placed.template.panel_names]
    room = [ROOM_FOR_LABELS if k == 0 else ROOM_FOR_NAME for k in range(len(places))]
    across, down = ([(at[axis] - r, at[axis] + r) for at, r in zip(places, room, strict=True)] for axis in (0, 1))
    return across, down


def _offsets(
    detail: list[Span], names: list[Span], size: float, period: float, filled: float, also: float | None = None
) -> list[_Offset]:
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
    if also is not None:
        wanted.add(also)
        most = max(most, also)
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
