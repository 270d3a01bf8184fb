"""The piece tag: a white square with its top right corner clipped, the piece's letter inside; wider for `A1` or `AB`."""

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

SIDE, CLIP = 5.2, 1.5
"""mm, for a letter of 10 pt; both grow with the letter."""
BESIDE_LETTER = 1.0
"""mm of white at either side of a letter that is wider than one."""


def tag_side(style: PictureStyle) -> float:
    return SIDE * style.tag / 10


def tag_width(letter: str, ruler: TextRuler, style: PictureStyle) -> float:
    return max(tag_side(style), ruler.width(letter, "Black", style.tag) + 2 * BESIDE_LETTER * style.tag / 10)


def piece_tag(letter: str, centre: Spot, ruler: TextRuler, style: PictureStyle) -> tuple[Item, ...]:
    """Box and letter; the letter's capital height stands in the middle."""
    side = tag_side(style)
    clip = side * CLIP / SIDE
    wide = tag_width(letter, ruler, style)
    x0, y0 = centre[0] - wide / 2, centre[1] - side / 2
    x1, y1 = x0 + wide, y0 + side
    corners = ((x0, y0), (x1 - clip, y0), (x1, y0 + clip), (x1, y1), (x0, y1))
    return (
        Shape(polyline(corners, closed=True), Pen("INK", 0.65 * style.weight), "WHITE", role="tag box"),
        Words(
            centre[0],
            centre[1] + ruler.cap_height("Black", style.tag) / 2,
            (Run(letter, "Black", style.tag),),
            "middle",
            role="tag",
        ),
    )
