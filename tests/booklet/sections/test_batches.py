"""Cutting for a class: batches, counts and what a leftover has room for, worked by hand."""

from fractions import Fraction

from creasewright.booklet.batches import batches_of
from creasewright.booklet.sections import sheet_plans
from creasewright.cutting.demand import Piece, Stock
from creasewright.cutting.plan_rectangles import plan_rectangles
from section_cases import context_of, said
from small_designs import PLAIN_PAPER, with_steps, worked_of

SQUARE = "board: {width: 150 mm, height: 150 mm}"
PAPER = PLAIN_PAPER.replace("[600 mm, 600 mm]", "[300 mm, 350 mm]")


def test_equal_sheets_are_cut_in_batches():
    # 300 x 350: 50 comes off, then one cut parts two strips and one cut parts each into squares of 150; ten sheets.
    plan = plan_rectangles([Piece("A", Fraction(150), Fraction(150), 40, False)], [Stock("card", Fraction(300), Fraction(350))])
    (sheet,) = plan.sheets
    batches = batches_of(sheet)
    assert sum(batch.total for batch in batches) == 10 * len(sheet.cuts)
    assert sum(count for batch in batches for _, count in batch.pieces) == 40
    assert [batch.cuts[0].setting for batch in batches].count(150) >= 1


def test_a_class_gets_batches_a_count_by_tables_and_the_leftovers():
    worked = worked_of(with_steps(SQUARE, "{lay: board}"), PAPER, makers=24)
    words = said(sheet_plans.build(context_of(worked, "sheet plans")))
    # 24 squares, four a sheet: six sheets; a table of 6 has 6
    assert "Cut in batches" in words and "6 sheets" in words
    assert "Table of 6" in words and "24" in words


def test_one_maker_without_spares_has_no_batches_and_no_counts():
    worked = worked_of(with_steps(SQUARE, "{lay: board}"), PAPER)
    words = said(sheet_plans.build(context_of(worked, "sheet plans")))
    assert "Cut in batches" not in words and "Count them out" not in words
    # 150 x 300 is left beside the square and below it: room for one more or two
    assert "Left over" in words and "× A" in words
