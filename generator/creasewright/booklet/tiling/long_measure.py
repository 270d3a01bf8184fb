"""A template's own long measure: one straight length of the whole of it, to be checked after the tiles are joined.

It runs from one straight edge square to another parallel one if the outline has such a pair, else between two far corners: across
the template, or beside one that is alone on its page where there is room.
All in mm in the grid frame, y down.
"""

from collections.abc import Iterator
from math import cos, hypot, pi, sin

from msgspec import Struct

from creasewright.booklet.drawing import Item, Path, Pen, Run, Shape, Words
from creasewright.booklet.rules import polygon
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.check_square import ROOM
from creasewright.booklet.tiling.free_space import Box, FreeSpace
from creasewright.booklet.tiling.placing import Cell, Layout, Placed, Segment, clipped
from creasewright.booklet.tiling.spots import Spot, moved_outline, spot
from creasewright.booklet.tiling.template_form import line_path
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Line, Outline, flattened

LEAST_OVERLAP = 8.0
"""mm that two edges must lie opposite each other."""
FROM_END = 10.0
FROM_LINE = 4.0
"""What the dimension line keeps from lines that run along it, mm."""
OUTSIDE = 7.0
"""From the template to a line beside it, mm."""
OFF, PAST, TO_WORDS = 0.9, 1.3, 2.0
"""An extension line begins so far off the edge, and passes the line by so much; the words beside a template keep so much from it."""
PEN = Pen("INK2", 0.3, cap="butt")
HEAD, HALF_HEAD = 3.6, 0.75
"""mm: length and half the width of the arrowheads, which tell a measure from a line to score or fold, also in grey."""
FACE, SIZE = "Bold", 10.5
DIRECTIONS = 24


class LongMeasure(Struct, frozen=True):
    start: Spot
    end: Spot
    edges: bool
    """From edge to edge; else from point to point."""
    beside: int = 0
    """1: it runs beside the template, at its right or below; -1: at its left or above; 0: across it."""
    extensions: tuple[Segment, ...] = ()
    """From the edges to a line beside the template."""

    @property
    def length(self) -> float:
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])


class PlannedMeasure(Struct, frozen=True):
    """A measure at its chosen place."""

    measure: LongMeasure
    text: str
    parts: tuple[str, ...]
    """The same words as lines of a narrow label."""
    template: str
    in_words: bool
    """No tile has room for the words in a line: no line is drawn, and the words stand with the template's labels."""


def long_measures(placed: Placed, lines: tuple[Segment, ...]) -> list[LongMeasure]:
    """Where the longest measure may be drawn across the template, the best place first."""
    outline = moved_outline(placed.to_grid, placed.template.outline)
    pair = _longest(_straight(outline))
    if pair[0] <= 0:
        return [far_points(list(flattened(outline.edges)))]
    _, axis, low, high, first, last = pair
    return [
        LongMeasure(*_from_to(axis, low, high, level), edges=True)
        for level in _levels(first, last, [line for line in lines if _reaches(line, axis, low, high)], axis)
    ]


def measures_beside(placed: Placed) -> list[LongMeasure]:
    """The same length beside the template: at its right and its left, or below and above it. Empty where its ends are not the
    template's own, so that a line from them would run over it."""
    straight = _straight(moved_outline(placed.to_grid, placed.template.outline))
    distance, axis, low, high, _, _ = _longest(straight)
    starts, sizes = (placed.left, placed.head), (placed.width, placed.height)
    if distance <= 0 or abs(distance - sizes[axis]) > 1e-6:
        return []
    found = []
    for beside, rim in ((1, starts[1 - axis] + sizes[1 - axis]), (-1, starts[1 - axis])):
        level = rim + beside * OUTSIDE
        extensions = tuple(
            (*_spot(axis, end, _nearest(straight, axis, end, beside) + beside * OFF), *_spot(axis, end, level + beside * PAST))
            for end in (low, high)
        )
        found.append(LongMeasure(*_from_to(axis, low, high, level), edges=True, beside=beside, extensions=extensions))
    return found


def _nearest(straight: list[Segment], axis: int, end: float, beside: int) -> float:
    """How far the edges at one end of the measure reach to the side where it runs."""
    at_end = [edge for edge in straight if max(abs(edge[axis] - end), abs(edge[axis + 2] - end)) < 1e-6]
    return beside * max(beside * edge[at] for edge in at_end for at in (1 - axis, 3 - axis))


def _straight(outline: Outline) -> list[Segment]:
    return [(*spot(edge.start), *spot(edge.end)) for edge in outline.edges if isinstance(edge, Line)]


def _longest(straight: list[Segment]) -> tuple[float, int, float, float, float, float]:
    return max((_widest(straight, axis) for axis in (0, 1)), key=lambda found: found[0])


def _spot(axis: int, along: float, level: float) -> Spot:
    return (along, level) if axis == 0 else (level, along)


def _from_to(axis: int, low: float, high: float, level: float) -> tuple[Spot, Spot]:
    return _spot(axis, low, level), _spot(axis, high, level)


def _widest(straight: list[Segment], axis: int) -> tuple[float, int, float, float, float, float]:
    """The farthest pair of edges square to the axis (0: x), with the span in which they lie opposite: (distance, axis, from, to,
    span)."""
    square = [
        (edge[axis], min(edge[1 - axis], edge[3 - axis]), max(edge[1 - axis], edge[3 - axis]))
        for edge in straight
        if abs(edge[axis] - edge[axis + 2]) < 1e-6
    ]
    best = (0.0, axis, 0.0, 0.0, 0.0, 0.0)
    for at, low, high in square:
        for other, other_low, other_high in square:
            first, last = max(low, other_low), min(high, other_high)
            if other - at > best[0] + 1e-9 and last - first >= LEAST_OVERLAP:
                best = (other - at, axis, at, other, first, last)
    return best


def _reaches(line: Segment, axis: int, low: float, high: float) -> bool:
    return min(line[axis], line[axis + 2]) < high and max(line[axis], line[axis + 2]) > low


def _levels(first: float, last: float, lines: list[Segment], axis: int) -> list[float]:
    """Levels between two ends, those clear of lines that run along first, then those nearest 10 mm before the far end."""
    along = [
        (min(line[1 - axis], line[3 - axis]), max(line[1 - axis], line[3 - axis]))
        for line in lines
        if abs(line[axis + 2] - line[axis]) > abs(line[3 - axis] - line[1 - axis])
    ]
    wanted = max((first + last) / 2, last - FROM_END)
    steps = [wanted - 2.0 * k for k in range(int((wanted - first - 2) / 2) + 1)] or [wanted]
    return sorted(
        steps,
        key=lambda level: (any(low - FROM_LINE < level < high + FROM_LINE for low, high in along), abs(level - wanted)),
    )[:40]


def far_points(points: list[Spot]) -> LongMeasure:
    """Two points of the outline far from each other: the farthest found over 24 directions."""
    best: tuple[float, Spot, Spot] | None = None
    for k in range(DIRECTIONS):
        ux, uy = cos(pi * k / DIRECTIONS), sin(pi * k / DIRECTIONS)
        start = min(points, key=lambda at: (at[0] * ux + at[1] * uy, at))
        end = max(points, key=lambda at: (at[0] * ux + at[1] * uy, at))
        length = hypot(end[0] - start[0], end[1] - start[1])
        if best is None or length > best[0] + 1e-9:
            best = (length, start, end)
    assert best is not None
    return LongMeasure(best[1], best[2], edges=False)


def measure_words(measure: LongMeasure, layout: Layout, window: Window, words: TileWords) -> tuple[str, ...]:
    """What the measure says, in parts: from which tile to which if it crosses a join, what it runs between, how long it is."""
    kind = words.edge_to_edge if measure.edges else words.point_to_point
    ends = [cell_at(place, layout, window) for place in (measure.start, measure.end)]
    text = words.measure(measure.length)
    if ends[0] == ends[1]:
        return kind, text
    return words.from_to.format(first=layout.names[ends[0]], last=layout.names[ends[1]]), kind, text


def cell_at(place: Spot, layout: Layout, window: Window) -> Cell:
    return min(
        layout.printed,
        key=lambda cell: (
            max(cell[1] * window.width - place[0], place[0] - (cell[1] + 1) * window.width, 0.0)
            + max(cell[0] * window.height - place[1], place[1] - (cell[0] + 1) * window.height, 0.0)
        ),
    )


def label_boxes(part: Segment, text: str, space: FreeSpace, ruler: TextRuler, beside: int = 0) -> Iterator[Box]:
    """Where on this part of the line (mm of the page) its value can stand free of every line; the middle first.

    `beside`: as of the measure; words on an upright line beside a template are moved away from it.
    """
    wide, tall = ruler.width(text, FACE, SIZE) + 3.0, ruler.cap_height(FACE, SIZE) + 2.2
    length = hypot(part[2] - part[0], part[3] - part[1])
    level = abs(part[2] - part[0]) > abs(part[3] - part[1])
    room = wide if level else tall
    aside = 0.0 if level else beside * max(0.0, wide / 2 - OUTSIDE + TO_WORDS)
    for k in range(int(max(0.0, (length - room) / 2 - 3) / 2) + 1):
        for step in (2.0 * k, -2.0 * k):
            t = 0.5 + step / length if length else 0.5
            x, y = part[0] + t * (part[2] - part[0]) + aside, part[1] + t * (part[3] - part[1])
            box = (x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)
            if length > room + 6 and space.is_free(box):
                yield box


def label_box(part: Segment, text: str, space: FreeSpace, ruler: TextRuler, beside: int = 0) -> Box | None:
    """The first place for its value that leaves room for the check square; the first of all where none does."""
    boxes = list(label_boxes(part, text, space, ruler, beside))
    if len(boxes) > 1 and space.holds_square(ROOM):
        for box in boxes:
            left = space.copy()
            left.mark_line(part)
            left.mark_box(box)
            if left.holds_square(ROOM):
                return box
    return boxes[0] if boxes else None


def measure_part(measure: LongMeasure, shift: Spot, window: Window) -> Segment | None:
    """What one window shows of the line, mm of the page; `shift` takes the grid frame to the page."""
    dx, dy = shift
    line = (measure.start[0] + dx, measure.start[1] + dy, measure.end[0] + dx, measure.end[1] + dy)
    return clipped(line, window.left, window.head, window.right, window.tail)


def shifted(lines: tuple[Segment, ...], shift: Spot) -> tuple[Segment, ...]:
    dx, dy = shift
    return tuple((x0 + dx, y0 + dy, x1 + dx, y1 + dy) for x0, y0, x1, y1 in lines)


def measure_items(measure: LongMeasure, part: Segment, shift: Spot, text: str, box: Box | None, ruler: TextRuler) -> list[Item]:
    """The dimension on one page: `part` is what its window shows, `shift` takes the grid frame to the page."""
    items: list[Item] = [Shape(line_path(piece[:2], piece[2:]), PEN, role="long measure") for piece in _around(part, box)]
    for line in shifted(measure.extensions, shift):
        items.append(Shape(line_path(line[:2], line[2:]), PEN, role="long measure extension"))
    length = measure.length
    ux, uy = (measure.end[0] - measure.start[0]) / length, (measure.end[1] - measure.start[1]) / length
    for (x, y), way in ((measure.start, -1.0), (measure.end, 1.0)):
        tip = (x + shift[0], y + shift[1])
        if any(hypot(tip[0] - end[0], tip[1] - end[1]) < 1e-6 for end in (part[:2], part[2:])):
            items.append(Shape(_head(tip, way * ux, way * uy), fill="INK2", role="long measure arrowhead"))
    if box:
        baseline = (box[1] + box[3]) / 2 + ruler.cap_height(FACE, SIZE) / 2
        items.append(Words((box[0] + box[2]) / 2, baseline, (Run(text, FACE, SIZE),), "middle", role="measure"))
    return items


def _head(tip: Spot, ux: float, uy: float) -> Path:
    """A slim arrowhead that looks along (ux, uy)."""
    x, y = tip[0] - HEAD * ux, tip[1] - HEAD * uy
    return polygon(tip, (x - HALF_HEAD * uy, y + HALF_HEAD * ux), (x + HALF_HEAD * uy, y - HALF_HEAD * ux))


def _around(part: Segment, box: Box | None) -> list[Segment]:
    hidden = clipped(part, *box) if box else None
    if hidden is None:
        return [part]
    return [
        piece
        for piece in ((*part[:2], *hidden[:2]), (*hidden[2:], *part[2:]))
        if hypot(piece[2] - piece[0], piece[3] - piece[1]) > 0.1
    ]
