"""A flat piece drawn true to scale as it lies: tone and print of the side up, its lines, its outline, its tag. mm on the page."""

from collections.abc import Callable, Sequence

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.diagrams.boxes import Box, box_about, box_of, polyline
from creasewright.booklet.diagrams.label_places import inside
from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.motifs import motif_group
from creasewright.booklet.diagrams.picture_style import POINT, PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side, tag_width
from creasewright.booklet.diagrams.plan_facets import fill_of, hole_polygon, motif_of
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.drawing import Item, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.outline import flattened
from creasewright.geometry.plane_transform import Affine
from creasewright.geometry.point import Point
from creasewright.scoring.lies import Lie

UNDER_TAG = 1.7
"""mm between the tag and the words under it."""
LEADING = 1.22
"""Of the label's size."""


class DrawnLine(Struct, frozen=True):
    kind: str
    """As in `line_code`: `mountain`, `valley`, `score`, `slit`."""
    way: tuple[Spot, ...]
    """In the frame of the lie, mm of the piece, from end to end."""
    name: str = ""


class PieceLook(Struct, frozen=True):
    mark: str
    """On the tag inside it."""
    paper: PaperFacts | None
    turn: int
    """Of its blank on the sheet: which way the print runs."""
    later: tuple[Polygon2, ...] = ()
    """Lines that a step will cut along, in the frame of the lie, mm of the piece."""
    words: tuple[str, ...] = ()
    """In italics under the tag, each a line, where there is room."""


def lying_piece(
    blank: Blank, lie: Lie, lines: Sequence[DrawnLine], look: PieceLook, scale: float, ruler: TextRuler, style: PictureStyle,
    beside: Callable[[Room], Sequence[Item]] | None = None,
) -> tuple[tuple[Item, ...], Room]:
    """The items, the lie's origin at (0, 0), and what is taken on the page by them; the print keeps off what `beside` adds."""
    page = _to_page(lie, scale)
    ring = tuple(_spot(page, Point(x, y)) for x, y in flattened(blank.outline.edges))
    holes = [tuple(hole_polygon(hole, page.floats())) for hole in blank.holes]
    room = Room(1000.0, 1000.0)
    room.take_line((*ring, ring[0]))
    for hole in holes:
        room.take_line((*hole, hole[0]))
    drawn = [*lines, *_slits(blank, lie)]
    strokes = [item for line in drawn if (item := _stroke(line, scale, style))]
    for line in drawn:
        room.take_line(tuple(_scaled(place, scale) for place in line.way))
    own_lines = len(room.lines)
    cuts = [tuple(_scaled(spot, scale) for spot in chain) for chain in look.later]
    for chain in cuts:
        room.take_line(chain)
    waiting = [line_shape("hidden", chain, style, role="line cut later") for chain in cuts]
    labels = tag_and_words((ring, *holes), look, room, ruler, style)
    added = beside(room) if beside else ()
    front = lie.up == "front"
    ground = _rings(ring, holes)
    fill = Shape(ground, None, fill_of(look.paper, front), even_odd=True, role=f"paper {blank.name}")
    motif = motif_of(look.paper, front, look.turn, lie.to_lie.floats())
    prints = motif_group(motif, (ring, *holes), scale, room.near(box_of(ring), own_lines), style, ground) if motif else None
    rims = [line_shape("cut", (*loop, loop[0]), style, role="outline") for loop in (ring, *holes)]
    items = (fill, prints, *strokes, *waiting, *rims, *labels)
    return (*(item for item in items if item is not None), *added), room


def _to_page(lie: Lie, scale: float) -> Affine:
    return lie.to_lie.then(Affine(a=scale, d=scale))


def _spot(page: Affine, point: Point) -> Spot:
    moved = page.point(point)
    return float(moved.x), float(moved.y)


def _scaled(spot: Spot, scale: float) -> Spot:
    return spot[0] * scale, spot[1] * scale


def _rings(ring: Polygon2, holes: Sequence[Polygon2]) -> tuple[tuple[object, ...], ...]:
    return tuple(command for loop in (ring, *holes) for command in polyline(loop, closed=True))


def _slits(blank: Blank, lie: Lie) -> list[DrawnLine]:
    found = []
    for slit in blank.slits:
        start, end = (lie.to_lie.point(p) for p in (slit.start, slit.end))
        found.append(DrawnLine("slit", ((float(start.x), float(start.y)), (float(end.x), float(end.y))), slit.name))
    return found


def _stroke(line: DrawnLine, scale: float, style: PictureStyle) -> Shape | None:
    way = tuple(_scaled(place, scale) for place in line.way)
    return line_shape(line.kind, way, style, role=f"line {line.kind} {line.name}".strip())


def tag_and_words(rings: Sequence[Polygon2], look: PieceLook, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The tag with its words under it, inside the piece; fewer words where there is little room, the tag beside it if none."""
    side, tag = tag_side(style), tag_width(look.mark, ruler, style)
    line = style.label * LEADING * POINT
    whole = box_of(rings[0])
    for count in range(len(look.words), -1, -1):
        words = look.words[:count]
        wide = max([tag, *(ruler.width(text, style.label_face, style.label) for text in words)])
        box = inside(rings, wide, side + (UNDER_TAG if words else 0.0) + count * line, whole.middle, room)
        if box:
            return _set(look.mark, words, box, room, ruler, style)
    return _set(look.mark, (), box_about((whole.x1 + 2.0 + tag / 2, whole.middle[1]), tag, side), room, ruler, style)


def _set(mark: str, words: Sequence[str], box: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    room.take_box(box)
    side = tag_side(style)
    items: list[Item] = [*piece_tag(mark, (box.middle[0], box.y0 + side / 2), ruler, style)]
    y = box.y0 + side + UNDER_TAG
    for k, text in enumerate(words):
        baseline = y + ruler.cap_height(style.label_face, style.label) + k * style.label * LEADING * POINT
        items.append(Words(box.middle[0], baseline, (Run(text, style.label_face, style.label),), "middle", role="label"))
    return items
