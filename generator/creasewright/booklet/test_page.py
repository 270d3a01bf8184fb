"""The printer's test page: two rulers, a square, a probe at each edge, and a target on both sides of the sheet. mm of the page, y down.

Everything but the probes is drawn for the printer it is given (none: as it is), so that a page made with what was measured shows
whether it was measured well. The probes tell a place of the file's own page, so they are never moved.
"""

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct

from creasewright.booklet.drawing import Bookmark, Document, Group, Item, Mark, Page, Run, Tagged, Words
from creasewright.booklet.probes import back_target, edge_probe, end_marks, front_target
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.check_square import SIDE, SquarePlace, check_square
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.spots import Spot
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.true_rulers import true_ruler
from creasewright.booklet.typeset import paragraph, paragraphs
from creasewright.reading.page_layout import PageLayout, PageSize
from creasewright.units.printer import Printer, stretch_of
from creasewright.units.quantity import MM_PER_INCH

TEXT_LEFT, TEXT_HEAD, TEXT_GAP = 52.0, 62.0, 2.6
ACROSS_LEVEL, DOWN_LEFT, DOWN_HEAD = 36.0, 34.0, 60.0
"""Of the ruler across its line's height and of the one down its line's place and its 0."""
SQUARE_GAP = (20.0, 40.0)
"""From the square to the page's right and tail edges."""


class TestLines(Struct, frozen=True):
    """The lines that are measured, A to B across the page and C to D down it: mm, exact."""

    across: Fraction
    along: Fraction
    millimetres: tuple[int, int]
    """How far the two rulers are marked in millimetres."""
    inches: tuple[int, int]


IN_INCHES = TestLines(7 * MM_PER_INCH, 8 * MM_PER_INCH, (177, 203), (7, 8))
IN_MILLIMETRES = TestLines(Fraction(180), Fraction(210), (180, 210), (7, 8))

Said = Callable[[str], str]
"""The text of that name from the layout, filled in."""


def test_lines(page: str) -> TestLines:
    """Round numbers of the paper's own system."""
    return IN_INCHES if page == "letter" else IN_MILLIMETRES


def test_document(layout: PageLayout, page: PageSize, ruler: TextRuler, said: Said, printer: Printer | None) -> Document:
    """Both sides of one sheet."""
    stretch = stretch_of(printer)
    items = (Mark(tuple(_probes(page, ruler, stretch))), *_front(layout, page, ruler, said))
    front = Page(page.width, page.height, items, "1", (Bookmark("front", said("title")),), stretch)
    right, down = (float(off) for off in printer.back) if printer is not None else (0.0, 0.0)
    # seen from behind, what landed to the right lies to the left: the cross moves right, and up by what it lies too low
    seen_behind = Group(tuple(_back(layout, page, ruler, said)), right, -down)
    back = Page(page.width, page.height, (seen_behind,), "2", (), stretch)
    return Document(said("title"), "", said("about"), layout.language, (front, back), (), layout.palette, both_sides=True)


def _probes(page: PageSize, ruler: TextRuler, stretch: tuple[float, float]) -> list[Item]:
    """Placed so that the page's stretch brings them to their places in the file."""
    x, y = page.width / 2, page.height / 2

    def placed(at: Spot) -> Spot:
        return x + (at[0] - x) / stretch[0], y + (at[1] - y) / stretch[1]

    sides = ("left", "head", "right", "tail")
    return [item for side in sides for item in edge_probe(side, page.width, page.height, ruler, placed)]


def _front(layout: PageLayout, page: PageSize, ruler: TextRuler, said: Said) -> list[Item]:
    lines = test_lines(page.name)
    left = (page.width - float(lines.across)) / 2
    level = Group(true_ruler(ruler, lines.millimetres[0], lines.inches[0], upright=False), left, ACROSS_LEVEL)
    upright = Group(true_ruler(ruler, lines.millimetres[1], lines.inches[1], upright=True), DOWN_LEFT, DOWN_HEAD)
    right, tail = left + float(lines.across), DOWN_HEAD + float(lines.along)
    ends = [
        *end_marks(left, ACROSS_LEVEL, "A", upright=False, beyond=14.1),
        *end_marks(right, ACROSS_LEVEL, "B", upright=False, beyond=14.1),
        *end_marks(DOWN_LEFT, DOWN_HEAD, "C", upright=True, beyond=-4.0),
        *end_marks(DOWN_LEFT, tail, "D", upright=True, beyond=8.0),
    ]
    square = SquarePlace(page.width - SQUARE_GAP[0] - SIDE, page.height - SQUARE_GAP[1] - SIDE, "nothing")
    space = FreeSpace(0.0, 0.0, page.width, page.height)
    target = front_target(page.width / 2, page.height / 2, ruler)
    figure = (level, upright, *ends, *target, *check_square(square, TileWords(), ruler, space))
    return [
        *_text(layout, ruler, said("steps"), TEXT_LEFT, TEXT_HEAD, page.width - TEXT_LEFT - 20.0, said("title")),
        Tagged("Figure", figure, alt=said("alt")),
        *_text(layout, ruler, said("then"), TEXT_LEFT, page.height / 2 + 22.0, page.width - TEXT_LEFT - 20.0),
    ]


def _back(layout: PageLayout, page: PageSize, ruler: TextRuler, said: Said) -> list[Item]:
    x, y = page.width / 2, page.height / 2
    words = _text(layout, ruler, said("back"), TEXT_LEFT, y + 30.0, page.width - 2 * TEXT_LEFT)
    return [Tagged("Figure", tuple(back_target(x, y)), alt=said("back alt")), *words]


def _text(layout: PageLayout, ruler: TextRuler, text: str, left: float, top: float, width: float, title: str = "") -> list[Item]:
    items: list[Item] = []
    if title:
        style = layout.types["section head"]
        items.append(Tagged("H1", (Words(left, top, (Run(title, style.face, style.size, style.colour),), role="text"),)))
        top += 5.0
    for part in paragraphs(text):
        lines, height = paragraph(part, left, top, width, ruler, layout.types["text"])
        items.append(Tagged("P", lines))
        top += height + TEXT_GAP
    return items
