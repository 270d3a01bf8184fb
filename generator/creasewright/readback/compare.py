"""Found against designed: every line of every template, on every tile, and the marks that join them; nothing missing, nothing more.
Returns facts only.

What is on a page is mapped to the blank by the tile's own map and compared there, in mm. Only lines inside the forms count
as the drawing: frame, marks and labels of the page lie outside them (`join_marks.py`).
"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, hypot

from msgspec import Struct

from creasewright.booklet.tiling.bands import merged
from creasewright.booklet.tiling.inner_point import to_segment
from creasewright.booklet.tiling.placing import Segment, clipped
from creasewright.booklet.tiling.spots import Spot, moved, moved_polygon, spot
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.template_form import OUTLINE_PEN
from creasewright.booklet.tiling.tile_templates import Rectangle, Tile
from creasewright.geometry.outline import Arc, Edge, chain_of
from creasewright.geometry.plane_transform import Affine
from creasewright.geometry.point import Point
from creasewright.readback.join_marks import ACROSS, PageLines, join_errors, neighbours, page_errors
from creasewright.readback.read_marks import FoundPath, PageMarks
from creasewright.readback.segment_index import SegmentIndex

LIMIT = 0.01
"""mm"""
LOST = 2.0
"""mm; a line farther off than this is not the line that was meant."""
SAMPLE = 3.0
"""mm between the places of a line that are looked up where no single found line covers it."""
FINE = 0.002
"""mm: how near the chords of a designed arc come to it."""
GAP = 0.02
"""mm of a line that may lie on no tile: less than the width of any pen."""
TOUCH = 0.011
"""mm; a line no farther outside a window lies on its edge: it is looked for there, and may as well be on the neighbour."""
ROUNDING = 1e-5
"""pt; a line no farther outside its clip is drawn, half of its width."""
SQUARE = 50.0


class Missed(Struct, frozen=True):
    template: str
    line: str
    """`outline`, `score page/centre`, `check square` …"""
    tile: str
    """T-2 …; empty: on no tile at all."""
    at: Spot
    """A place on the line, blank mm (of the check square: page points)."""


class TileReadBack(Struct, frozen=True):
    template: str
    page_index: int
    name: str
    largest_error_mm: float


class ReadBack(Struct, frozen=True):
    largest_error_mm: float
    """Of all lines that were found."""
    largest_square_error_mm: float
    largest_mark_error_mm: float
    """Of frames, corner crosses and combs, and of lines that run over a join."""
    joins: int
    """How many joins were looked at."""
    tiles: tuple[TileReadBack, ...]
    missing: tuple[Missed, ...]
    """Lines of the design that the file does not show."""
    unexpected: tuple[Missed, ...]
    """Lines in the file that the design does not have."""

    @property
    def true(self) -> bool:
        """Everything is there, and nothing is more than 0.01 mm off."""
        return not (self.missing or self.unexpected) and self.worst_mm <= LIMIT

    @property
    def worst_mm(self) -> float:
        return max(self.largest_error_mm, self.largest_square_error_mm, self.largest_mark_error_mm)


class WantedLine(Struct, frozen=True):
    """One line of a template: straight, or a curve as chords."""

    name: str
    corners: tuple[Spot, ...]
    curved: bool
    solid: bool = True
    """Drawn without gaps, with the outline's pen."""

    @property
    def pen_mm(self) -> float:
        return OUTLINE_PEN.width * 25.4 / 72

    @property
    def span(self) -> float:
        """mm of it that always hold ink."""
        return 0.8 if self.solid else 4.2


def compare(
    tiles: Sequence[Tile], templates: Sequence[Template], found: Sequence[PageMarks], undo: Affine | None = None
) -> ReadBack:
    """`found[k]` are the marks of template page k. `undo` takes printed page points to designed ones (a printer's profile)."""
    wanted = {template.key: wanted_lines(template) for template in templates}
    shown: dict[tuple[str, int, int], list[tuple[float, float]]] = {}
    results: list[TileReadBack] = []
    missing: list[Missed] = []
    square_errors: list[float] = []
    unexpected: list[Missed] = []
    for page_index in sorted({tile.page_index for tile in tiles}):
        on_page = [tile for tile in tiles if tile.page_index == page_index]
        paths = found[page_index].paths if page_index < len(found) else ()
        visible = _visible(paths, undo)
        for tile in on_page:
            results.append(_read_tile(tile, wanted[tile.template], visible, shown, missing))
        unexpected.extend(_unexpected(on_page, wanted, visible))
        error = _square_error(paths, on_page[0].check_square, undo)
        if error is None:
            missing.append(Missed(on_page[0].template, "check square", on_page[0].name, on_page[0].check_square[:2]))
        else:
            square_errors.append(error)
    for key, lines in wanted.items():
        missing.extend(_uncovered(key, lines, shown))
    errors = [result.largest_error_mm for result in results]
    marks, joins = _marks(tiles, found, undo, missing)
    return ReadBack(
        max(errors, default=0.0), max(square_errors, default=0.0), marks, joins, tuple(results), tuple(missing), tuple(unexpected)
    )


def _marks(
    tiles: Sequence[Tile], found: Sequence[PageMarks], undo: Affine | None, missing: list[Missed]
) -> tuple[float, int]:
    """The largest error of all that lets tiles be joined, and the count of joins; adds to `missing`."""
    lines = {k: page_lines(page.paths, undo) for k, page in enumerate(found)}
    nothing = PageLines((), (), ())
    beside: dict[int, list[str]] = {}
    worst = 0.0
    pairs = list(neighbours(tiles))
    for one, side, other in pairs:
        beside.setdefault(one.page_index, []).append(side)
        beside.setdefault(other.page_index, []).append(ACROSS[side])
        ours, theirs = lines.get(one.page_index, nothing), lines.get(other.page_index, nothing)
        errors = join_errors(one, side, ours, other, theirs)
        worst = max(worst, errors.largest_mm)
        missing.extend(Missed(one.template, name, one.name, one.window[:2]) for name in errors.lost)
    for tile in {tile.page_index: tile for tile in tiles}.values():
        errors = page_errors(tile, beside.get(tile.page_index, []), lines.get(tile.page_index, nothing))
        worst = max(worst, errors.largest_mm)
        missing.extend(Missed(tile.template, name, tile.name, tile.window[:2]) for name in errors.lost)
    return worst, len(pairs)


def page_lines(paths: Sequence[FoundPath], undo: Affine | None = None) -> PageLines:
    """What is stroked on a page, at designed size."""
    own: list[Segment] = []
    boxes: list[Rectangle] = []
    for path in paths:
        if not path.stroked or path.form:
            continue
        corners = moved_polygon(undo, path.corners) if undo else path.corners
        own.extend((*a, *b) for a, b in pairwise(corners))
        if len(corners) == 5 and corners[0] == corners[-1]:
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            boxes.append((min(xs), min(ys), max(xs), max(ys)))
    return PageLines(tuple(own), tuple(boxes), tuple(_visible(paths, undo)))


def wanted_lines(template: Template) -> list[WantedLine]:
    """Every line that must be drawn, blank mm."""
    lines = [_edge("outline", edge) for edge in template.outline.edges]
    lines += [_edge(f"score {score.name}", score.edge, solid=False) for score in template.scores]
    lines += [_edge(f"place {place.name}", place.edge, solid=False) for place in template.places]
    lines += [WantedLine(f"slit {slit.name}", (spot(slit.start), spot(slit.end)), False) for slit in template.slits]
    for hole in template.holes:
        (x, y), r = spot(hole.centre), float(hole.across) / 2
        west, east, centre = Point(x - r, y), Point(x + r, y), Point(x, y)
        for arc in (Arc(west, east, centre, True), Arc(east, west, centre, True)):
            lines.append(_edge(f"hole {hole.name}", arc))
    return lines


def _edge(name: str, edge: Edge, solid: bool = True) -> WantedLine:
    return WantedLine(name, chain_of(edge, FINE), isinstance(edge, Arc), solid)


def _visible(paths: Sequence[FoundPath], undo: Affine | None) -> list[Segment]:
    """The stroked lines inside forms, cut to what their clip lets through; page points."""
    lines: list[Segment] = []
    for path in paths:
        if not (path.stroked and path.form):
            continue
        corners = moved_polygon(undo, path.corners) if undo else path.corners
        left, tail, right, head = _undone(path.clip, undo)
        for a, b in pairwise(corners):
            part = clipped((*a, *b), left - ROUNDING, tail - ROUNDING, right + ROUNDING, head + ROUNDING)
            if part:
                lines.append(part)
    return lines


def _undone(clip: Rectangle, undo: Affine | None) -> Rectangle:
    return (*moved(undo, clip[:2]), *moved(undo, clip[2:])) if undo else clip


def _read_tile(
    tile: Tile,
    wanted: list[WantedLine],
    visible: list[Segment],
    shown: dict[tuple[str, int, int], list[tuple[float, float]]],
    missing: list[Missed],
) -> TileReadBack:
    lines = SegmentIndex([mapped(tile.to_blank, line) for line in visible])
    worst = 0.0
    for k, line in enumerate(wanted):
        for j, (a, b) in enumerate(pairwise(line.corners)):
            inside = shown_by(tile, (*a, *b))
            part = inside or on_edge_of(tile, (*a, *b))
            if part is None:
                continue
            error, at = _error(part, lines, line.curved)
            if inside is None and error > TOUCH / 2:
                continue
            if error > LOST:
                missing.append(Missed(tile.template, line.name, tile.name, at))
                continue
            worst = max(worst, error)
            shown.setdefault((tile.template, k, j), []).append(_part_of((*a, *b), part))
    return TileReadBack(tile.template, tile.page_index, tile.name, worst)


def shown_by(tile: Tile, line: Segment, around: float = 0.0) -> Segment | None:
    """The part of a line of the blank that lies in a tile's window, whichever way the template is turned; `around`: in the window
    grown by so many mm."""
    left, tail, right, head = tile.window
    grown = around * 72 / 25.4
    part = clipped(mapped(tile.to_blank.inverse(), line), left - grown, tail - grown, right + grown, head + grown)
    return mapped(tile.to_blank, part) if part else None


def on_edge_of(tile: Tile, line: Segment) -> Segment | None:
    """The part of a line that lies along a window's edge, just outside it by rounding; its ends cut back to where the window ends."""
    part = shown_by(tile, line, TOUCH)
    if part is None:
        return None
    length = hypot(part[2] - part[0], part[3] - part[1])
    if length <= 3 * TOUCH:
        return None
    x, y = (part[2] - part[0]) / length * TOUCH, (part[3] - part[1]) / length * TOUCH
    return part[0] + x, part[1] + y, part[2] - x, part[3] - y


def mapped(to_blank: Affine, line: Segment) -> Segment:
    return (*moved(to_blank, line[:2]), *moved(to_blank, line[2:]))


def _error(part: Segment, lines: SegmentIndex, curved: bool) -> tuple[float, Spot]:
    """How far the farthest place of a line lies from what was found, and that place.

    The distance from a place moving along a line to a straight piece has no maximum inside (it is convex), so one found
    piece near both ends is near all of the line; else the line is looked up place by place.
    """
    ends = (part[:2], part[2:])
    near = lines.near(part, LOST)
    if not near:
        return LOST + 1, ends[0]
    whole = min(max(to_segment(end, line[:2], line[2:]) for end in ends) for line in near)
    if whole <= LIMIT / 10:
        return whole, ends[0]
    count = 1 if curved else max(1, ceil(hypot(part[2] - part[0], part[3] - part[1]) / SAMPLE))
    places = [(part[0] + (part[2] - part[0]) * k / count, part[1] + (part[3] - part[1]) * k / count) for k in range(count + 1)]
    return max((min(to_segment(at, line[:2], line[2:]) for line in near), at) for at in places)


def _part_of(whole: Segment, part: Segment) -> tuple[float, float]:
    """From where to where along the whole, mm."""
    x, y = whole[:2]
    return hypot(part[0] - x, part[1] - y), hypot(part[2] - x, part[3] - y)


def _uncovered(key: str, lines: list[WantedLine], shown: dict[tuple[str, int, int], list[tuple[float, float]]]) -> list[Missed]:
    """Stretches of lines that no tile shows."""
    lost: list[Missed] = []
    for k, line in enumerate(lines):
        for j, (a, b) in enumerate(pairwise(line.corners)):
            length = hypot(b[0] - a[0], b[1] - a[1])
            reached = 0.0
            for low, high in [*merged(shown.get((key, k, j), [])), (length, length)]:
                if low - reached > GAP:
                    t = (reached + low) / 2 / length
                    lost.append(Missed(key, line.name, "", (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))))
                reached = max(reached, high)
    return lost


def _unexpected(tiles: list[Tile], wanted: dict[str, list[WantedLine]], visible: list[Segment]) -> list[Missed]:
    """Found lines of which an end or the middle lies on no line of any template of the page."""
    designed = [(tile.to_blank, _index_of(wanted[tile.template])) for tile in tiles]
    found: list[Missed] = []
    for line in visible:
        middle = ((line[0] + line[2]) / 2, (line[1] + line[3]) / 2)
        for at in (line[:2], middle, line[2:]):
            if not any(_is_on_a_line(moved(to_blank, at), index) for to_blank, index in designed):
                found.append(Missed(tiles[0].template, "line", tiles[0].name, moved(tiles[0].to_blank, at)))
                break
    return found


def _index_of(lines: list[WantedLine]) -> SegmentIndex:
    return SegmentIndex([(*a, *b) for line in lines for a, b in pairwise(line.corners)])


def _is_on_a_line(at: Spot, index: SegmentIndex) -> bool:
    return any(to_segment(at, line[:2], line[2:]) <= LIMIT for line in index.near((*at, *at), LIMIT))


def _square_error(paths: Sequence[FoundPath], where: Rectangle, undo: Affine | None) -> float | None:
    """How far the sides of the square found at its place are from 50 mm; None if none is there."""
    mm = 25.4 / 72
    best: float | None = None
    for path in paths:
        if not path.stroked or path.form or len(path.corners) != 5 or path.corners[0] != path.corners[-1]:
            continue
        corners = moved_polygon(undo, path.corners) if undo else path.corners
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        box = (min(xs), min(ys), max(xs), max(ys))
        if max(abs(a - b) for a, b in zip(box, where, strict=True)) * mm > LOST:
            continue
        sides = [hypot(b[0] - a[0], b[1] - a[1]) * mm for a, b in pairwise(corners)]
        error = max(abs(side - SQUARE) for side in sides)
        best = error if best is None else min(best, error)
    return best
