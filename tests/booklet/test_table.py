import pytest

from booklet.square_ruler import SquareRuler
from creasewright.booklet.drawing import Group, Item, Mark, Pen, Shape, Tagged, Words
from creasewright.booklet.table import Column, Note, Picture, grid_columns, table
from creasewright.reading.page_layout import PageLayout

RULER = SquareRuler()
COLUMNS = (Column("Piece", 0, 20, names_row=True), Column("Size", 25, 30), Column("Number", 60, 20, "end"))
SHAPE = Shape((("M", 0, 0), ("L", 10, 0), ("L", 10, 30), ("Z",)), Pen())


def test_each_row_is_a_block_and_the_head_stays_with_the_first(pack_layout: PageLayout) -> None:
    rows = [("A", "5 in", "1"), ("B", "7 in", "2"), ("C", "7 in", "2"), ("D", "7 in", "2"), ("E", "7 in", "2")]
    title, head, first, second, *others = table("cut list", COLUMNS, rows, pack_layout, RULER, 80, "Cut list", "1:8")
    assert title.keep_with_next and head.keep_with_next
    # no row alone: the first with the second, the last with the one before
    assert [row.keep_with_next for row in (first, second, *others)] == [True, False, False, True, False]
    assert {block.within for block in (head, first, second)} == {"Table cut list"}
    assert title.within == ""
    assert second.repeat is not None and second.repeat.items == head.items


def kinds(items: tuple[Item, ...]) -> list:
    return [[item.kind, *kinds(item.items)] for item in items if isinstance(item, Tagged)]


def test_rows_and_cells_are_tagged(pack_layout: PageLayout) -> None:
    head, row = table("t", COLUMNS, [("A", "5 in", "1")], pack_layout, RULER, 80)
    assert kinds(head.items) == [["TR", ["TH"], ["TH"], ["TH"]]]
    assert kinds(row.items) == [["TR", ["TH"], ["TD"], ["TD"]]]
    row_heads = [cell.scope for cell in row.items[0].items]
    assert row_heads == ["Row", "", ""]


def words_in(items: tuple[Item, ...], dy: float = 0.0) -> list[tuple[str, float]]:
    found: list[tuple[str, float]] = []
    for item in items:
        if isinstance(item, Words):
            found.append(("".join(run.text for run in item.runs), item.y + dy))
        elif isinstance(item, (Tagged, Group, Mark)):
            found.extend(words_in(item.items, dy + (item.dy if isinstance(item, Group) else 0)))
    return found


def test_a_row_is_as_high_as_its_tallest_cell_and_the_others_are_centred(pack_layout: PageLayout) -> None:
    picture = Picture((SHAPE,), 10, 30, "outline of A")
    _, row = table("t", COLUMNS, [("A", picture, "1")], pack_layout, RULER, 80, pad=2)
    assert row.height == 34  # 30 and 2 above and below
    (_, a), (_, one) = words_in(row.items)
    assert a == one
    # the baseline of a line centred on 17 mm: half of (ascent - descent) below it, 0.5 x (0.84 - 0.21)
    assert a == pytest.approx(17 + (0.8 - 0.2) * 10.5 / 10 / 2)


def test_lines_and_notes_of_a_cell_stand_under_one_another(pack_layout: PageLayout) -> None:
    _, row = table("t", COLUMNS, [(("**Pockets**\n5 × 10 in", Note("a mirror pair")), "", "")], pack_layout, RULER, 80)
    texts = words_in(row.items)
    assert [text for text, _ in texts] == ["Pockets", "5 × 10 in", "a mirror pair"]
    assert [y for _, y in texts] == sorted(y for _, y in texts)


def test_columns_start_on_the_grid(pack_layout: PageLayout) -> None:
    page = pack_layout.page("letter")
    # letter: 181.9 mm in six columns of 26.15 with gutters of 5 (look of the pages, section 1)
    first, second = grid_columns(page, [("Piece", 0, 1), ("Size", 2, 3)])
    assert (first.left, first.width) == (0, pytest.approx(26.15))
    assert (second.left, second.width) == (pytest.approx(62.3), pytest.approx(88.45))


def test_a_row_with_a_cell_too_few_is_refused(pack_layout: PageLayout) -> None:
    with pytest.raises(ValueError, match="a row of 2 cells in a table of 3 columns"):
        table("t", COLUMNS, [("A", "B")], pack_layout, RULER, 80)
