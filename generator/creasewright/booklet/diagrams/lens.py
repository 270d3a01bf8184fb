"""The lens: a small ring on the piece, a link, a large ring beside it with the same place enlarged, measures outside it.

Used for measured distances that would print under 2.5 mm. The small ring goes round exactly what the large one shows.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from math import hypot, sqrt

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_about, box_of, circle, polyline, segment_meets, words_box
from creasewright.booklet.diagrams.dimension_chains import page_dimension
from creasewright.booklet.diagrams.dimension_line import (
    BEYOND,
    DimensionLine,
    dimension_items,
    extension_lines,
    extension_start,
    line_pieces,
    place_value,
    ticks,
    value_box,
    value_size,
)
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.plan_work import Work
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scales import LENS_SCALES, Scale
from creasewright.booklet.diagrams.scene import Dimension, Spot
from creasewright.booklet.drawing import Group, Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

LEAST_PRINTED = 2.5
"""mm: a measured distance that prints shorter wants a lens."""
EASY, READABLE = 5.0, 3.0
"""mm: the shortest distance inside a lens, as wished and at least."""
RADIUS = 11.0
"""mm of the large ring"""
FILLED = 1.5
"""Measures inside a lens spread over at most this many radii."""
OFF_RING = 3.0
"""mm from the ring to its measures."""
APART = 2.0
"""mm from a lens's measures to anything else: nobody takes a value for a neighbour's."""
RING_PEN, LINK_PEN = 0.65, 0.5
"""pt"""
COMPARED, CROSSING = 12, 4.0
"""How many clear places are compared; mm of link that one crossed line counts for."""

Content = Callable[[float, Box], Work]
"""The scene at a scale (page mm for a view mm), as far as it meets a box."""


class LensView(Struct, frozen=True):
    """What one lens shows: measures (in view mm), the middle of it, and its scale."""

    dimensions: tuple[Dimension, ...]
    middle: Spot
    scale: Scale


def lens_views(dimensions: Sequence[Dimension], scale: float) -> list[LensView]:
    """Small measures gathered into as few lenses as show them."""
    views: list[LensView] = []
    for dimension in dimensions:
        for k, view in enumerate(views):
            joined = _view((*view.dimensions, dimension), scale)
            if joined:
                views[k] = joined
                break
        else:
            views.append(_view((dimension,), scale) or LensView((dimension,), dimension.start, LENS_SCALES[-1]))
    return views


def _view(dimensions: tuple[Dimension, ...], scale: float) -> LensView | None:
    box = box_of(spot for dim in dimensions for spot in (dim.start, dim.end))
    smallest = min(hypot(d.end[0] - d.start[0], d.end[1] - d.start[1]) for d in dimensions)
    for shortest in (EASY, READABLE - 1e-6):
        for name, factor in LENS_SCALES:
            if factor >= 2 * scale and smallest * factor >= shortest:
                if max(box.width, box.height) * factor <= FILLED * RADIUS:
                    return LensView(dimensions, box.middle, (name, factor))
                break
    return None


class LensDrawing(Struct, frozen=True):
    """The large ring about (0, 0), with its measures: items, and what they take."""

    items: tuple[Item, ...]
    boxes: tuple[Box, ...]


def lens_drawing(view: LensView, content: Content, ruler: TextRuler, style: PictureStyle) -> LensDrawing:
    factor = view.scale[1]
    cx, cy = view.middle[0] * factor, view.middle[1] * factor
    work = content(factor, box_about((cx, cy), 2 * RADIUS, 2 * RADIUS))
    ring = circle((0.0, 0.0), RADIUS)
    room = Room(1e6, 1e6)
    room.take_box(box_about((0.0, 0.0), 2 * RADIUS, 2 * RADIUS).grown(-0.2))
    items: list[Item] = [
        Shape(ring, None, "WHITE", role="lens ground"),
        Group((Group((*work.paper, *work.slivers, *work.glue, *work.lines), -cx, -cy),), clip=ring, role="lens content"),
        Shape(ring, Pen("INK", RING_PEN * style.weight), role="lens ring"),
    ]
    boxes = [room.boxes[0]]
    room.boxes.clear()
    for line in _lens_lines(view, work, (cx, cy), ruler, style):
        for piece in (*extension_lines(line), *ticks(line)):
            room.take_line(piece)
        place = place_value(line, room, ruler, style, barred=boxes[:1])
        items += dimension_items(line, place, ruler, style, set())
        for piece in (*line_pieces(line, place)[:-2], *ticks(line)):
            room.take_line(piece)
            boxes.append(box_of(piece).grown(0.3))
        boxes.append(value_box(place, value_size(line.text, ruler, style)))
        room.take_box(boxes[-1])
    name = _scale_words(view.scale[0], room, ruler, style)
    return LensDrawing((*items, name), (*boxes, words_box(name, ruler)))


def _scale_words(text: str, room: Room, ruler: TextRuler, style: PictureStyle) -> Words:
    run = (Run(text, "Bold", style.label + 0.5, "ACC"),)
    size = words_box(Words(0, 0, run), ruler)
    at = RADIUS / sqrt(2) + 1.0
    for sx, sy in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
        baseline = sy * at + (size.height * 0.6 if sy > 0 else 0.0)
        words = Words(sx * at, baseline, run, "start" if sx > 0 else "end", role="lens scale")
        if room.is_clear(words_box(words, ruler).grown(0.5)):
            break
    return words


def _lens_lines(view: LensView, work: Work, centre: Spot, ruler: TextRuler, style: PictureStyle) -> list[DimensionLine]:
    """Each measure on its own side of the ring, as far as there are sides; frame: the ring's middle at (0, 0)."""
    factor = view.scale[1]
    used: dict[Spot, int] = {}
    lines = []
    for dim in sorted(view.dimensions, key=lambda d: -hypot(d.end[0] - d.start[0], d.end[1] - d.start[1])):
        a, b = sorted(((x * factor, y * factor) for x, y in (dim.start, dim.end)))
        length = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        sides = [(-uy, ux), (uy, -ux)]
        if sides[0][1] < -0.1 or (abs(sides[0][1]) <= 0.1 and sides[0][0] < 0):
            sides.reverse()
        outward = min(sides, key=lambda side: used.get(_rounded(side), 0))
        level = used.get(_rounded(outward), 0)
        used[_rounded(outward)] = level + 1
        nx, ny = outward
        size = value_size(dim.text, ruler, style)
        step = abs(nx) * size[0] + abs(ny) * size[1] + 2 * BEYOND + 1.5
        away = centre[0] * nx + centre[1] * ny + RADIUS + OFF_RING + level * step
        starts = []
        ends = []
        for spot in (a, b):
            start = _within_ring(extension_start(spot, outward, work.facets, work.chains), spot, outward, centre)
            starts.append((start[0] - centre[0], start[1] - centre[1]))
            over = away - (spot[0] * nx + spot[1] * ny)
            ends.append((spot[0] + over * nx - centre[0], spot[1] + over * ny - centre[1]))
        lines.append(DimensionLine(starts[0], starts[1], (ends[0], ends[1]), outward, dim.text))
    return lines


def _rounded(way: Spot) -> Spot:
    return round(way[0], 1), round(way[1], 1)


def _within_ring(start: Spot, spot: Spot, outward: Spot, centre: Spot) -> Spot:
    """Where the edge itself runs to the ring, the extension line begins at the ring."""
    nx, ny = outward
    px, py = spot[0] - centre[0], spot[1] - centre[1]
    along = px * nx + py * ny
    off = (px * px + py * py) - along * along
    rim = sqrt(max(0.0, RADIUS * RADIUS - off)) - along
    reached = (start[0] - spot[0]) * nx + (start[1] - spot[1]) * ny
    go = min(reached, rim)
    return spot[0] + go * nx, spot[1] + go * ny


def place_lens(drawing: LensDrawing, at: Spot, small: float, body: Box, room: Room) -> Spot | None:
    """Where the large ring's middle goes: beside the work, clear of everything, the nearest place with a clear link.

    Outside the picture's limits only if there is no place within them; None if there is none at all.
    """
    middles = sorted(set(_middles(drawing, at, body)), key=lambda spot: hypot(spot[0] - at[0], spot[1] - at[1]))
    whole = drawing.boxes[0]
    for box in drawing.boxes:
        whole = whole.with_box(box)
    within = [spot for spot in middles if room.has_room(whole.moved(*spot))]
    clear = list(islice((spot for spot in within if stands_clear(drawing, at, small, spot, room)), COMPARED))
    if clear:
        return min(clear, key=lambda spot: _link_cost(at, small, spot, room))
    room.crowded += 1
    return next((spot for spot in middles if stands_clear(drawing, at, small, spot, room)), None)


def _link_cost(at: Spot, small: float, middle: Spot, room: Room) -> float:
    return hypot(middle[0] - at[0], middle[1] - at[1]) + CROSSING * room.crossed(*link(at, small, middle))


def stands_clear(drawing: LensDrawing, at: Spot, small: float, middle: Spot, room: Room) -> bool:
    """Nothing in the way of the lens or of its link, which keeps off the lens's own measures too."""
    start, end = link(at, small, middle)
    boxes = [box.moved(*middle) for box in drawing.boxes]
    return (
        room.is_clear(boxes[0].grown(0.8))
        and all(room.is_clear(box.grown(APART)) for box in boxes[1:])
        and not any(segment_meets(start, end, box.grown(0.4)) for box in boxes[1:])
        and not room.crosses(start, end)
    )


def _middles(drawing: LensDrawing, at: Spot, body: Box) -> Iterator[Spot]:
    """Round the work: the ring's own measures may lie between it and the work."""
    whole = drawing.boxes[0]
    for box in drawing.boxes:
        whole = whole.with_box(box)
    for off in (2.0, 5.0, 9.0, 13.0):
        for k in range(-14, 15):
            y = at[1] + k * 3.0
            yield body.x1 + off - whole.x0, y
            yield body.x0 - off - whole.x1, y
            x = at[0] + k * 3.0
            yield x, body.y1 + off - whole.y0
            yield x, body.y0 - off - whole.y1


def link(at: Spot, small: float, middle: Spot) -> tuple[Spot, Spot]:
    dx, dy = middle[0] - at[0], middle[1] - at[1]
    far = hypot(dx, dy) or 1.0
    ux, uy = dx / far, dy / far
    return (at[0] + small * ux, at[1] + small * uy), (middle[0] - RADIUS * ux, middle[1] - RADIUS * uy)


def lens_items(drawing: LensDrawing, at: Spot, small: float, middle: Spot, style: PictureStyle) -> list[Item]:
    pen = Pen("INK", LINK_PEN * style.weight)
    return [
        Shape(circle(at, small), pen, role="lens spot"),
        Shape(polyline(link(at, small, middle)), pen, role="lens link"),
        Group(drawing.items, *middle, role="lens"),
    ]


def small_radius(view: LensView, scale: float) -> float:
    return max(1.3, RADIUS * scale / view.scale[1])


def in_lenses(dimensions: Sequence[Dimension], scale: float) -> list[Dimension]:
    """Those that print too short, and those within the piece that go on from one: what belongs together is shown together."""
    short = [dim for dim in dimensions if page_dimension(dim, scale).length < LEAST_PRINTED]
    ends = {spot for dim in short if dim.side == "inside" for spot in (dim.start, dim.end)}
    return [dim for dim in dimensions if dim in short or (dim.side == "inside" and (dim.start in ends or dim.end in ends))]
