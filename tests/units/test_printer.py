"""What a printer does to a page, and the page that comes out true in spite of it."""

from fractions import Fraction

import pytest

from creasewright.units.misread import Misread
from creasewright.units.printer import Printer, Reading
from creasewright.units.read_printer import read_back_shift, read_margins, read_printer_name, read_reading


def reading(percent: str) -> Reading:
    return Reading(Fraction(percent) * 2, Fraction(200))


def printer(across: str = "100", along: str = "100", **more) -> Printer:
    return Printer("kitchen", "letter", reading(across), reading(along), **more)


@pytest.mark.parametrize("across", ["97", "98.7", "100", "101.5", "103"])
@pytest.mark.parametrize("along", ["97", "100", "102.3"])
def test_250_mm_come_out_within_a_twentieth_of_a_millimetre(across, along):
    one = printer(across, along)
    for axis, percent in enumerate((across, along)):
        in_the_file = 250 * one.stretch[axis]
        assert abs(in_the_file * float(percent) / 100 - 250) < 1e-9


def test_a_printer_that_shrinks_leaves_more_white_where_true_lengths_count():
    # 4 mm of a page 200 wide: 96 from the middle, which print as 96 * 0.97 = 93.12, so 6.88 of the true frame stay white
    one = printer("97", "100", margins=(Fraction(4), Fraction(5), Fraction(4), Fraction(12)))
    assert one.white(200.0, 300.0) == pytest.approx((6.88, 5.0, 6.88, 12.0))


@pytest.mark.parametrize(
    ("read", "text", "worth"),
    [
        (read_reading, "178.6 mm of 180 mm", Reading(Fraction("178.6"), Fraction(180))),
        (read_reading, "7 1/32 in of 7 in", Reading(Fraction("178.59375"), Fraction("177.8"))),
        (read_margins, "4 mm", (4, 4, 4, 4)),
        (read_margins, "4 mm, 1/4 in, 0 mm, 12 mm", (4, Fraction("6.35"), 0, 12)),
        (read_back_shift, "0.5 mm right, 1 mm down", (Fraction(1, 2), 1)),
        (read_back_shift, "2 mm up", (0, -2)),
        (read_back_shift, "none", (0, 0)),
        (read_printer_name, " the  kitchen-one", "the kitchen-one"),
    ],
)
def test_what_was_measured_is_read(read, text, worth):
    assert read(text) == worth


@pytest.mark.parametrize(
    ("read", "text", "what", "hint"),
    [
        (
            read_reading, "126 mm of 180 mm",
            "126 mm of 180 mm means that the printer prints at 70.0 %, and at most 3 % off is put right",
            "print the test page at 100 % (not “fit to page”) and measure again",
        ),
        (read_reading, "126 mm", "`126 mm` does not say what the length should be", "write it as 178.6 mm of 180 mm"),
        (read_reading, "1 mm of 0 mm", "`1 mm of 0 mm` asks for a line of no length", "write it as 178.6 mm of 180 mm"),
        (read_reading, "126 of 180 mm", "126 has no unit", "write 126 mm or 126 in"),
        (read_margins, "4 mm, 5 mm", "`4 mm, 5 mm` is not four margins", "write left, top, right and bottom: 4 mm, 5 mm, 4 mm, 12 mm"),
        (read_back_shift, "1 mm", "`1 mm` is not a shift of the back", "write it as 0.5 mm right, 1 mm down"),
        (read_back_shift, "1 mm up, 2 mm down", "`1 mm up, 2 mm down` is not a shift of the back", "write it as 0.5 mm right, 1 mm down"),
        (read_back_shift, "30 mm up", "`30 mm up` is more than 20 mm", "look at the paper guides of the printer, and measure again"),
        (read_printer_name, "../up", "`../up` is not a name for a printer", "use small letters and digits, 30 at most"),
        (read_printer_name, "none", "`none` stands for no printer", "take another name"),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_told(read, text, what, hint):
    with pytest.raises(Misread) as caught:
        read(text)
    assert (caught.value.what, caught.value.hint) == (what, hint)


def test_three_per_cent_is_put_right_and_a_hair_more_is_not():
    assert read_reading("206 mm of 200 mm").scale == Fraction("1.03")
    with pytest.raises(Misread):
        read_reading("206.01 mm of 200 mm")
