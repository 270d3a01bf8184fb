"""The letter that is pencilled on a piece, in grey on the piece's drawing: at its place, or near it with a line to a dot at the place.

The place may lie in a strip of glue so narrow, or so near an edge, that the letter itself has no room there. Letter and dot touch no line
of the piece; where the letter has no room at all, it stands beside the piece: at the right of an upright one, else under it. mm on the
page.
"""

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_about, box_of, circle, polyline
from creasewright.booklet.diagrams.label_places import inner_places
from creasewright.booklet.diagrams.line_code import THIN
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

FACE, GREY = "Regular", "INK2"
FREE = 0.5
"""Between the letter and any line."""
DOTS = (0.4, 0.25, 0.12)
"""Radii of the dot: the largest that has room."""
BESIDE = 1.8
"""From the piece to a letter beside it."""
END = 0.3
"""From the line to the letter that it comes from."""


class Pencilled(Struct, frozen=True):
    items: tuple[Item, ...]
    taken: tuple[Box, ...]
    """Motifs keep off these."""


def pencilled_letter(letter: str, at: Spot, outline: Polygon2, room: Room, ruler: TextRuler, style: PictureStyle) -> Pencilled:
    """`at`: the place; `room`: knows the outline, and every other line of the piece."""
    wide, high = ruler.width(letter, FACE, style.label), ruler.cap_height(FACE, style.label)
    box = next((one for one in inner_places((outline,), wide, high, at) if room.is_clear(one.grown(FREE))), None)
    if box is not None and box.grown(FREE).holds(box_about(at, 0.0, 0.0)):
        return Pencilled((_words(letter, box, style),), (box.grown(FREE),))
    radius = next((one for one in DOTS if room.is_clear(box_about(at, 2 * one, 2 * one))), DOTS[-1])
    taken = box_about(at, 2 * radius, 2 * radius)
    if box is None:
        outside = _beside(box_of(outline), at, wide, high)
        return Pencilled(letter_and_dot(letter, outside, at, radius, style), (outside, taken))
    return Pencilled(letter_and_dot(letter, box, at, radius, style), (box.grown(FREE), taken))


def _beside(whole: Box, at: Spot, wide: float, high: float) -> Box:
    if whole.height >= whole.width:
        return box_about((whole.x1 + BESIDE + wide / 2, at[1]), wide, high)
    return box_about((max(at[0], whole.x0 + wide / 2), whole.y1 + BESIDE + high / 2), wide, high)


def letter_and_dot(letter: str, box: Box, at: Spot, radius: float, style: PictureStyle) -> tuple[Item, ...]:
    near = min(max(at[0], box.x0 - END), box.x1 + END), min(max(at[1], box.y0 - END), box.y1 + END)
    line = Shape(polyline((at, near)), Pen(GREY, THIN * style.weight), role="pencilled letter's line")
    return line, _dot(at, radius), _words(letter, box, style)


def _words(letter: str, box: Box, style: PictureStyle) -> Words:
    return Words(box.middle[0], box.y1, (Run(letter, FACE, style.label, GREY),), "middle", role="pencilled letter")


def _dot(at: Spot, radius: float) -> Shape:
    return Shape(circle(at, radius), None, GREY, role="pencilled letter's dot")
