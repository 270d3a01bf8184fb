"""Rows of steps: full or of one cell, in order, on as little paper as they can be."""

import pytest

from creasewright.booklet.diagrams.scene import Picture, PlanScene
from creasewright.booklet.step_picture import StepPicture
from creasewright.booklet.step_rows import (
    BESIDE,
    BETWEEN,
    TEXT,
    TO_PICTURE,
    Pages,
    PlacedCell,
    SizedCell,
    StepCell,
    lowest_rows,
    row_height,
)

COLUMN, GUTTER = 25.0, 5.0


def cell(wide: float, high: float, text_area: float) -> SizedCell:
    step = StepCell("1", f"{text_area}", StepPicture(PlanScene(()), None, ("", "")), "", "")
    return SizedCell(step, 2, Picture((), wide, high, "1:4"), False)


def place(sized: SizedCell, columns: int, beside: int) -> PlacedCell | None:
    """Text of a given area is as high as its width leaves it."""
    span = (beside or columns) * (COLUMN + GUTTER) - GUTTER
    if sized.picture.width > span and (beside or columns < 6):
        return None
    wide = (columns - beside) * (COLUMN + GUTTER) - GUTTER
    return PlacedCell(sized, columns, beside, (), float(sized.cell.text) / wide)


PAGES = Pages(0.0, 220.0)


@pytest.mark.parametrize("count", range(1, 12))
def test_rows_are_full_or_of_one_cell_and_keep_the_order(count: int) -> None:
    cells = [cell(20.0 + 11 * (k % 9), 30.0 + k, 300.0 + 170 * k) for k in range(count)]
    rows = lowest_rows(cells, place, PAGES)
    assert [placed.cell for row in rows for placed in row] == cells
    assert all(len(row) == 1 or sum(placed.columns for placed in row) == 6 for row in rows)


def test_a_lone_step_with_few_words_and_a_small_picture_takes_no_whole_row() -> None:
    # 50 x 40 mm and two lines: two columns of 55 mm and as many beside them, whatever the words
    for area in (300.0, 600.0, 900.0):
        ((placed,),) = lowest_rows([cell(50, 40, area)], place, PAGES)
        assert placed.columns == 4 and placed.beside == 2
    # words as high as the picture, or a picture that needs it, fill the row
    ((placed,),) = lowest_rows([cell(85, 60, 4500)], place, PAGES)
    assert placed.columns == 6 and placed.beside == 3
    ((placed,),) = lowest_rows([cell(140, 60, 900)], place, PAGES)
    assert placed.columns == 6 and not placed.beside


def test_a_whole_row_is_taken_where_it_saves_a_page() -> None:
    # 85 x 60 mm below three lines is 89 mm high in three columns, 71 mm beside them
    sized = cell(85, 60, 1200)
    ((roomy,),) = lowest_rows([sized], place, Pages(0.0, 220.0))
    ((tight,),) = lowest_rows([sized], place, Pages(220.0 - 79.0, 220.0))
    assert roomy.columns < 6 and tight.columns == 6


def test_three_narrow_steps_share_a_row() -> None:
    rows = lowest_rows([cell(40, 30, 550)] * 3, place, PAGES)
    assert [[placed.columns for placed in row] for row in rows] == [[2, 2, 2]]
    # text 550 mm² in two columns of 25 and a gutter of 5: 10 mm high
    assert row_height(rows[0]) == pytest.approx(TEXT + 10 + TO_PICTURE + 30)


def test_a_long_text_alone_stands_beside_its_picture() -> None:
    ((placed,),) = lowest_rows([cell(50, 60, 4000)], place, PAGES)
    assert placed.beside and row_height([placed]) == pytest.approx(BESIDE + 60)


def test_a_picture_wider_than_the_page_is_still_set() -> None:
    rows = lowest_rows([cell(400, 30, 550)], place, PAGES)
    assert [placed.columns for placed in rows[0]] == [6]


def test_a_row_without_room_goes_to_the_head_of_the_next_page() -> None:
    pages = Pages(0.0, 100.0)
    assert pages.after(20.0, 73.0) == 20 + BETWEEN + 73  # ends at 100, the foot of the page
    assert pages.after(20.0, 73.9) == 100  # a little of the white above it is given
    assert pages.after(20.0, 74.1) == pytest.approx(100 + 74.1)
    assert pages.after(100.0, 60.0) == pytest.approx(160)  # none is above the first row of a page


def test_rows_leave_room_for_what_follows_them() -> None:
    sized = cell(85, 60, 1200)
    ((alone,),) = lowest_rows([sized], place, Pages(0.0, 220.0))
    ((followed,),) = lowest_rows([sized], place, Pages(0.0, 220.0), 140.0)  # 71 + 7 + 140 is 218, 89 + 7 + 140 is 236
    assert alone.columns < 6 and followed.columns == 6
    ((followed,),) = lowest_rows([sized], place, Pages(0.0, 220.0), 120.0)
    assert followed.columns < 6
