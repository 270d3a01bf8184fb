"""One dimension: extension lines, a line with 45-degree ticks, and its value, upright, in a gap of the line or beside it.

A dimension measures the distance between its two points. Frame: mm on the page.
"""

import itertools
from collections.abc import Iterator, Sequence

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_about, polyline
from creasewright.booklet.diagrams.line_code import THIN
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.visible_lines import crossings, within
from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

OFF_EDGE, BEYOND = 0.9, 1.3
"""mm: an extension line starts this far off the piece and passes this far beyond the dimension line."""
TICK = 0.8
"""mm: half a tick, on each axis of its slant."""
TICK_PEN = 0.9
"""pt"""
GAP = 1.0
"""mm between the value and the line on either side of it."""
STUB = 2.2
"""mm: least piece of line beside a value; how far the line runs past the ticks when the value stands outside."""
CLEAR = 0.6
"""mm between a value and anything else."""
CLOSE = 3.0
"""mm: a point this near to the rim is measured from outside it."""


class DimensionLine(Struct, frozen=True):
    """Ready to draw but for the place of its value."""

    start: Spot
    end: Spot
    """The measured places, moved to where their extension lines begin."""
    line: tuple[Spot, Spot]
    outward: Spot
    """Unit vector from the piece to the line."""
    text: str


class ValuePlace(Struct, frozen=True):
    centre: Spot
    gap: float
    """Half of what is left out of the line about the centre; 0: the value does not stand in the line."""
    stubs: tuple[float, float]
    """How far the line runs on before its start and past its end."""


def value_size(text: str, ruler: TextRuler, style: PictureStyle) -> tuple[float, float]:
    """Width and capital height of a value, mm."""
    return ruler.width(text, "Bold", style.measure), ruler.cap_height("Bold", style.measure)


def value_places(dim: DimensionLine, size: tuple[float, float]) -> Iterator[ValuePlace]:
    """In the line, at its middle first; then outward of it; then beyond either tick."""
    (ax, ay), (bx, by) = dim.line
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    ux, uy = ((bx - ax) / length, (by - ay) / length) if length else (1.0, 0.0)
    half = _half_along(size, (ux, uy)) + GAP
    if length >= 2 * (half + STUB * 0.7):
        room = length / 2 - half - STUB * 0.7
        for share in (0.0, -0.35, 0.35, -0.7, 0.7, -1.0, 1.0):
            at = length / 2 + share * room
            yield ValuePlace((ax + at * ux, ay + at * uy), half, (0.0, 0.0))
            if room < 0.5:
                break
    stub = STUB if length < 2 * STUB else 0.0
    nx, ny = dim.outward
    out = BEYOND + 0.7 + abs(nx) * size[0] / 2 + abs(ny) * size[1] / 2
    middle = (ax + bx) / 2, (ay + by) / 2
    yield ValuePlace((middle[0] + out * nx, middle[1] + out * ny), 0.0, (stub, stub))
    for sign, at in ((1, (bx, by)), (-1, (ax, ay))):
        away = sign * (STUB + half)
        stubs = (stub, STUB) if sign > 0 else (STUB, stub)
        yield ValuePlace((at[0] + away * ux, at[1] + away * uy), 0.0, stubs)


def _half_along(size: tuple[float, float], way: Spot) -> float:
    """From a box's middle to its rim, going `way`."""
    return min(size[k] / 2 / abs(way[k]) for k in (0, 1) if abs(way[k]) > 1e-9)


def value_box(place: ValuePlace, size: tuple[float, float]) -> Box:
    return box_about(place.centre, *size)


def line_pieces(dim: DimensionLine, place: ValuePlace) -> list[tuple[Spot, Spot]]:
    """The dimension line as drawn: whole or with its gap, with its stubs, and the two extension lines."""
    (ax, ay), (bx, by) = dim.line
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
    ux, uy = (bx - ax) / length, (by - ay) / length
    before, past = place.stubs
    first, last = (ax - before * ux, ay - before * uy), (bx + past * ux, by + past * uy)
    pieces = [(first, last)]
    if place.gap:
        cx, cy = place.centre
        g = place.gap
        pieces = [(first, (cx - g * ux, cy - g * uy)), ((cx + g * ux, cy + g * uy), last)]
    return [*pieces, *extension_lines(dim)]


def extension_lines(dim: DimensionLine) -> list[tuple[Spot, Spot]]:
    nx, ny = dim.outward
    found = []
    for (x, y), (lx, ly) in zip((dim.start, dim.end), dim.line, strict=True):
        if (lx - x) * nx + (ly - y) * ny > 1e-6:
            found.append(((x, y), (lx + BEYOND * nx, ly + BEYOND * ny)))
    return found


def dimension_items(
    dim: DimensionLine, place: ValuePlace, ruler: TextRuler, style: PictureStyle, drawn: set[tuple[float, ...]]
) -> list[Item]:
    """Lines, ticks and value. `drawn` remembers lines and ticks that neighbours in a chain share."""
    thin, thick = Pen("INK", THIN * style.weight, cap="butt"), Pen("INK", TICK_PEN * style.weight)
    items: list[Item] = []
    for a, b in line_pieces(dim, place):
        if _fresh(drawn, a, b):
            items.append(Shape(polyline((a, b)), thin, role="dimension"))
    for a, b in ticks(dim):
        if _fresh(drawn, a, b):
            items.append(Shape(polyline((a, b)), thick, role="dimension tick"))
    return [*items, value_words(dim.text, place.centre, ruler, style)]


def value_words(text: str, centre: Spot, ruler: TextRuler, style: PictureStyle) -> Words:
    baseline = centre[1] + ruler.cap_height("Bold", style.measure) / 2
    return Words(centre[0], baseline, (Run(text, "Bold", style.measure),), "middle", role="measure")


def ticks(dim: DimensionLine) -> list[tuple[Spot, Spot]]:
    (ax, ay), (bx, by) = dim.line
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
    ux, uy = (bx - ax) / length, (by - ay) / length
    # the line's direction turned by 45 degrees to the left (y down): (u + v) with v = (uy, -ux)
    tx, ty = TICK * (ux + uy), TICK * (uy - ux)
    return [((x - tx, y - ty), (x + tx, y + ty)) for x, y in dim.line]


def _fresh(drawn: set[tuple[float, ...]], a: Spot, b: Spot) -> bool:
    key = tuple(round(value, 2) for value in (*min(a, b), *max(a, b)))
    if key in drawn:
        return False
    drawn.add(key)
    return True


def place_value(dim: DimensionLine, room: Room, ruler: TextRuler, style: PictureStyle, barred: Sequence[Box] = ()) -> ValuePlace:
    """The first clear place for the value, within the limits if possible; if none is, the first there is, counted as crowded."""
    for limited in (True, False):
        place = clear_place(dim, room, ruler, style, barred, limited)
        if place:
            return place
    room.crowded += 1
    return next(value_places(dim, value_size(dim.text, ruler, style)))


def clear_place(
    dim: DimensionLine, room: Room, ruler: TextRuler, style: PictureStyle, barred: Sequence[Box] = (), limited: bool = True
) -> ValuePlace | None:
    """The first place with nothing in it; `limited`: within the picture's limits."""
    size = value_size(dim.text, ruler, style)
    for place in value_places(dim, size):
        box = value_box(place, size).grown(CLEAR)
        if (room.has_room(box) or not limited) and room.is_clear(box) and not any(box.overlaps(bar) for bar in barred):
            return place
    return None


def take_dimension(dim: DimensionLine, place: ValuePlace, room: Room, ruler: TextRuler, style: PictureStyle) -> None:
    for piece in (*line_pieces(dim, place), *ticks(dim)):
        room.take_line(piece, bars=True)
    room.take_box(value_box(place, value_size(dim.text, ruler, style)))


def extension_start(spot: Spot, outward: Spot, facets: Sequence[PageFacet], drawn: Sequence[Chain]) -> Spot:
    """Where the extension line of a measured place may begin: off the line that runs on outward from it, off a rim close by."""
    reached = 0.0
    nx, ny = outward
    for _ in range(4):
        at = spot[0] + reached * nx, spot[1] + reached * ny
        further = max((_run_on(at, outward, chain) for chain in drawn), default=0.0)
        if further <= 0.05:
            further = _rim_close_by(at, outward, facets)
        if further <= 0.05:
            break
        reached += further
    off = reached + OFF_EDGE
    return spot[0] + off * nx, spot[1] + off * ny


def _run_on(at: Spot, outward: Spot, chain: Chain) -> float:
    """How far a straight piece of the chain runs outward from the place."""
    best = 0.0
    nx, ny = outward
    x, y = at
    for (ax, ay), (bx, by) in itertools.pairwise(chain):
        if abs((ax - x) * ny - (ay - y) * nx) < 0.06 and abs((bx - x) * ny - (by - y) * nx) < 0.06:
            ta, tb = (ax - x) * nx + (ay - y) * ny, (bx - x) * nx + (by - y) * ny
            if min(ta, tb) < 0.1:
                best = max(best, ta, tb)
    return best


def _rim_close_by(at: Spot, outward: Spot, facets: Sequence[PageFacet]) -> float:
    nx, ny = outward
    probe = at[0] + 0.1 * nx, at[1] + 0.1 * ny
    end = at[0] + CLOSE * nx, at[1] + CLOSE * ny
    reach = 0.0
    for facet in facets:
        if within(probe, facet.polygon):
            found = crossings(at, end, facet.polygon)
            if found:
                reach = max(reach, max(found) * CLOSE)
    return reach
