"""The check square: 50 mm on every template page, where it disturbs least. mm of the page, y down."""

from msgspec import Struct

from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.template_form import box_path, line_path
from creasewright.booklet.tiling.tile_words import TileWords

SIDE = 50.0
CLEAR = 5.0
"""mm from every cut and score."""
ROOM = SIDE + 2 * CLEAR
PEN, LIGHT_PEN, TICK_PEN = Pen("INK2", 0.5, cap="butt"), Pen("INK2", 0.3, cap="butt"), Pen("INK2", 0.3, cap="butt")
TICKS = {10: 3.4, 5: 2.6, 1: 1.5}
"""Length of the ticks at tens, fives and single millimetres."""


class SquarePlace(Struct, frozen=True):
    """Head-left corner, and what it lies over: `nothing`, `scores` or `cuts`."""

    left: float
    head: float
    over: str


def square_place(spaces: tuple[tuple[FreeSpace, str], ...]) -> SquarePlace | None:
    """The emptiest place of the first space that has one free with its clearance; each space says what it leaves out
    of account."""
    for space, over in spaces:
        found = space.emptiest_square(ROOM)
        if found:
            return SquarePlace(found[0] - SIDE / 2, found[1] - SIDE / 2, over)
    return None


def check_square(place: SquarePlace, words: TileWords, ruler: TextRuler, space: FreeSpace) -> list[Item]:
    """The square with ticks along its left and tail sides and its size inside; thin where it lies over other lines."""
    left, head, right, tail = place.left, place.head, place.left + SIDE, place.head + SIDE
    pen = PEN if place.over == "nothing" else LIGHT_PEN
    items: list[Item] = [Shape(box_path(left, head, right, tail), pen, role="check square")]
    for k in range(1, int(SIDE)):
        long = next(length for step, length in TICKS.items() if k % step == 0)
        items.append(Shape(line_path((left, tail - k), (left + long, tail - k)), TICK_PEN, role="check square tick"))
        items.append(Shape(line_path((left + k, tail), (left + k, tail - long)), TICK_PEN, role="check square tick"))
    return items + _inscription(place, words, ruler, space)


Line = tuple[str, str, float, float]
"""Text, face, size in pt, and mm from the baseline before."""


def _inscription(place: SquarePlace, words: TileWords, ruler: TextRuler, space: FreeSpace) -> list[Item]:
    """In the middle; where the square lies over scores, between them if one of the ways to break the lines fits."""
    middle = (place.left + SIDE / 2 + 1.5, place.head + SIDE / 2 - 1.5)
    ways = [_lines(words, words.square_kind), _lines(words, words.square_kind_narrow), [(words.square_line, "Bold", 9.5, 4.5)]]
    if place.over == "nothing":
        return _set(ways[0], middle)
    for lines in ways:
        wide = max(ruler.width(text, face, size) for text, face, size, _ in lines)
        tall = sum(drop for *_, drop in lines)
        found = space.nearest_free(middle, wide + 1.0, tall + 1.0, (SIDE - wide) / 2 - max(TICKS.values()))
        if found:
            return _set(lines, found)
    return _set(ways[1], middle)


def _lines(words: TileWords, kind: tuple[str, ...]) -> list[Line]:
    return [
        (words.square_mm, "Bold", 13.0, 6.2),
        (words.square_in, "Bold", 10.5, 5.6),
        *((text, "Regular", 9.5, 4.5) for text in kind),
    ]


def _set(lines: list[Line], middle: tuple[float, float]) -> list[Item]:
    baseline = middle[1] - sum(drop for *_, drop in lines) / 2
    items: list[Item] = []
    for text, face, size, drop in lines:
        baseline += drop
        items.append(Words(middle[0], baseline - 1.2, (Run(text, face, size),), "middle", role="check square words"))
    return items
