"""How the cells of an assembly share its rows: in order, every row full but that of a lone cell, the rows together as low as they can be.

A cell's picture stands below its text, or in the last columns of the cell beside its text. Lengths are mm on the page.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import product

from msgspec import Struct

from creasewright.booklet.diagrams.scene import Picture
from creasewright.booklet.drawing import Words
from creasewright.booklet.stacking import LEAST
from creasewright.booklet.step_views import StepPicture

SHAPES = ((2, 2, 2), (2, 4), (4, 2), (3, 3), (2,), (3,), (4,), (6,))
"""Columns of the cells of a row. A cell that stands alone is no wider than it needs."""
BESIDES = {2: (0,), 3: (0,), 4: (0, 2), 6: (0, 2, 3, 4)}
"""Columns that a picture beside its text may take, by those of its cell; 0: below it."""
TEXT, BESIDE, TO_PICTURE = 11.2, 11.2, 3.0
"""From a cell's rule to its text and to a picture beside it; from a text to the picture below it."""
BETWEEN = 7.0
"""Above each row."""
LONG_LINE = 12.0
"""mm that text over all six columns counts more: a line of that length is hard to follow."""
BROAD, HOLLOW = 115.0, 50.0
"""A picture is broad from so many mm on; and mm that a cell of six columns counts more whose picture is not, and whose text is not half as
high as the picture beside it: most of it is white."""
NARROW, MANY_LINES = 2, 38.0
"""A text in so few columns is at most so high: about seven lines."""


class StepCell(Struct, frozen=True):
    number: str
    """Empty for the picture of a result."""
    text: str
    picture: StepPicture
    state_words: str
    """Which side is up."""
    alt: str
    note: str = ""
    """In small type below the text: how long the joint is held and dries."""


class SizedCell(Struct, frozen=True):
    cell: StepCell
    least: int
    """Columns: the fewest that hold its number, marks and state line beside each other."""
    picture: Picture
    rescaled: bool
    """The scale differs from that of the cell before."""


class PlacedCell(Struct, frozen=True):
    cell: SizedCell
    columns: int
    beside: int
    """Columns of its picture at the right of its text; 0: the picture is below."""
    words: tuple[Words, ...]
    text_height: float
    """With the note."""
    note: tuple[Words, ...] = ()


class Pages(Struct, frozen=True):
    """The run of pages that rows are set on, as one length: mm from the top of the first page's content."""

    start: float
    """Where the rows begin."""
    height: float
    """Of a page's content."""

    def after(self, place: float, height: float) -> float:
        """Where a row ends that is so high and follows `place`: on the next page if this one has no room."""
        page, down = divmod(place, self.height)
        white = BETWEEN if down else 0.0
        if down + min(white, LEAST) + height > self.height:
            return (page + 1) * self.height + height
        return min(place + white + height, (page + 1) * self.height)


Place = Callable[[SizedCell, int, int], PlacedCell | None]
Row = tuple[PlacedCell, ...]


def row_height(row: Sequence[PlacedCell]) -> float:
    """Pictures below their text hang from one level, that of the longest text."""
    under = [cell for cell in row if not cell.beside]
    text = max((cell.text_height for cell in under), default=0.0)
    below = text + TO_PICTURE + max((cell.cell.picture.height for cell in under), default=0.0) if under else 0.0
    aside = max((max(cell.text_height, cell.cell.picture.height) for cell in row if cell.beside), default=0.0)
    return max(TEXT + below, BESIDE + aside)


def lowest_rows(cells: Sequence[SizedCell], place: Place, pages: Pages, below: float = 0.0) -> list[list[PlacedCell]]:
    """The rows, the last of which ends as far up the run of pages as can be, or what is `below` mm high and follows it does.

    `place` gives a cell so many columns wide, with its picture beside its text in so many of them, or None. Cells before a cell
    are set the best way whatever follows, for what ends sooner is never worse for what comes after.
    """
    best: list[tuple[float, float, list[Row]]] = [(pages.start, 0.0, [])]
    for end in range(1, len(cells) + 1):
        options: list[tuple[float, float, list[Row]]] = []
        for start in range(max(0, end - 3), end):
            before, hard, rows = best[start]
            for row in rows_of(cells[start:end], place):
                ends = pages.after(before, row_height(row))
                ends = pages.after(ends, below) if below and end == len(cells) else ends
                options.append((ends, hard + awkward(row), [*rows, row]))
        best.append(min(options, key=lambda option: option[0] + option[1]))
    return [list(row) for row in best[-1][2]]


def rows_of(cells: Sequence[SizedCell], place: Place) -> Iterator[Row]:
    """Every way in which these make one row."""
    for shape in SHAPES:
        if len(shape) == len(cells):
            ways = [
                [placed for beside in BESIDES[columns] if (placed := place(cell, columns, beside)) and reads(placed)]
                for cell, columns in zip(cells, shape, strict=True)
            ]
            yield from product(*ways)


def reads(placed: PlacedCell) -> bool:
    """A narrow text is short, or no higher than the picture beside it."""
    most = max(MANY_LINES, placed.cell.picture.height if placed.beside else 0.0)
    return placed.columns - placed.beside > NARROW or placed.text_height <= most


def awkward(row: Row) -> float:
    """mm that the row counts more than it is high."""
    return sum(white(cell) for cell in row if cell.columns == 6)


def white(placed: PlacedCell) -> float:
    picture = placed.cell.picture
    if not placed.beside:
        return LONG_LINE if picture.width > BROAD else 2 * LONG_LINE
    return 0.0 if picture.width > BROAD or 2 * placed.text_height >= picture.height else HOLLOW
