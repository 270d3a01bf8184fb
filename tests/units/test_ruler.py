from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.units.quantity import inches
from creasewright.units.read_length import read_length
from creasewright.units.ruler import (
    DOWN,
    HALF_MM_RULER,
    INCH_RULER,
    MM_RULER,
    UP,
    Marked,
    as_set,
    length_in_words,
    mark_at_or_above,
    mark_at_or_below,
    mark_in_words,
    nearest_mark,
    pair_in_words,
    plain_words,
    ruler_of,
)

RULERS = st.sampled_from([INCH_RULER, MM_RULER, HALF_MM_RULER])
LENGTHS = st.fractions(min_value=-500, max_value=2000, max_denominator=1000)
TINY = Fraction(1, 10**6)


def test_the_step_of_the_inch_ruler_is_a_sixteenth():
    assert INCH_RULER.step_mm == Fraction("1.5875")  # 25.4 / 16
    assert ruler_of("in") == INCH_RULER and ruler_of("mm") == MM_RULER


@pytest.mark.parametrize(
    ("mm", "ruler", "text", "exact", "residue"),
    [
        (inches(Fraction(67, 16)).mm, INCH_RULER, "4 3/16 in", True, 0),
        (inches(Fraction(3, 8)).mm, INCH_RULER, "3/8 in", True, 0),
        (inches(4).mm, INCH_RULER, "4 in", True, 0),
        (Fraction(0), INCH_RULER, "0 in", True, 0),
        (Fraction(105), MM_RULER, "105 mm", True, 0),
        (Fraction("104.5"), HALF_MM_RULER, "104.5 mm", True, 0),
        (Fraction("104.3"), MM_RULER, "104 mm", False, Fraction("0.3")),
        (Fraction("104.3"), HALF_MM_RULER, "104.5 mm", False, Fraction("-0.2")),
        (Fraction(10), INCH_RULER, "3/8 in", False, Fraction("0.475")),  # 10 - 9.525
        (Fraction("104.5"), MM_RULER, "105 mm", False, Fraction("-0.5")),  # half way goes up
        (-inches(Fraction(3, 16)).mm, INCH_RULER, "−3/16 in", True, 0),
    ],
)
def test_a_length_is_said_as_its_nearest_mark(mm, ruler, text, exact, residue):
    assert mark_in_words(mm, ruler) == Marked(text, exact, residue)


def test_rounding_up_and_down_is_said_so():
    assert mark_in_words(Fraction("104.1"), MM_RULER, UP).text == "105 mm"
    assert mark_in_words(Fraction("104.9"), MM_RULER, DOWN).text == "104 mm"


def test_what_geometry_leaves_behind_does_not_move_a_length_to_the_next_mark():
    assert mark_in_words(105.0000001, MM_RULER, UP) == Marked("105 mm", True, Fraction(0))
    assert mark_in_words(104.9999999, MM_RULER, DOWN) == Marked("105 mm", True, Fraction(0))
    assert mark_in_words(105.00001, MM_RULER, UP).text == "106 mm"


@given(LENGTHS, RULERS)
def test_up_is_not_below_and_down_is_not_above_and_both_are_within_a_step(mm, ruler):
    # a millionth of a mm is the least that counts; the lengths drawn here are thousandths or coarser, but for inch marks
    above, below, nearest = mark_at_or_above(mm, ruler), mark_at_or_below(mm, ruler), nearest_mark(mm, ruler)
    assert above + TINY >= mm >= below - TINY
    assert above - mm < ruler.step_mm and mm - below < ruler.step_mm
    assert abs(nearest - mm) <= ruler.step_mm / 2
    assert all((mark / ruler.step_mm).denominator == 1 for mark in (above, below, nearest))


@given(st.integers(-2000, 5000), RULERS)
def test_a_mark_stays_where_it_is(count, ruler):
    mark = count * ruler.step_mm
    assert nearest_mark(mark, ruler) == mark_at_or_above(mark, ruler) == mark_at_or_below(mark, ruler) == mark


@given(st.fractions(min_value=0, max_value=900, max_denominator=1000), RULERS)
def test_words_read_back_as_the_mark_and_mark_and_residue_make_the_length(mm, ruler):
    marked = mark_in_words(mm, ruler)
    assert read_length(marked.text).mm == nearest_mark(mm, ruler)
    assert read_length(as_set(marked.text)).mm == nearest_mark(mm, ruler)
    if not marked.exact:
        assert read_length(marked.text).mm + marked.residue_mm == mm


def test_a_pair_says_its_unit_once():
    assert pair_in_words(inches(Fraction(21, 4)).mm, inches(Fraction(15, 2)).mm, INCH_RULER) == "5 1/4 × 7 1/2 in"
    assert pair_in_words(Fraction(210), Fraction("297.4"), MM_RULER) == "210 × 297 mm"
    assert pair_in_words(Fraction("209.2"), Fraction("297.4"), MM_RULER, UP) == "210 × 298 mm"


def test_plain_words_tell_a_length_that_is_on_no_ruler():
    assert plain_words(inches(Fraction(17, 2)).mm, "in") == "8 1/2"
    assert plain_words(Fraction("0.27"), "in") == "0.011"  # 0.27 / 25.4 = 0.010630
    assert plain_words(Fraction("0.27"), "mm") == "0.27"
    assert plain_words(Fraction(105), "mm") == "105"
    assert plain_words(Fraction("0.001"), "mm") == "0"
    assert plain_words(Fraction("-1.5"), "mm") == "−1.5"
    assert length_in_words(Fraction("0.3048"), "mm") == "0.3 mm"


@pytest.mark.parametrize(
    ("text", "set_text"),
    [
        ("4 3/16 in", "4\u20643⁄16 in"),
        ("3/8 in", "3⁄8 in"),
        ("5 1/4 × 7 1/2 in", "5\u20641⁄4 × 7\u20641⁄2 in"),
        ("cut 105 mm", "cut 105 mm"),
        ("page/centre", "page/centre"),
        ("1/2/2024", "1/2/2024"),
    ],
)
def test_fractions_are_set_as_the_drawing_list_wants_them(text, set_text):
    assert as_set(text) == set_text
    assert as_set(set_text) == set_text
