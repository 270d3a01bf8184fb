"""Thread in a plan picture: holes with their numbers, and the thread from hole to hole, seen on this side, dotted on the other.

The thread is drawn beside the line it runs along, in a flat bow: what is seen to one side, what is hidden to the other, so that neither
covers the other or the fold.
"""

from collections.abc import Sequence
from math import cos, hypot, pi, sin

from creasewright.booklet.diagrams.boxes import Box, box_about, circle, cubic_spots, polyline
from creasewright.booklet.diagrams.dimension_line import value_size, value_words
from creasewright.booklet.diagrams.line_code import chain_length, dotted
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet, moved_by
from creasewright.booklet.diagrams.picture_style import POINT, PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Prick, Spot, Stitch
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.drawing import Item, Pen, Shape
from creasewright.booklet.text_ruler import TextRuler

RADIUS = 0.85
"""mm of the ring that stands for a hole."""
THREAD = 1.5
"""pt"""
BOW = (1.6, 0.05, 4.0)
"""mm: how far the thread is drawn beside its line: the least, what each mm of its length adds, the most."""
CHORDS = 12


def on_page(spot: Spot, facets: Sequence[PageFacet], scale: float) -> Spot:
    """Where a place lies on the page, moved with the topmost sheet that it lies on or beside."""
    for facet in reversed(facets):
        if any(within((spot[0] + dx, spot[1] + dy), facet.source.polygon) for dx, dy in ((0.05, 0.0), (-0.05, 0.0), (0.0, 0.05))):
            return moved_by(facet.to_page, spot)
    return spot[0] * scale, spot[1] * scale


def bow(start: Spot, end: Spot, hidden: bool) -> Chain:
    """From hole to hole, seen thread to the left of a reader who looks from the head to the tail, hidden thread to the right."""
    (ax, ay), (bx, by) = sorted((start, end), key=lambda spot: (round(spot[1], 2), spot[0]))
    length = hypot(bx - ax, by - ay) or 1.0
    off = min(BOW[2], BOW[0] + BOW[1] * length) * (4 / 3) * (1.0 if hidden else -1.0)
    ux, uy = (bx - ax) / length, (by - ay) / length
    nx, ny = uy * off, -ux * off
    first = (ax + ux * 0.12 * length + nx, ay + uy * 0.12 * length + ny)
    second = (bx - ux * 0.12 * length + nx, by - uy * 0.12 * length + ny)
    return tuple(cubic_spots((ax, ay), first, second, (bx, by), CHORDS))


def stitch_items(
    stitches: Sequence[Stitch], pricks: Sequence[Prick], facets: Sequence[PageFacet], scale: float, room: Room, style: PictureStyle
) -> list[Item]:
    items: list[Item] = []
    for stitch in stitches:
        chain = bow(on_page(stitch.start, facets, scale), on_page(stitch.end, facets, scale), stitch.hidden)
        room.take_line(chain)
        width = THREAD * style.weight
        pen = Pen("ribbon", width, dotted(chain_length(chain) / POINT)) if stitch.hidden else Pen("ribbon", width)
        items.append(Shape(polyline(chain), pen, role="hidden thread" if stitch.hidden else "thread"))
    for prick in pricks:
        x, y = on_page(prick.spot, facets, scale)
        room.take_box(box_about((x, y), 2 * RADIUS, 2 * RADIUS))
        items.append(Shape(circle((x, y), RADIUS), Pen("INK", 0.9 * style.weight), "WHITE", role="hole"))
    return items


def number_items(
    pricks: Sequence[Prick], facets: Sequence[PageFacet], scale: float, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """The number of each hole, at the clear place nearest to it, first to the right."""
    items: list[Item] = []
    for prick in pricks:
        if prick.text:
            size = value_size(prick.text, ruler, style)
            box = nearest_clear(on_page(prick.spot, facets, scale), size, room)
            room.take_box(box)
            items.append(value_words(prick.text, box.middle, ruler, style))
    return items


def nearest_clear(at: Spot, size: tuple[float, float], room: Room) -> Box:
    for off in range(3, 16):
        for turn in range(12):
            angle = pi * ((turn + 1) // 2) / 6 * (1 if turn % 2 else -1)
            centre = at[0] + (off + size[0] / 2) * cos(angle), at[1] + (off + size[1] / 2) * sin(angle)
            box = box_about(centre, *size)
            if room.has_room(box) and room.is_clear(box.grown(0.6)):
                return box
    room.crowded += 1
    return box_about((at[0] + 4.0, at[1]), *size)
