"""What makes neighbouring tiles meet: frame, corner crosses and quarter discs, combs, strips, the neighbours' names.
mm of the page, y down.

Comb   eleven ticks on both sides of a join, 1 mm apart on the tile that carries the strip and 0.9 mm apart on the one laid on it:
       the middle ticks meet when the join is right, and the tick that meets tells the slip in tenths of a millimetre
       (P. Vernier, 1631).
"""

from math import pi

from msgspec import Struct

from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.free_space import Box, FreeSpace
from creasewright.booklet.tiling.placing import Cell, Segment, clipped
from creasewright.booklet.tiling.template_form import arc_commands, box_path, line_path
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import CROSS_OUT, Window

CROSS_IN = 10.0
DISC = 5.0
TICKS = 5
"""To each side of the middle one."""
TICK, MIDDLE_TICK = 3.0, 4.6
KEPT_CLEAR = (8.0, 6.0, 4.0, 2.0, 0.0)
"""What a comb keeps from every line of the template, mm; less only where the whole join offers no such place."""
FROM_CORNER = DISC + CROSS_IN
HEAD_NAME_IN = 14.0
"""mm from the left of the window: where a name above it stands, if it must."""
FRAME_PEN, CROSS_PEN, COMB_PEN = Pen("INK2", 0.4, cap="butt"), Pen("INK", 0.6, cap="butt"), Pen("INK", 0.45, cap="butt")
SIDES: dict[str, Cell] = {"right": (0, 1), "tail": (1, 0), "left": (0, -1), "head": (-1, 0)}


class Neighbours(Struct, frozen=True):
    """The cells beside a tile that are printed; None where there is none."""

    right: Cell | None
    tail: Cell | None
    left: Cell | None
    head: Cell | None

    def at(self, side: str) -> Cell | None:
        found: Cell | None = getattr(self, side)
        return found

    @property
    def any(self) -> bool:
        return any(self.at(side) is not None for side in SIDES)


def neighbours_of(cell: Cell, printed: tuple[Cell, ...]) -> Neighbours:
    beside = {side: (cell[0] + step[0], cell[1] + step[1]) for side, step in SIDES.items()}
    return Neighbours(**{side: place if place in printed else None for side, place in beside.items()})


def comb_places(length: float, lines: tuple[Segment, ...]) -> tuple[float, float]:
    """Where the middles of a join's two combs stand, from its start; `lines` in a frame in which the join is the x
    axis from 0."""
    near = [line for line in lines if min(line[1], line[3]) < 13 and max(line[1], line[3]) > -13]
    first = _comb_place(length / 3, length, near, taken=None)
    return first, _comb_place(length * 2 / 3, length, near, taken=first)


def _comb_place(wanted: float, length: float, lines: list[Segment], taken: float | None) -> float:
    steps = range(int(FROM_CORNER) + TICKS, int(length - FROM_CORNER) - TICKS)
    places = sorted(
        (float(step) for step in steps if taken is None or abs(step - taken) > 4 * TICKS), key=lambda at: abs(at - wanted)
    )
    for clear in KEPT_CLEAR:
        across, deep = TICKS + clear, MIDDLE_TICK + clear
        for at in (wanted, *places) if taken is None or abs(wanted - taken) > 4 * TICKS else places:
            if not any(clipped(line, at - across, -deep, at + across, deep) for line in lines):
                return at
    return wanted


def comb(window: Window, side: str, at: float) -> tuple[list[Item], Box]:
    """The ticks on one side of the window, `at` mm from the edge's start (from the left, or from the head); and the room they
    take."""
    pitch = 1.0 if side in ("right", "tail") else 0.9
    items: list[Item] = []
    for k in range(-TICKS, TICKS + 1):
        long = MIDDLE_TICK if k == 0 else TICK
        items.append(Shape(line_path(*_tick(window, side, at + k * pitch, long)), COMB_PEN, role=f"comb {side}"))
    (x0, y0), (x1, y1) = _tick(window, side, at - TICKS - 1, MIDDLE_TICK)[0], _tick(window, side, at + TICKS + 1, MIDDLE_TICK)[1]
    return items, (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _tick(window: Window, side: str, at: float, long: float) -> tuple[tuple[float, float], tuple[float, float]]:
    if side in ("left", "right"):
        edge, inward = (window.left, 1) if side == "left" else (window.right, -1)
        return (edge, window.head + at), (edge + inward * long, window.head + at)
    edge, inward = (window.head, 1) if side == "head" else (window.tail, -1)
    return (window.left + at, edge), (window.left + at, edge + inward * long)


def frame(window: Window, joined: bool, lines: tuple[Segment, ...]) -> list[Item]:
    """The window's edge with crosses at its corners, and quarter discs on pages that are joined; hollow where a line runs under
    one."""
    items: list[Item] = [Shape(box_path(window.left, window.head, window.right, window.tail), FRAME_PEN, role="window")]
    for x, inward_x in ((window.left, 1), (window.right, -1)):
        for y, inward_y in ((window.head, 1), (window.tail, -1)):
            items.append(
                Shape(line_path((x - inward_x * CROSS_OUT, y), (x + inward_x * CROSS_IN, y)), CROSS_PEN, role="corner cross")
            )
            items.append(
                Shape(line_path((x, y - inward_y * CROSS_OUT), (x, y + inward_y * CROSS_IN)), CROSS_PEN, role="corner cross")
            )
            if joined:
                box = (
                    min(x, x + inward_x * DISC),
                    min(y, y + inward_y * DISC),
                    max(x, x + inward_x * DISC),
                    max(y, y + inward_y * DISC),
                )
                hidden = any(clipped(line, box[0] - 1, box[1] - 1, box[2] + 1, box[3] + 1) for line in lines)
                items.append(_quarter_disc(x, y, inward_x, inward_y, hollow=hidden))
    return items


def corner_boxes(window: Window) -> list[Box]:
    return [
        (x if i > 0 else x - DISC, y if k > 0 else y - DISC, x + DISC if i > 0 else x, y + DISC if k > 0 else y)
        for x, i in ((window.left, 1), (window.right, -1))
        for y, k in ((window.head, 1), (window.tail, -1))
    ]


def _quarter_disc(x: float, y: float, inward_x: int, inward_y: int, hollow: bool) -> Item:
    begin = {(1, 1): 0.0, (-1, 1): pi / 2, (-1, -1): pi, (1, -1): 3 * pi / 2}[inward_x, inward_y]
    turns = arc_commands((x, y), DISC, begin, pi / 2)
    on_axis = {(1, 1): (x + DISC, y), (-1, 1): (x, y + DISC), (-1, -1): (x - DISC, y), (1, -1): (x, y - DISC)}[inward_x, inward_y]
    path = (("M", x, y), ("L", *on_axis), *turns, ("Z",))
    return Shape(path, Pen("INK", 0.5) if hollow else None, None if hollow else "INK", role="quarter disc")


def strips(window: Window, beside: Neighbours, names: dict[Cell, str], words: TileWords) -> tuple[list[Item], list[Item]]:
    """The grey strips that neighbours are laid on, and the words on them; none where tiles are butted."""
    grey: list[Item] = []
    text: list[Item] = []
    strip = window.strip
    if beside.right and strip:
        tail = window.tail + (strip if beside.tail else 0.0)
        grey.append(Shape(box_path(window.right, window.head, window.right + strip, tail), fill="offcut", role="strip right"))
        text.append(_strip_words(window.right + strip / 2 + 1.1, window.head + window.height * 0.3, -90, names[beside.right], words))
    if beside.tail and strip:
        grey.append(
            Shape(box_path(window.left, window.tail, window.right, window.tail + strip), fill="offcut", role="strip tail")
        )
        text.append(_strip_words(window.left + window.width * 0.3, window.tail + strip / 2 + 1.1, 0, names[beside.tail], words))
    return grey, text


def _strip_words(x: float, y: float, turned: int, neighbour: str, words: TileWords) -> Item:
    runs = (Run(words.strip.format(tile=neighbour), "Bold", 9.5),)
    return Words(x, y, runs, "middle", turned, role="strip words")


def neighbour_names(window: Window, beside: Neighbours, names: dict[Cell, str], space: FreeSpace, ruler: TextRuler) -> list[Item]:
    """Each neighbour's name inside the edge it is beyond, as near the edge's middle as there is room; just outside the edge
    where there is none."""
    middle_x, middle_y = window.left + window.width / 2, window.head + window.height / 2
    inset = 8.5
    places = {
        "right": (window.right - inset, middle_y),
        "left": (window.left + inset, middle_y),
        "head": (middle_x, window.head + inset),
        "tail": (middle_x, window.tail - inset),
    }
    items: list[Item] = []
    for side, place in places.items():
        cell = beside.at(side)
        if cell is None:
            continue
        name = names[cell]
        wide, tall = ruler.width(name, "Bold", 12.5), ruler.cap_height("Bold", 12.5)
        found = _along_edge(space, place, side, wide + 3, tall + 3, window)
        if found:
            items.append(Words(found[0], found[1] + tall / 2, (Run(name, "Bold", 12.5),), "middle", role="neighbour"))
            space.mark_box((found[0] - wide / 2, found[1] - tall / 2, found[0] + wide / 2, found[1] + tall / 2))
        elif not (window.strip and side in ("right", "tail")):
            items.append(_outside(window, side, name))
    return items


def _outside(window: Window, side: str, name: str) -> Item:
    """A neighbour's name between the window and the bare margin; strips say it already."""
    x, y, turned = {
        "left": (window.left - 1.4, window.head + window.height / 2, -90),
        "right": (window.right + 3.6, window.head + window.height / 2, -90),
        "head": (window.left + HEAD_NAME_IN, window.head - 1.0, 0),
        "tail": (window.left + window.width / 2, window.tail + 3.4, 0),
    }[side]
    return Words(x, y, (Run(name, "Bold", 9.0),), "middle", turned, role="neighbour")


def _along_edge(
    space: FreeSpace, place: tuple[float, float], side: str, wide: float, tall: float, window: Window
) -> tuple[float, float] | None:
    half = (window.height if side in ("left", "right") else window.width) / 2 - FROM_CORNER
    for k in range(int(half)):
        for step in (k, -k):
            x, y = (place[0], place[1] + step) if side in ("left", "right") else (place[0] + step, place[1])
            if space.is_free((x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)):
                return x, y
    return None
