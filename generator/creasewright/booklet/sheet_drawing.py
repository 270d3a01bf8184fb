"""A sheet plan drawn to scale: pieces in their paper, leftovers and lost strips grey, cuts numbered where the blade enters.

Frame while laying out: mm on the page from the sheet's head-left corner; the finished picture has its origin at its own.
A cut's number stands outside the sheet where its part reaches the rim, else on the line itself.
"""

from collections.abc import Callable

from msgspec import Struct

from creasewright.booklet.cut_numbers import RADIUS, cut_line, disc, disc_place, drawn_line
from creasewright.booklet.diagrams.boxes import Box, box_of, polyline
from creasewright.booklet.diagrams.line_code import THIN, WIDTHS
from creasewright.booklet.diagrams.motifs import motif_group
from creasewright.booklet.diagrams.picture_style import POINT, PictureStyle
from creasewright.booklet.diagrams.plan_facets import fill_of
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2
from creasewright.booklet.drawing import Group, Item, Pen, Shape
from creasewright.booklet.piece_drawing import front_motif
from creasewright.booklet.rules import pen_of
from creasewright.booklet.sheet_labels import edge_name, leftover_label, piece_label, tag_beside
from creasewright.booklet.text_ruler import TextRuler
from creasewright.cutting.plan import Offcut, Placement, SheetPlan
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.point import Number
from creasewright.reading.page_layout import PageLayout

WORTH_KEEPING = (25.0, 4000.0)
"""mm and mm²: a leftover is kept if its shorter side and its area reach these. Common practice, no source."""
INK = 0.3
"""mm: half the widest line at the rim of the picture."""
NARROW = 2.0
"""mm on the page: beside a strip lost to an edge that is narrower the sheet's rim is a thin line, as the cut there is a thick one."""


class SheetWords(Struct, frozen=True):
    size: Callable[[Placement | Offcut], str]
    """Width and height of a part as it lies."""
    keep: str
    """Set before the size of a leftover worth keeping."""
    head_strip: str = ""
    tail_strip: str = ""
    """What the strip lost there is called, where it is more than a rough edge."""


class SheetPicture(Struct, frozen=True):
    items: tuple[Item, ...]
    width: float
    height: float
    sheet: tuple[float, float]
    """Where the sheet's head-left corner lies in the picture."""


def is_worth_keeping(offcut: Offcut) -> bool:
    least, area = WORTH_KEEPING
    return min(offcut.width, offcut.height) >= least and offcut.width * offcut.height >= area


def sheet_picture(
    plan: SheetPlan,
    paper: PaperFacts,
    scale: float,
    words: SheetWords,
    layout: PageLayout,
    ruler: TextRuler,
    style: PictureStyle,
) -> SheetPicture:
    room = Room(1000.0, 1000.0)
    sheet = _ring((0, 0, plan.stock.width, plan.stock.height), scale)
    room.ink(box_of(sheet))
    ground = _ground(plan, paper, scale, sheet)
    lines, discs = _cuts(plan, scale, layout, ruler, style, room)
    own_lines = len(room.lines)
    labels: list[Item] = []
    narrow: list[Placement] = []
    for placement in plan.placements:
        label = piece_label(placement.key, words.size(placement), _box(placement, scale), room, layout, ruler, style)
        labels += label
        narrow += [] if label else [placement]
    for offcut in plan.offcuts:
        if is_worth_keeping(offcut):
            labels += leftover_label(words.keep, words.size(offcut), _box(offcut, scale), room, layout, ruler)
    for name, side in ((words.head_strip, -1), (words.tail_strip, 1)):
        labels += edge_name(name, sheet, side, room, layout, ruler)
    for placement in narrow:
        ring = _ring((placement.x, placement.y, placement.width, placement.height), scale)
        labels += tag_beside(placement.key, ring, box_of(sheet), room, ruler, style)
    narrow_strip = any(0 < float(lost) * scale < NARROW for lost in plan.stock.usable)
    rim_width = THIN if narrow_strip else WIDTHS["cut"]
    rim = Shape(polyline(sheet, closed=True), Pen("INK", rim_width * style.weight), role="sheet rim")
    items = (*ground, *_prints(plan, paper, scale, room.near(box_of(sheet), own_lines), style), rim, *lines, *discs, *labels)
    extent = (room.extent or box_of(sheet)).grown(INK)
    moved = Group(items, -extent.x0, -extent.y0)
    return SheetPicture((moved,), extent.width, extent.height, (-extent.x0, -extent.y0))


def _ground(plan: SheetPlan, paper: PaperFacts, scale: float, sheet: Polygon2) -> list[Item]:
    items: list[Item] = [Shape(polyline(sheet, closed=True), None, "offcut", role="sheet")]
    for offcut in plan.offcuts:
        ring = _ring((offcut.x, offcut.y, offcut.width, offcut.height), scale)
        items.append(Shape(polyline(ring, closed=True), None, "offcut", role="leftover"))
    for placement in plan.placements:
        ring = _ring((placement.x, placement.y, placement.width, placement.height), scale)
        items.append(Shape(polyline(ring, closed=True), None, fill_of(paper, True), role=f"piece {placement.key}"))
    return items


def _cuts(
    plan: SheetPlan, scale: float, layout: PageLayout, ruler: TextRuler, style: PictureStyle, room: Room
) -> tuple[list[Item], list[Item]]:
    """Lines and numbered discs, both noted in the room."""
    pen = pen_of(layout.lines["sheet cut"])
    segments = [cut_line(cut, scale) for cut in plan.cuts]
    items: list[Item] = []
    discs: list[Item] = []
    taken: list[Box] = []
    for k, cut in enumerate(plan.cuts):
        others = segments[:k] + segments[k + 1 :]
        place = disc_place(cut, plan, scale, others, taken)
        taken.append(box_of((place.centre,)).grown(RADIUS + 0.4))
        items.append(Shape(drawn_line(segments[k], place), pen, role=f"cut {cut.number}"))
        discs += disc(cut.number, place.centre, layout, ruler)
        room.take_line(segments[k])
        room.take_line((segments[k][0 if place.at_entry else 1], *((place.bend,) if place.bend else ()), place.centre))
        room.take_box(box_of((place.centre,)).grown(RADIUS))
    ends = [spot for line in segments for spot in line] or [(0.0, 0.0)]
    room.ink(box_of(ends).grown(pen.width * POINT / 2))
    return items, discs


def _prints(plan: SheetPlan, paper: PaperFacts, scale: float, room: Room, style: PictureStyle) -> list[Item]:
    """The sheet's print on its pieces, on one lattice for the whole sheet."""
    motif = front_motif(paper, 0)
    if motif is None:
        return []
    rings = [_ring((p.x, p.y, p.width, p.height), scale) for p in plan.placements]
    return [shape for ring in rings if (shape := motif_group(motif, (ring,), scale, room, style))]


def _ring(box: tuple[Number, Number, Number, Number], scale: float) -> Polygon2:
    x, y, wide, high = (float(value) * scale for value in box)
    return ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))


def _box(part: Placement | Offcut, scale: float) -> Box:
    return box_of(_ring((part.x, part.y, part.width, part.height), scale))
