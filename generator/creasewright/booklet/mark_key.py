"""Each mark of the visual language, drawn small for the key. mm, in a box of its own, head-left at (0, 0)."""

from collections.abc import Callable

from creasewright.booklet.cut_numbers import RADIUS, disc
from creasewright.booklet.diagrams.action_marks import ActionMark, action_mark
from creasewright.booklet.diagrams.boxes import Box, box_about, circle, polyline
from creasewright.booklet.diagrams.dimension_line import BEYOND, DimensionLine, dimension_items, value_places, value_size
from creasewright.booklet.diagrams.fold_arrow import fold_arrow, fold_curve
from creasewright.booklet.diagrams.glue_hatch import glue_area
from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Prick, Spot, Stitch
from creasewright.booklet.diagrams.slide_arrow import WIDE, slide_arrow
from creasewright.booklet.diagrams.stitches import stitch_items
from creasewright.booklet.drawing import Group, Item, Pen, Run, Shape, Words
from creasewright.booklet.fraction_text import with_true_fractions
from creasewright.booklet.pencilled_letter import DOTS, FACE, letter_and_dot
from creasewright.booklet.rules import pen_of
from creasewright.booklet.text_ruler import TextRuler
from creasewright.reading.page_layout import PageLayout

LONG = 26.0
"""Of a line."""
LINE_HEIGHT = 4.8
LETTER_TO_DOT = 3.0
"""From the left of a dot to the letter that it belongs to."""
ARROW, ARROW_HEIGHT = 20.0, 7.0
KINDS = {"edge": "cut", "valley": "valley", "mountain": "mountain", "fold line": "score", "hidden": "hidden"}
ARROWS = {"front": "front", "behind": "behind", "fold and open": "crease", "open": "open", "lift": "lift"}


class MarkKey:
    """Draws marks by name; the names are those of `marks_used`."""

    def __init__(self, layout: PageLayout, ruler: TextRuler, style: PictureStyle, letter: str, measure: str) -> None:
        self.layout, self.ruler, self.style = layout, ruler, style
        self.letter, self.example = letter, with_true_fractions(measure)
        self.others: dict[str, Callable[[], ActionMark]] = {
            "crease": self.crease, "sheet cut": self.sheet_cut, "tuck": self.tuck, "slide": self.slide, "glue": self.glue,
            "repeat": self.repeat, "scale": self.scale, "tag": self.tag, "cut number": self.cut_number, "measure": self.measure,
            "datum": self.datum, "letter": self.letter_place, "thread": self.thread, "hidden thread": self.hidden_thread,
        }  # fmt: skip

    def mark(self, name: str) -> ActionMark:
        if name in KINDS:
            shape = line_shape(KINDS[name], ((0.0, LINE_HEIGHT / 2), (LONG, LINE_HEIGHT / 2)), self.style)
            return ActionMark((shape,) if shape else (), LONG, LINE_HEIGHT)
        if name in ARROWS:
            return self.arrow(ARROWS[name])
        if name in self.others:
            return self.others[name]()
        return action_mark(name, "90°" if name == "turn" else "", self.ruler, self.style)

    def arrow(self, kind: str) -> ActionMark:
        curve = fold_curve((1.0, ARROW_HEIGHT - 1.5), (ARROW + 1.0, ARROW_HEIGHT - 1.5), left=True)
        return ActionMark(tuple(fold_arrow(kind, curve, "WHITE", self.style)), ARROW + 2.0, ARROW_HEIGHT)

    def crease(self) -> ActionMark:
        middle = LINE_HEIGHT / 2
        pen = Pen("INK", 0.9 * self.style.weight)
        items: list[Item] = [_line(((x, 0.3), (x, LINE_HEIGHT - 0.3)), pen) for x in (0.3, LONG - 0.3)]
        shape = line_shape("crease", ((0.3, middle), (LONG - 0.3, middle)), self.style)
        return ActionMark((*items, *((shape,) if shape else ())), LONG, LINE_HEIGHT)

    def sheet_cut(self) -> ActionMark:
        middle = max(LINE_HEIGHT / 2, RADIUS)
        line = _line(((2 * RADIUS, middle), (LONG, middle)), pen_of(self.layout.lines["sheet cut"]))
        return ActionMark((line, *disc(1, (RADIUS, middle), self.layout, self.ruler)), LONG, 2 * middle)

    def tuck(self) -> ActionMark:
        edge = ((10.0, 0.0), (22.0, 0.0), (22.0, ARROW_HEIGHT), (10.0, ARROW_HEIGHT))
        ground = Shape(polyline(edge, closed=True), None, "paper 1 back", role="paper")
        rim = _line(((10.0, 0.0), (10.0, ARROW_HEIGHT)), Pen("INK", 0.9 * self.style.weight))
        way = ((0.0, ARROW_HEIGHT / 2), (18.0, ARROW_HEIGHT / 2))
        return ActionMark((ground, rim, *fold_arrow("tuck", way, "WHITE", self.style, 10.0 / 18.0)), 22.0, ARROW_HEIGHT)

    def slide(self) -> ActionMark:
        middle = WIDE / 2 + 0.3
        return ActionMark((slide_arrow((0.3, middle), (ARROW, middle), self.style),), ARROW, 2 * middle)

    def glue(self) -> ActionMark:
        ring = ((0.2, 0.2), (24.0, 0.2), (24.0, 8.0), (0.2, 8.0))
        return ActionMark(tuple(glue_area((ring,), self.style)), 24.2, 8.2)

    def repeat(self) -> ActionMark:
        return _beside(action_mark("repeat", "", self.ruler, self.style), self.tag())

    def scale(self) -> ActionMark:
        size = self.style.label
        words = Words(0.0, self.ruler.cap_height("Bold", size), (Run("1:4", "Bold", size, "ACC"),), role="mark text")
        text = ActionMark((words,), self.ruler.width("1:4", "Bold", size), self.ruler.cap_height("Bold", size))
        return _beside(action_mark("scale", "", self.ruler, self.style), text)

    def tag(self) -> ActionMark:
        side = tag_side(self.style)
        return ActionMark(piece_tag(self.letter, (side / 2, side / 2), self.ruler, self.style), side, side)

    def letter_place(self) -> ActionMark:
        """With its dot, where a piece has one."""
        size, dot = self.style.label, DOTS[0]
        width, height = self.ruler.width(self.letter, FACE, size), self.ruler.cap_height(FACE, size)
        box = Box(LETTER_TO_DOT, 0.0, LETTER_TO_DOT + width, height)
        return ActionMark(letter_and_dot(self.letter, box, (dot, height - dot), dot, self.style), box.x1, height)

    def cut_number(self) -> ActionMark:
        return ActionMark(disc(2, (RADIUS, RADIUS), self.layout, self.ruler), 2 * RADIUS, 2 * RADIUS)

    def measure(self) -> ActionMark:
        """A dimension over an edge that is not drawn."""
        size = value_size(self.example, self.ruler, self.style)
        long = max(LONG, size[0] + 12.0)
        level = size[1] / 2 + BEYOND
        dimension = DimensionLine((0.3, 0.0), (long - 0.3, 0.0), ((0.3, level), (long - 0.3, level)), (0.0, 1.0), self.example)
        place = next(iter(value_places(dimension, size)))
        return ActionMark(tuple(dimension_items(dimension, place, self.ruler, self.style, set())), long, 2 * level)

    def thread(self, hidden: bool = False) -> ActionMark:
        middle = LINE_HEIGHT / 2
        ends = (1.0, middle), (LONG - 1.0, middle)
        pricks = tuple(Prick(end) for end in ends)
        items = stitch_items((Stitch(*ends, hidden),), pricks, (), 1.0, Room(LONG, LINE_HEIGHT), self.style)
        return ActionMark(tuple(items), LONG, LINE_HEIGHT)

    def hidden_thread(self) -> ActionMark:
        return self.thread(hidden=True)

    def datum(self) -> ActionMark:
        """A thick edge, the ring at its zero, and two places measured from it."""
        weight = self.style.weight
        items: list[Item] = [
            _line(((0.6, 0.0), (0.6, 8.0)), pen_of(self.layout.lines["datum edge"])),
            _line(((0.6, 4.0), (LONG, 4.0)), Pen("INK", 0.65 * weight)),
        ]
        for tip in (LONG * 0.6, LONG):
            head = ((tip, 4.0), (tip - 2.2, 3.1), (tip - 2.2, 4.9))
            items.append(Shape(polyline(head, closed=True), None, "INK", role="running measure"))
        items.append(Shape(circle((0.6, 4.0), 0.9), Pen("INK", 0.65 * weight), "WHITE", role="zero"))
        return ActionMark(tuple(items), LONG, 8.0)


def _line(spots: tuple[Spot, Spot], pen: Pen) -> Shape:
    return Shape(polyline(spots), pen, role="key line")


def _beside(first: ActionMark, second: ActionMark) -> ActionMark:
    height = max(first.height, second.height)
    left = first.width + 1.8
    return ActionMark(
        (
            Group(first.items, 0.0, (height - first.height) / 2),
            Group(second.items, left, box_about((0.0, height / 2), 0.0, second.height).y0),
        ),
        left + second.width,
        height,
    )
