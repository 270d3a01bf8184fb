"""The dimensions round a piece: one chain a side, the shortest nearest to the piece, longer ones outward, none over another."""

from collections.abc import Sequence
from math import hypot, inf

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.dimension_line import (
    BEYOND,
    CLEAR,
    GAP,
    STUB,
    DimensionLine,
    clear_place,
    dimension_items,
    extension_start,
    place_value,
    take_dimension,
    value_size,
)
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.plan_work import Work
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Dimension, Spot
from creasewright.booklet.drawing import Item
from creasewright.booklet.text_ruler import TextRuler

FIRST = 6.5
"""mm from the piece to the first line, more where a value needs it."""
ON_AXIS = 0.02
"""A dimension is square to the page if it strays by less than this share of its length."""
TOGETHER = 3.0
"""mm: measures on one side with no more than this between them are one chain."""
ALIGNED = 3.0
"""mm: chains that would differ by no more than this in their distance stand on one line."""
OUTWARD: dict[str, Spot] = {"head": (0.0, -1.0), "tail": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


class PageDimension(Struct, frozen=True):
    """A dimension on the page, in mm from the scene's origin."""

    start: Spot
    end: Spot
    text: str
    side: str

    @property
    def length(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


def page_dimension(dimension: Dimension, scale: float) -> PageDimension:
    """Scaled; a dimension named for a side along which it does not run goes to a side where it does."""
    a, b = ((x * scale, y * scale) for x, y in (dimension.start, dimension.end))
    wide, tall = abs(b[0] - a[0]), abs(b[1] - a[1])
    side = dimension.side
    if side in ("head", "tail") and wide < ON_AXIS * tall:
        side = "right"
    elif side in ("left", "right") and tall < ON_AXIS * wide:
        side = "tail"
    return PageDimension(a, b, dimension.text, side)


def chain_items(dimensions: Sequence[PageDimension], work: Work, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """All dimensions outside the piece, drawn and taken."""
    items: list[Item] = []
    for side in ("tail", "head", "left", "right"):
        mine = [dim for dim in dimensions if dim.side == side]
        items += _side_items(side, [dim for dim in mine if _on_axis(dim)], work, room, ruler, style)
        for dim in mine:
            if not _on_axis(dim):
                items += _slanting(dim, work, room, ruler, style)
    return items


def inner_items(
    dimensions: Sequence[PageDimension], room: Room, ruler: TextRuler, style: PictureStyle
) -> tuple[list[Item], list[PageDimension]]:
    """Dimensions drawn right between their points, within the piece; and those whose value has no clear place there."""
    items: list[Item] = []
    left: list[PageDimension] = []
    for dim in dimensions:
        ux, uy = _way(dim)
        outward = (-uy, ux) if ux >= 0 else (uy, -ux)
        line = DimensionLine(dim.start, dim.end, (dim.start, dim.end), outward, dim.text)
        place = clear_place(line, room, ruler, style)
        if place is None:
            left.append(dim)
            continue
        items += dimension_items(line, place, ruler, style, set())
        take_dimension(line, place, room, ruler, style)
    return items, left


def outside(dim: PageDimension, body: Box) -> PageDimension:
    """The same dimension carried out to the nearest side along which it runs."""
    wide, tall = abs(dim.end[0] - dim.start[0]), abs(dim.end[1] - dim.start[1])
    middle = (dim.start[0] + dim.end[0]) / 2, (dim.start[1] + dim.end[1]) / 2
    if tall > wide:
        side = "left" if middle[0] - body.x0 < body.x1 - middle[0] else "right"
    else:
        side = "head" if middle[1] - body.y0 < body.y1 - middle[1] else "tail"
    return replace(dim, side=side)


def _way(dim: PageDimension) -> Spot:
    size = dim.length or 1.0
    return (dim.end[0] - dim.start[0]) / size, (dim.end[1] - dim.start[1]) / size


def _on_axis(dim: PageDimension) -> bool:
    across = 1 if dim.side in ("head", "tail") else 0
    return abs(dim.end[across] - dim.start[across]) < ON_AXIS * dim.length + 1e-3


def _span(dim: PageDimension) -> tuple[float, float]:
    axis = 0 if dim.side in ("head", "tail") else 1
    low, high = sorted((dim.start[axis], dim.end[axis]))
    return low, high


def levels(dimensions: Sequence[PageDimension]) -> list[list[PageDimension]]:
    """Nearest to the piece first; on one level none overlaps another, and a longer one lies outside every shorter it overlaps."""
    found: list[list[PageDimension]] = []
    for dim in sorted(dimensions, key=lambda dim: (round(dim.length, 3), _span(dim))):
        low, high = _span(dim)
        level = 0
        for k, row in enumerate(found):
            if any(low < other_high - 0.05 and other_low < high - 0.05 for other_low, other_high in map(_span, row)):
                level = k + 1
        if level == len(found):
            found.append([])
        found[level].append(dim)
    return found


def _side_items(
    side: str, dimensions: Sequence[PageDimension], work: Work, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """Chains with a space between them, each set off from what it measures where it is clear there, else all from the whole piece."""
    if not dimensions:
        return []
    farthest = _edge_of_piece(side, dimensions, work)
    chains = chains_of(dimensions)
    own = [_edge_of_piece(side, chain, work) for chain in chains] if len(chains) > 1 else [farthest]
    items: list[Item] = []
    for chain, edge in zip(chains, own, strict=True):
        if farthest - edge > ALIGNED:
            before = room.mark()
            near = _chain(side, chain, edge, work, room, ruler, style)
            if room.is_good_since(before):
                items += near
                continue
            room.back_to(before)
        items += _chain(side, chain, farthest, work, room, ruler, style)
    return items


def chains_of(dimensions: Sequence[PageDimension]) -> list[list[PageDimension]]:
    """Those of one side whose stretches touch or overlap, together."""
    found: list[list[PageDimension]] = []
    reached = -inf
    for dim in sorted(dimensions, key=_span):
        low, high = _span(dim)
        if low > reached + TOGETHER:
            found.append([])
        found[-1].append(dim)
        reached = max(reached, high)
    return found


def _chain(
    side: str, dimensions: Sequence[PageDimension], edge: float, work: Work, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """Off an edge `edge` mm outward of the scene's origin."""
    items: list[Item] = []
    outward = OUTWARD[side]
    rows = levels(dimensions)
    drawn: set[tuple[float, ...]] = set()
    for k, row in enumerate(rows):
        away = edge + _distance(row, k, ruler, style)
        barred = [bar for later in rows[k + 1 :] for dim in later for bar in _bars(dim)]
        lines = [_line(dim, away, outward, work) for dim in sorted(row, key=lambda dim: -dim.length)]
        for line in lines:
            _bar_ends(line, barred)
        reach = away + BEYOND
        for line in lines:
            place = place_value(line, room, ruler, style, barred)
            items += dimension_items(line, place, ruler, style, drawn)
            take_dimension(line, place, room, ruler, style)
            reach = max(reach, _reach(place.centre, value_size(line.text, ruler, style), outward))
        edge = reach
    return items


def _distance(row: Sequence[PageDimension], level: int, ruler: TextRuler, style: PictureStyle) -> float:
    """From the piece, or from the level before, to the line: far enough for the half of a value that stands in it."""
    sizes = [value_size(dim.text, ruler, style) for dim in row]
    sideways = row[0].side in ("left", "right")
    half = max(size[0] if sideways else size[1] for size in sizes) / 2
    if sideways and all(dim.length < size[1] + 2 * (GAP + 0.7 * STUB) for dim, size in zip(row, sizes, strict=True)):
        half = 0.0
    return max(FIRST, half + 1.4) if level == 0 else max(2.2, half + 1.4)


def _edge_of_piece(side: str, dimensions: Sequence[PageDimension], work: Work) -> float:
    """How far outward the piece reaches along the stretch that the chain covers."""
    axis = 0 if side in ("head", "tail") else 1
    nx, ny = OUTWARD[side]
    low = min(_span(dim)[0] for dim in dimensions) - STUB
    high = max(_span(dim)[1] for dim in dimensions) + STUB
    reach = [spot[0] * nx + spot[1] * ny for dim in dimensions for spot in (dim.start, dim.end)]
    for facet in work.facets:
        for a, b in zip(facet.polygon, (*facet.polygon[1:], facet.polygon[0]), strict=True):
            if min(a[axis], b[axis]) <= high and max(a[axis], b[axis]) >= low:
                reach += [x * nx + y * ny for x, y in (_held(a, b, axis, low, high), _held(b, a, axis, low, high))]
    return max(reach)


def _held(a: Spot, b: Spot, axis: int, low: float, high: float) -> Spot:
    """`a`, moved along the edge to `b` into the stretch from low to high."""
    bound = min(max(a[axis], low), high)
    if bound == a[axis] or a[axis] == b[axis]:
        return a
    t = (bound - a[axis]) / (b[axis] - a[axis])
    return a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])


def _line(dim: PageDimension, away: float, outward: Spot, work: Work) -> DimensionLine:
    nx, ny = outward
    start, end = sorted((dim.start, dim.end))
    ends = tuple((x + (away - (x * nx + y * ny)) * nx, y + (away - (x * nx + y * ny)) * ny) for x, y in (start, end))
    starts = [_not_past(extension_start(spot, outward, work.facets, work.chains), outward, away) for spot in (start, end)]
    return DimensionLine(starts[0], starts[1], (ends[0], ends[1]), outward, dim.text)


def _not_past(spot: Spot, outward: Spot, away: float) -> Spot:
    over = max(0.0, spot[0] * outward[0] + spot[1] * outward[1] - away)
    return spot[0] - over * outward[0], spot[1] - over * outward[1]


def _bars(dim: PageDimension) -> list[Box]:
    """Where the extension lines of a level farther out will run: no value of a nearer level may stand there."""
    bars = []
    for x, y in (dim.start, dim.end):
        if dim.side in ("head", "tail"):
            bars.append(Box(x - 0.05, y - 200, x + 0.05, y) if dim.side == "head" else Box(x - 0.05, y, x + 0.05, y + 200))
        else:
            bars.append(Box(x - 200, y - 0.05, x, y + 0.05) if dim.side == "left" else Box(x, y - 0.05, x + 200, y + 0.05))
    return bars


def _bar_ends(line: DimensionLine, barred: list[Box]) -> None:
    """No value stands on an extension line of its own chain."""
    half_w, half_h = (0.05, BEYOND) if line.outward[0] == 0 else (BEYOND, 0.05)
    barred.extend(Box(x - half_w, y - half_h, x + half_w, y + half_h) for x, y in line.line)


def _reach(centre: Spot, size: tuple[float, float], outward: Spot) -> float:
    nx, ny = outward
    return centre[0] * nx + centre[1] * ny + abs(nx) * size[0] / 2 + abs(ny) * size[1] / 2 + CLEAR


def _slanting(dim: PageDimension, work: Work, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """Along a slant, the line parallel to it, as far out as the piece beside it asks."""
    ux, uy = _way(dim)
    nx, ny = -uy, ux
    want = OUTWARD[dim.side]
    if nx * want[0] + ny * want[1] < 0:
        nx, ny = -nx, -ny
    size = value_size(dim.text, ruler, style)
    base = dim.start[0] * nx + dim.start[1] * ny
    low, high = sorted(spot[0] * ux + spot[1] * uy for spot in (dim.start, dim.end))
    beside = [x * nx + y * ny for facet in work.facets for x, y in facet.polygon if low - 1 <= x * ux + y * uy <= high + 1]
    first = max(FIRST, abs(nx) * size[0] / 2 + abs(ny) * size[1] / 2 + 1.4)
    away = max([base, *beside]) + first
    for _ in range(6):
        line = _line(dim, away, (nx, ny), work)
        if room.is_clear(box_of(line.line).grown(-0.2)) or away - base > 30:
            break
        away += 1.5
    place = place_value(line, room, ruler, style)
    take_dimension(line, place, room, ruler, style)
    return dimension_items(line, place, ruler, style, set())
