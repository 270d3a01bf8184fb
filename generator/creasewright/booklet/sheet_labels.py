"""Tags and sizes on the parts of a sheet plan: one under the other, side by side, or broken; what has no room is left out.

The table under the drawing says the same, so nothing is lost where a small part shows its tag alone.
"""

from collections.abc import Iterator, Sequence

from creasewright.booklet.diagrams.boxes import Box, box_about, box_of
from creasewright.booklet.diagrams.label_places import Setting, leader, led_label
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.drawing import Item, Run, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import MM_PER_PT, line_width, one_line
from creasewright.reading.page_layout import PageLayout, TypeStyle

CLEAR = 0.9
"""mm between a label and the rim of its part, or anything else."""
GAP = 1.3
"""mm between a tag and its size."""
TRIES = (0.0, -0.15, 0.15, -0.3, 0.3)
"""How far from the middle a label may go, as a share of the part."""


def piece_label(
    letter: str, size: str, part: Box, room: Room, layout: PageLayout, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """The tag with the size under it or beside it, the size broken after its sign if it must be; else the tag alone."""
    side, text = tag_side(style), layout.types["text"]
    for lines in (*_breakings((size,)), ()):
        wide, high = _lines_size(lines, ruler, text)
        for beside in (False, True) if lines else (False,):
            w, h = (side + GAP + wide, max(side, high)) if beside else (max(side, wide), side + (GAP + high if lines else 0.0))
            place = _place(part, w, h, room)
            if place:
                room.take_box(place)
                tag_at = (place.x0 + side / 2, place.middle[1]) if beside else (place.middle[0], place.y0 + side / 2)
                at = (place.x1 - wide / 2, place.middle[1]) if beside else (place.middle[0], place.y1 - high / 2)
                return [*piece_tag(letter, tag_at, ruler, style), *_set(lines, at, ruler, text, "size")]
    return []


def tag_beside(letter: str, ring: Polygon2, sheet: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The tag of a piece that is too narrow for it: beside the sheet, with a leader."""
    side = tag_side(style)
    led = led_label([Setting(((letter, side),), side, side)], (ring,), sheet, room)
    room.take_line((led.dot, led.near))
    room.take_box(led.box)
    return [*leader(led.dot, led.near, style), *piece_tag(letter, led.box.middle, ruler, style)]


def leftover_label(keep: str, size: str, part: Box, room: Room, layout: PageLayout, ruler: TextRuler) -> list[Item]:
    """`keep 12 × 1 3/4` on one line, or broken; nothing where no way fits."""
    text = layout.types["label"]
    for lines in ((f"{keep} {size}",), *_breakings((keep, size))):
        wide, high = _lines_size(lines, ruler, text)
        place = _place(part, wide, high, room)
        if place:
            room.take_box(place)
            return _set(lines, place.middle, ruler, text, "leftover size")
    return []


def edge_name(name: str, sheet: Polygon2, side: int, room: Room, layout: PageLayout, ruler: TextRuler) -> list[Item]:
    """The name of a strip outside the sheet's head (`side` -1) or tail (1), at the first clear place from its middle on."""
    if not name:
        return []
    text, rim = layout.types["label"], box_of(sheet)
    wide, high = _lines_size((name,), ruler, text)
    level = rim.y1 + 1.6 + high / 2 if side > 0 else rim.y0 - 1.6 - high / 2
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        box = box_about((rim.x0 + share * rim.width, level), wide, high)
        if room.is_clear(box.grown(CLEAR)):
            room.take_box(box.grown(0.6))
            return _set((name,), box.middle, ruler, text, "edge name")
    return []


def _breakings(lines: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """As they are, then the last one broken after its multiplication sign."""
    yield lines
    first, sign, second = lines[-1].partition(" × ")
    if sign:
        yield (*lines[:-1], f"{first} ×", second)


def _lines_size(lines: Sequence[str], ruler: TextRuler, text: TypeStyle) -> tuple[float, float]:
    if not lines:
        return 0.0, 0.0
    wide = max(line_width(runs, ruler) for runs in _runs(lines, text))
    return wide, ruler.cap_height(text.face, text.size) + (len(lines) - 1) * _leading(text)


def _runs(lines: Sequence[str], text: TypeStyle) -> list[tuple[Run, ...]]:
    return [one_line(line, text) for line in lines]


def _leading(text: TypeStyle) -> float:
    return text.size * 1.2 * MM_PER_PT


def _place(part: Box, wide: float, high: float, room: Room) -> Box | None:
    """A clear place within the part, near its middle."""
    free_x, free_y = part.width - wide - 2 * CLEAR, part.height - high - 2 * CLEAR
    if free_x < 0 or free_y < 0:
        return None
    for up in TRIES:
        for across in TRIES:
            x = part.middle[0] + max(-free_x / 2, min(free_x / 2, across * part.width))
            y = part.middle[1] + max(-free_y / 2, min(free_y / 2, up * part.height))
            box = box_about((x, y), wide, high)
            if room.is_clear(box.grown(CLEAR * 0.9)):
                return box
    return None


def _set(lines: Sequence[str], centre: Spot, ruler: TextRuler, text: TypeStyle, role: str) -> list[Item]:
    """Centred on a place; capital heights count as the height of a line."""
    high = _lines_size(lines, ruler, text)[1]
    first = centre[1] - high / 2 + ruler.cap_height(text.face, text.size)
    return [
        Words(centre[0], first + k * _leading(text), runs, "middle", role=role) for k, runs in enumerate(_runs(lines, text))
    ]
