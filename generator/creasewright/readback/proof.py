"""Templates measured on the raster of the finished pages, as a sharp eye with a lens would: every line across its way, the check
squares, and how the lines of neighbouring tiles meet. Returns facts only; all in mm at designed size.

Of each line of a template, places are measured that no other line comes near. The ink's middle across the line is compared with the
design; solid lines are also walked from end to end for gaps, over all tiles together.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from msgspec import Struct

from creasewright.booklet.tiling.bands import merged
from creasewright.booklet.tiling.inner_point import to_segment
from creasewright.booklet.tiling.placing import Segment
from creasewright.booklet.tiling.spots import Spot, moved
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.tile_templates import Tile
from creasewright.geometry.plane_transform import Affine
from creasewright.readback.compare import WantedLine, mapped, on_edge_of, page_lines, shown_by, wanted_lines
from creasewright.readback.profile import REACH, along, offset_of_ink
from creasewright.readback.raster import PageRaster
from creasewright.readback.read_marks import PageMarks
from creasewright.readback.segment_index import SegmentIndex

LIMIT = 0.1
"""mm"""
EVERY = 6.0
"""mm between the places of a line that are measured."""
IN_SPAN = 7
"""Readings in a span."""
CLEAR = REACH + 0.45
"""mm that every other line keeps from a place that is measured."""
SAME = 0.02
"""mm; a stroke nearer than this is the line itself."""
BLOT = 0.15
"""mm; ink so much wider than the pen of a dashed line is a letter beside it, or the line twice: no place to measure. A line with no
other place is told as lost."""
WALK = 0.1
"""mm from place to place when a line is walked for gaps."""
ENOUGH = 60.0
"""Ink of 255 that makes a place of a solid line whole."""
SQUARE, TICK_EVERY = 50.0, 1.0
Undo = Affine | None


class NoInk(Struct, frozen=True):
    """A line that the raster does not show, or a gap in it."""

    template: str
    line: str
    tile: str
    """Empty: a gap, over all tiles together."""
    at: Spot
    """Blank mm."""
    long: float
    """mm of a gap; 0: nothing was found where the line should be."""


class Proof(Struct, frozen=True):
    largest_error_mm: float
    largest_square_error_mm: float
    largest_join_error_mm: float
    """Between the two pictures of a line on both sides of a join."""
    widest_mm: float
    """How much wider than its pen a solid line is anywhere: a line drawn twice, or smeared."""
    places: int
    """How many were measured."""
    joins: int
    """How many lines over joins were measured on both sides."""
    lost: tuple[NoInk, ...]

    @property
    def worst_mm(self) -> float:
        return max(self.largest_error_mm, self.largest_square_error_mm, self.largest_join_error_mm)

    @property
    def true(self) -> bool:
        return not self.lost and max(self.worst_mm, self.widest_mm) <= LIMIT


class _Page(Struct, frozen=True):
    """A tile's raster seen from the blank."""

    tile: Tile
    raster: PageRaster
    from_blank: tuple[float, float, float, float, float, float]
    """Blank mm to mm of the printed page, y down."""
    others: SegmentIndex
    """Every line that should be on the page, and every stroke of its marks; blank mm."""

    def ink(self, x: float, y: float) -> float:
        a, b, c, d, e, f = self.from_blank
        return self.raster.ink(a * x + c * y + e, b * x + d * y + f)


class _Tally(Struct):
    """Mutable: what has been measured so far."""

    error: float = 0.0
    square: float = 0.0
    widest: float = 0.0
    places: int = 0
    lost: list[NoInk] = []
    whole: dict[tuple[str, int, int], list[tuple[float, float]]] = {}
    """Of each piece of a solid line: from where to where it is inked, mm."""
    at_joins: dict[tuple[str, int, int, int], list[float]] = {}
    """Offsets on both sides of a join: of the piece of line, and where on it in tenths of a mm."""


def prove(
    tiles: Sequence[Tile],
    templates: Sequence[Template],
    found: Sequence[PageMarks],
    rasters: Iterable[PageRaster],
    undo: Undo = None,
) -> Proof:
    """`found` and `rasters`: template page by page. `undo` takes printed page points to designed ones (a printer's profile)."""
    wanted = {template.key: wanted_lines(template) for template in templates}
    tally = _Tally()
    for index, raster in enumerate(rasters):
        on_page = [tile for tile in tiles if tile.page_index == index]
        strokes = [*page_lines(found[index].paths, undo).own]
        for tile in on_page:
            strokes.extend(_designed(tile, wanted[tile.template]))
        for tile in on_page:
            page = _page(tile, raster, found[index].height, strokes, undo)
            for k, line in enumerate(wanted[tile.template]):
                _measure_line(page, k, line, tally)
        for tile in on_page[:1]:
            error = _square_error(_page(tile, raster, found[index].height, (), undo))
            tally.square = max(tally.square, error)
    for key, those in wanted.items():
        tally.lost.extend(_gaps(key, those, tally.whole))
    pairs = [offsets for offsets in tally.at_joins.values() if len(offsets) == 2]
    joins = max((abs(a - b) for a, b in pairs), default=0.0)
    return Proof(tally.error, tally.square, joins, tally.widest, tally.places, len(pairs), tuple(tally.lost))


def _designed(tile: Tile, lines: Sequence[WantedLine]) -> list[Segment]:
    """What a tile should show, in page points."""
    back = tile.to_blank.inverse()
    pieces = [(*a, *b) for line in lines for a, b in pairwise(line.corners)]
    return [mapped(back, part) for part in (shown_by(tile, piece) for piece in pieces) if part]


def _page(tile: Tile, raster: PageRaster, height: float, strokes: Sequence[Segment], undo: Undo) -> _Page:
    mm = 25.4 / 72
    to_mm = Affine(mm, 0.0, 0.0, -mm, 0.0, height * mm)
    printed = tile.to_blank.inverse().then(undo.inverse()) if undo else tile.to_blank.inverse()
    others = SegmentIndex([mapped(tile.to_blank, line) for line in strokes])
    return _Page(tile, raster, Affine(*printed.floats()).then(to_mm).floats(), others)


# --- lines


def _measure_line(page: _Page, k: int, line: WantedLine, tally: _Tally) -> None:
    """Every piece of one line that this tile shows."""
    seen = tried = 0
    first: Spot | None = None
    for j, (a, b) in enumerate(pairwise(line.corners)):
        inside = shown_by(page.tile, (*a, *b))
        part = inside or on_edge_of(page.tile, (*a, *b))
        if part is None or part[:2] == part[2:]:
            continue
        if line.solid:
            tally.whole.setdefault((page.tile.template, k, j), []).extend(_inked(page, (*a, *b), part))
        if inside is None:
            continue
        first = first or part[:2]
        for at in _places(part, line.curved, line.span):
            got = _offset(page, at, line, part)
            if got is None:
                continue
            tried += 1
            offset, wide, inked = got
            if not inked or (not line.solid and wide > line.pen_mm + BLOT):
                continue
            seen += 1
            tally.error = max(tally.error, abs(offset))
            if line.solid:
                tally.widest = max(tally.widest, wide - line.pen_mm)
        for end in (part[:2], part[2:]):
            _measure_join(page, (k, j), (*a, *b), end, line, tally)
    tally.places += seen
    if tried and not seen and first is not None:
        tally.lost.append(NoInk(page.tile.template, line.name, page.tile.name, first, 0.0))


def _places(part: Segment, curved: bool, span: float) -> list[Spot]:
    """Along a straight piece every few mm, half a span from its ends; of a chord its middle."""
    (ux, uy), _, length = along(part[:2], part[2:])
    if curved:
        return [(part[0] + ux * length / 2, part[1] + uy * length / 2)]
    room = length - span
    if room < 0:
        return []
    count = int(room / EVERY)
    steps = [span / 2 + (room * k / count if count else room / 2) for k in range(count + 1)]
    return [(part[0] + ux * at, part[1] + uy * at) for at in steps]


def _offset(page: _Page, at: Spot, line: WantedLine, part: Segment) -> tuple[float, float, bool] | None:
    """Offset, width at half depth, and whether there is ink at all; None where another line is too near to tell."""
    (ux, uy), normal, length = along(part[:2], part[2:])
    half = min(line.span, length) / 2
    reach = CLEAR + half
    for other in page.others.near((*at, *at), reach):
        near = to_segment(at, other[:2], other[2:])
        if near < reach and not _is_same(line, other, at):
            return None
    spots = [(at[0] + ux * half * s, at[1] + uy * half * s) for s in (k * 2 / (IN_SPAN - 1) - 1 for k in range(IN_SPAN))]
    got = offset_of_ink(page.ink, spots, normal)
    return (*got, True) if got else (0.0, 0.0, False)


def _is_same(line: WantedLine, other: Segment, at: Spot) -> bool:
    """A stroke that is this very line: both its ends lie on it."""
    return all(
        any(to_segment(end, a, b) < SAME for a, b in pairwise(line.corners)) for end in (other[:2], other[2:])
    )


def _inked(page: _Page, whole: Segment, part: Segment) -> list[tuple[float, float]]:
    """The stretches of a solid piece that are inked, as distances along the whole of it."""
    (ux, uy), _, length = along(part[:2], part[2:])
    begin = along(whole[:2], part[:2])[2] if part[:2] != whole[:2] else 0.0
    count = max(1, round(length / WALK))
    found: list[tuple[float, float]] = []
    for k in range(count + 1):
        at = length * k / count
        if page.ink(part[0] + ux * at, part[1] + uy * at) >= ENOUGH:
            found.append((begin + at - WALK / 2, begin + at + WALK / 2))
    return merged(found)


def _gaps(key: str, lines: Sequence[WantedLine], inked: dict[tuple[str, int, int], list[tuple[float, float]]]) -> list[NoInk]:
    """Stretches of solid lines over 0.1 mm that no tile shows as ink."""
    found: list[NoInk] = []
    for k, line in enumerate(lines):
        if not line.solid:
            continue
        for j, (a, b) in enumerate(pairwise(line.corners)):
            (ux, uy), _, length = along(a, b)
            reached = 0.0
            for low, high in [*merged(inked.get((key, k, j), [])), (length, length)]:
                if low - reached > LIMIT:
                    middle = (reached + low) / 2
                    found.append(NoInk(key, line.name, "", (a[0] + ux * middle, a[1] + uy * middle), low - reached))
                reached = max(reached, high)
    return found


# --- joins


def _measure_join(page: _Page, piece: tuple[int, int], whole: Segment, end: Spot, line: WantedLine, tally: _Tally) -> None:
    """Where a straight piece runs on over a join: its offset just within this tile."""
    (ux, uy), normal, length = along(whole[:2], whole[2:])
    at = (end[0] - whole[0]) * ux + (end[1] - whole[1]) * uy
    if line.curved or min(at, length - at) < 0.5:
        return
    middle = ((page.tile.window[0] + page.tile.window[2]) / 2, (page.tile.window[1] + page.tile.window[3]) / 2)
    inner = moved(page.tile.to_blank, middle)
    x, y = moved(page.tile.to_blank.inverse(), end)
    px, py = moved(page.tile.to_blank.inverse(), (end[0] + ux, end[1] + uy))
    left, tail, right, head = page.tile.window
    edge = min(abs(x - left), abs(x - right)) < min(abs(y - tail), abs(y - head))
    rises = abs(px - x) if edge else abs(py - y)
    steep = rises / max(1e-9, ((px - x) ** 2 + (py - y) ** 2) ** 0.5)
    if steep < 0.35:
        return
    way = 1.0 if (inner[0] - end[0]) * ux + (inner[1] - end[1]) * uy > 0 else -1.0
    near = (CLEAR + 0.2) / steep
    far = near + line.span
    if not 0 <= at + way * far <= length:
        return
    spots = [
        (end[0] + ux * way * d, end[1] + uy * way * d) for d in (near + (far - near) * s / (IN_SPAN - 1) for s in range(IN_SPAN))
    ]
    for other in page.others.near((*spots[0], *spots[-1]), CLEAR):
        if min(to_segment(spot, other[:2], other[2:]) for spot in spots) < REACH + 0.2 and not _is_same(line, other, end):
            return
    got = offset_of_ink(page.ink, spots, normal)
    if got:
        tally.at_joins.setdefault((page.tile.template, *piece, round(at * 10)), []).append(got[0])


# --- the check square


def _square_error(page: _Page) -> float:
    """How far the square's width and height are from 50 mm; the sides are read between their ticks."""
    left, tail, right, head = page.tile.check_square
    corners = {
        "left": ((left, tail), (left, head)),
        "right": ((right, tail), (right, head)),
        "tail": ((left, tail), (right, tail)),
        "head": ((left, head), (right, head)),
    }
    at = {}
    for side, (a, b) in corners.items():
        start, end = moved(page.tile.to_blank, a), moved(page.tile.to_blank, b)
        offsets = _side_offsets(page, start, end)
        if not offsets:
            return SQUARE
        at[side] = sorted(offsets)[len(offsets) // 2]
    return max(abs(_apart(page, corners, at, one, two) - SQUARE) for one, two in (("left", "right"), ("tail", "head")))


def _side_offsets(page: _Page, start: Spot, end: Spot) -> list[float]:
    (ux, uy), normal, _ = along(start, end)
    found = []
    for k in range(10, 40):
        at = (k + 0.5) * TICK_EVERY
        got = offset_of_ink(page.ink, [(start[0] + ux * at, start[1] + uy * at)], normal)
        if got:
            found.append(got[0])
    return found


def _apart(
    page: _Page, corners: dict[str, tuple[Spot, Spot]], at: dict[str, float], one: str, two: str
) -> float:
    """mm between two opposite sides as inked: both run the same way, so that their offsets lie along one normal."""
    starts = [moved(page.tile.to_blank, corners[side][0]) for side in (one, two)]
    _, (nx, ny), _ = along(starts[0], moved(page.tile.to_blank, corners[one][1]))
    dx, dy = starts[1][0] - starts[0][0], starts[1][1] - starts[0][1]
    return abs(dx * nx + dy * ny + at[two] - at[one])
