"""The drawing of one pass: the piece as it lies, its thick edge, and the running measure from it. mm on the page, y down."""

from collections.abc import Callable
from math import atan2, cos, pi, sin

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.diagrams.boxes import Box, box_about, polyline
from creasewright.booklet.diagrams.line_code import THIN
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Group, Item, Pen, Run, Shape, Words
from creasewright.booklet.scoring.lying_piece import DrawnLine, PieceLook, lying_piece
from creasewright.booklet.scoring.running_measure import Mark, Measure, level_measure, upright_measure
from creasewright.booklet.text_ruler import TextRuler
from creasewright.geometry.outline import Outline, Polygon, flattened
from creasewright.geometry.point import Number
from creasewright.scoring.lies import ON_EDGE, LieLine, Pass, Setting, straight_spans

LINE_OFF = 4.0
"""From the piece to its running measure, mm."""
DATUM = 3.0
"""pt: the edge that is measured from."""
LEAST_SPACER = 2.2
"""mm on the page."""
POINT_RADIUS = 0.75
LETTER_OFF = (2.8, 3.6, 4.6, 5.8, 7.2)
"""mm from an end of a line to the middle of its letter."""
LETTER_TURNS = (0.0, 0.5, -0.5, 1.0, -1.0, 1.6, -1.6, 2.3, -2.3, pi)
"""Radians off the outward direction."""
Said = Callable[[Number, bool], str]
"""A length in mm, and whether it is a groove of the board, as set in a drawing, without its unit."""


class Drawing(Struct, frozen=True):
    items: tuple[Item, ...]
    """Its top left corner at (0, 0)."""
    width: float
    height: float


def line_kind(line: LieLine) -> str:
    """What a line looks like from the side lying up. It is pressed on the side that ends outside its fold, so from there the
    paper goes down on both sides of it: a mountain; a line of the other pass is a valley from here; one never folded is plain."""
    if line.folds == "never":
        return "score"
    return "mountain" if line.own else "valley"


def score_drawing(
    blank: Blank, each: Pass, look: PieceLook, scale: float, said: Said, unit: str, ruler: TextRuler, style: PictureStyle
) -> Drawing:
    """A pass drawn at `scale` (mm on the page for a mm of the piece)."""
    lines = [DrawnLine(line_kind(line), line.way, f"{k + 1}") for k, line in enumerate(each.lines)]

    def letters(room: Room) -> list[Item]:
        return _lettered_ends(each, scale, room, ruler, style) if each.run == "aslant" else []

    piece, room = lying_piece(blank, each.lie, lines, look, scale, ruler, style, letters)
    items = [*_spacer(each, scale, style), *piece, *_datum_edges(blank, each, scale, style)]
    if each.run == "curved":
        return _boxed(items, room, [], each, scale, style)
    if each.run == "aslant":
        return _boxed(items, room, [], each, scale, style)
    level = _positions(blank, each, scale, said, unit, ruler, style)
    measures = [level]
    ends = inner_ends(each)
    if ends:
        measures.append(_partial_ends(each, ends, scale, said, unit, ruler, style))
    return _boxed(items, room, measures, each, scale, style)


def inner_ends(each: Pass) -> tuple[Number, ...]:
    """How far from the far edge the lines of this pass end inside the piece; each once, rising."""
    found: list[Number] = []
    for line in each.own:
        for end, inner in zip((line.start, line.end), line.ends_inside, strict=True):
            if inner and not any(abs(float(end.y) - float(known)) < 0.01 for known in found):
                found.append(end.y)
    return tuple(sorted(found))


def points_of(each: Pass) -> tuple[tuple[Number, Number], ...]:
    """The ends of aslant lines, each place once: clockwise, from the one farthest from the maker."""
    found: list[tuple[Number, Number]] = []
    for line in each.own:
        for end in (line.start, line.end):
            if not any(abs(float(end.x) - float(x)) < 0.05 and abs(float(end.y) - float(y)) < 0.05 for x, y in found):
                found.append((end.x, end.y))
    if not found:
        return ()
    mx, my = sum(float(x) for x, _ in found) / len(found), sum(float(y) for _, y in found) / len(found)

    def clock(spot: tuple[Number, Number]) -> float:
        """Radians clockwise from a little before straight up."""
        return (atan2(float(spot[0]) - mx, my - float(spot[1])) + 0.3) % (2 * pi)

    return tuple(sorted(found, key=clock))


def point_letters(count: int) -> tuple[str, ...]:
    return tuple("abcdefghijklmnopqrstuvwxyz"[k % 26] for k in range(count))


def _positions(blank: Blank, each: Pass, scale: float, said: Said, unit: str, ruler: TextRuler, style: PictureStyle) -> Measure:
    """From the stop: the zero stands at the edge that lies against it, or at the spacer's; with none the far edge is told as well."""
    width, spacer = each.lie.width, spacer_width(each, scale)
    ring = flattened(each.lie.to_lie.loop(blank.outline.edges))
    stop, far = (float(width), 0.0) if each.stop == "right" else (0.0, float(width))
    settings = sorted(each.settings, key=lambda setting: abs(float(setting.place) - stop))
    marks = [Mark(float(one.place) * scale, said_at(each, one, said)) for one in settings]
    tops = [0.0 if spacer else _top_at(ring, stop), *(_top_at(ring, float(one.place)) for one in settings)]
    if not spacer:
        marks.append(Mark(far * scale, f"{said(width, False)} {unit}"))
        tops.append(_top_at(ring, far))
    return level_measure(marks, -LINE_OFF, [top * scale for top in tops], ruler, style, stop * scale + (spacer if far < stop else -spacer))


def said_at(each: Pass, setting: Setting, said: Said) -> str:
    return said(each.from_stop(setting.place), False) if setting.groove is None else said(setting.groove, True)


def _top_at(ring: Polygon, x: float) -> float:
    """The farthest place of the outline on that upright: there an extension line ends, also where a line begins inside the piece."""
    found = []
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        if min(ax, bx) - ON_EDGE <= x <= max(ax, bx) + ON_EDGE:
            along = min(max((x - ax) / (bx - ax), 0.0), 1.0) if abs(bx - ax) > ON_EDGE else None
            found.append(min(ay, by) if along is None else ay + along * (by - ay))
    return min(found, default=0.0)


def _partial_ends(
    each: Pass, ends: tuple[Number, ...], scale: float, said: Said, unit: str, ruler: TextRuler, style: PictureStyle
) -> Measure:
    width, height = float(each.lie.width) * scale, each.lie.height
    marks = [Mark(float(y) * scale, said(y, False)) for y in ends]
    marks.append(Mark(float(height) * scale, f"{said(height, False)} {unit}"))
    starts = [width + upright_off(each, scale) - LINE_OFF - 1.0] * (len(ends) + 2)
    return upright_measure(marks, width + upright_off(each, scale), starts, ruler, style)


def upright_off(each: Pass, scale: float) -> float:
    """From the piece to the measure at its right, clear of a spacer there."""
    return LINE_OFF + 1.0 + (spacer_width(each, scale) if each.stop == "right" else 0.0)


def _spacer(each: Pass, scale: float, style: PictureStyle) -> list[Item]:
    """The strip between the stop and the piece, as long as its edge."""
    if not each.spacer:
        return []
    edge, way = (float(each.lie.width) * scale, 1) if each.stop == "right" else (0.0, -1)
    wide, tall = way * spacer_width(each, scale), float(each.lie.height) * scale
    corners = (edge, 0.0), (edge + wide, 0.0), (edge + wide, tall), (edge, tall)
    return [Shape(polyline(corners, closed=True), Pen("INK", THIN * style.weight), "offcut", role="spacer")]


def spacer_width(each: Pass, scale: float) -> float:
    """On the page: never too narrow to be seen beside the thick edge."""
    return max(float(each.spacer) * scale, LEAST_SPACER) if each.spacer else 0.0


def _datum_edges(blank: Blank, each: Pass, scale: float, style: PictureStyle) -> list[Item]:
    """The edge at the stop, thick where it is straight; for lines aslant the left and the far edge, for curves none."""
    outline = Outline(each.lie.to_lie.loop(blank.outline.edges))
    pen = Pen("INK", DATUM * style.weight, cap="butt")
    items: list[Item] = []
    for side in {"aslant": ("left", "head"), "curved": ()}.get(each.run, (each.stop,)):
        for low, high in straight_spans(outline, side, each.lie.width, each.lie.height):
            a, b = float(low) * scale, float(high) * scale
            x = float(each.lie.width) * scale if side == "right" else 0.0
            path = polyline(((a, 0.0), (b, 0.0)) if side == "head" else ((x, a), (x, b)))
            items.append(Shape(path, pen, role="datum edge"))
    return items


def _lettered_ends(each: Pass, scale: float, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """A dot at each end of an aslant line and its letter beside it, off everything drawn."""
    items: list[Item] = []
    points = points_of(each)
    middle = float(each.lie.width) * scale / 2, float(each.lie.height) * scale / 2
    for letter, (px, py) in zip(point_letters(len(points)), points, strict=True):
        at = float(px) * scale, float(py) * scale
        box = _letter_box(letter, at, middle, room, ruler, style)
        room.take_box(box)
        items.append(Shape(_dot(*at), None, "INK", role="end of a line"))
        items.append(Words(box.middle[0], box.y1, (Run(letter, "Bold", style.measure),), "middle", role="measure"))
    return items


def _letter_box(letter: str, at: Spot, middle: Spot, room: Room, ruler: TextRuler, style: PictureStyle) -> Box:
    """The nearest clear place round an end, outward of the piece's middle if it can be."""
    wide, tall = ruler.width(letter, "Bold", style.measure), ruler.cap_height("Bold", style.measure)
    outward = atan2(at[1] - middle[1], at[0] - middle[0])
    places = [
        (off + 0.8 * abs(turn), box_about((at[0] + off * cos(outward + turn), at[1] + off * sin(outward + turn)), wide, tall))
        for off in LETTER_OFF
        for turn in LETTER_TURNS
    ]
    ordered = [box for _, box in sorted(places, key=lambda place: place[0])]
    return next((box for box in ordered if room.is_clear(box.grown(0.7))), ordered[0])


def _dot(x: float, y: float) -> tuple[tuple[object, ...], ...]:
    r, k = POINT_RADIUS, POINT_RADIUS * 0.5523
    return (
        ("M", x + r, y), ("C", x + r, y + k, x + k, y + r, x, y + r), ("C", x - k, y + r, x - r, y + k, x - r, y),
        ("C", x - r, y - k, x - k, y - r, x, y - r), ("C", x + k, y - r, x + r, y - k, x + r, y), ("Z",),
    )  # fmt: skip


def _boxed(items: list[Item], room: Room, measures: list[Measure], each: Pass, scale: float, style: PictureStyle) -> Drawing:
    """Everything moved so that the drawing's corner is the origin."""
    width, height = float(each.lie.width) * scale, float(each.lie.height) * scale
    inked = room.extent or Box(0.0, 0.0, width, height)
    left, top, right, bottom = min(-1.0, inked.x0), min(-0.5, inked.y0), max(width, inked.x1), max(height, inked.y1)
    beyond = spacer_width(each, scale)
    left, right = (left, right + beyond) if each.stop == "right" else (min(left, -beyond - 0.5), right)
    for number, measure in enumerate(measures):
        items += measure.items
        if number == 0:
            left, top, right = min(left, measure.low), -LINE_OFF - measure.reach, max(right, measure.high)
        else:
            right, bottom = max(right, width + upright_off(each, scale) + measure.reach), max(bottom, measure.high)
            top = min(top, measure.low)
    return Drawing((Group(tuple(items), -left, -top),), right - left, bottom - top + THIN * style.weight)
