"""Tables: a group head with its rule, a head row, rows parted by thin rules; no verticals, no stripes, no boxes.

Each row is one block, so that a table may run on over pages; its head row is then set again. Cells hold text, notes and
drawings, one under the other, centred on the row's height. Tagged as Table, TR, TH, TD.
"""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.drawing import Group, Item, Mark, Tagged
from creasewright.booklet.rules import rule
from creasewright.booklet.text_blocks import BEFORE_GROUP, group_head
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import paragraph
from creasewright.reading.page_layout import PageLayout, PageSize, TypeStyle

ROW_PAD = 2.2
"""White above and below the tallest cell of a row, mm."""
HEAD_PAD = 1.2


class Note(Struct, frozen=True):
    """Text in the style of side notes, under the text of its cell."""

    text: str


class Picture(Struct, frozen=True):
    """A drawing in a cell, its top left corner at (0, 0). Without `alt` it is an ornament."""

    items: tuple[Item, ...]
    width: float
    height: float
    alt: str = ""


Part = str | Note | Picture
Cell = Part | tuple[Part, ...]
"""Text may hold `**bold**`, `*italic*` and line ends, each of which begins a new line."""


class Column(Struct, frozen=True):
    """`left` from the left end of the measure, mm."""

    title: str
    left: float
    width: float
    anchor: str = "start"
    """`start`, `middle` or `end`."""
    names_row: bool = False
    """Its cells name their rows: row heads for a screen reader."""


def grid_columns(page: PageSize, places: Sequence[tuple[str, int, int]]) -> tuple[Column, ...]:
    """Columns on the page's grid: title, first grid column (from 0) and how many of them."""
    return tuple(Column(title, page.column_left(first), page.span(count)) for title, first, count in places)


def table(
    key: str,
    columns: Sequence[Column],
    rows: Sequence[Sequence[Cell]],
    layout: PageLayout,
    ruler: TextRuler,
    width: float,
    title: str = "",
    note: str = "",
    pad: float = ROW_PAD,
) -> tuple[Block, ...]:
    """The table's blocks from top to bottom; neither its first nor its last row stands alone on a page.

    `key` tells it from the next table; `title` and `note` make its group head.
    """
    blocks: list[Block] = [group_head(title, layout, width, ruler, note)] if title else []
    head = _head_row(key, columns, layout, ruler, width) if any(column.title for column in columns) else None
    if head:
        blocks.append(head if title else replace(head, space_before=BEFORE_GROUP))
    for number, cells in enumerate(rows, start=1):
        if len(cells) != len(columns):
            raise ValueError(f"a row of {len(cells)} cells in a table of {len(columns)} columns")
        row = _row(key, columns, cells, layout, ruler, width, pad)
        alone = len(rows) > 1 and number in (1, len(rows) - 1)
        blocks.append(replace(row, repeat=head and replace(head, space_before=0.0), keep_with_next=alone))
    return tuple(blocks)


def _head_row(key: str, columns: Sequence[Column], layout: PageLayout, ruler: TextRuler, width: float) -> Block:
    cells: list[Item] = []
    tallest = 0.0
    for column in columns:
        lines, height = paragraph(
            column.title, column.left, HEAD_PAD, column.width, ruler, layout.types["table head"], column.anchor
        )
        cells.append(Tagged("TH", lines, scope="Column"))
        tallest = max(tallest, height)
    height = tallest + 2 * HEAD_PAD
    items = (Tagged("TR", tuple(cells)), Mark((rule(layout, "table rule", 0, width, height),)))
    return Block(height, items, keep_with_next=True, within=f"Table {key}")


def _row(
    key: str, columns: Sequence[Column], cells: Sequence[Cell], layout: PageLayout, ruler: TextRuler, width: float, pad: float
) -> Block:
    set_cells = [_cell(column, cell, layout, ruler) for column, cell in zip(columns, cells, strict=True)]
    tallest = max((height for _, height in set_cells), default=0.0)
    height = tallest + 2 * pad
    tagged: list[Item] = []
    for column, (items, its_height) in zip(columns, set_cells, strict=True):
        placed = (Group(items, 0, pad + (tallest - its_height) / 2),)
        tagged.append(Tagged("TH", placed, scope="Row") if column.names_row else Tagged("TD", placed))
    items = (Tagged("TR", tuple(tagged)), Mark((rule(layout, "table rule", 0, width, height),)))
    return Block(height, items, within=f"Table {key}")


def _cell(column: Column, cell: Cell, layout: PageLayout, ruler: TextRuler) -> tuple[tuple[Item, ...], float]:
    """The cell's items with the cell's top at y = 0, and its height."""
    parts = cell if isinstance(cell, tuple) else (cell,)
    items: list[Item] = []
    y = 0.0
    for part in parts:
        if isinstance(part, Picture):
            items.append(_picture(column, part, y))
            y += part.height
        else:
            style = layout.types["side note" if isinstance(part, Note) else "text"]
            lines, height = _text(part.text if isinstance(part, Note) else part, column, y, style, ruler)
            items.extend(lines)
            y += height
    return tuple(items), y


def _text(text: str, column: Column, y: float, style: TypeStyle, ruler: TextRuler) -> tuple[list[Item], float]:
    items: list[Item] = []
    top = y
    for line in text.split("\n"):
        lines, height = paragraph(line, column.left, y, column.width, ruler, style, column.anchor)
        items.extend(lines)
        y += height
    return items, y - top


def _picture(column: Column, picture: Picture, y: float) -> Item:
    spare = column.width - picture.width
    shift = {"start": 0.0, "middle": spare / 2, "end": spare}[column.anchor]
    placed = (Group(picture.items, column.left + shift, y),)
    return Tagged("Figure", placed, alt=picture.alt) if picture.alt else Mark(placed)
