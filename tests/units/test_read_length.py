import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.units.quantity import inches, mm
from creasewright.units.read_length import LengthFault, read_length
from creasewright.units.spellings import VULGAR, mixed

INCH = Fraction("25.4")  # international yard and pound agreement, 1959: 1 yd = 0.9144 m exactly, so 914.4 / 36


@pytest.mark.parametrize(
    "text",
    ["4 3/4 in", '4-3/4"', "4¾ in", "4¾\"", "4.75 in", "4 3/4 inches", "4 3/4in", "4 ¾ in", "4-3/4 in", "4 3/4″", "4 3/4”",
     "4 3/4''", "  4  3/4   in ", "19/4 in", "4 3⁄4 in", "4\u20643⁄4 in", "4 6/8 inch", "4 3/4 in.", "4 3/4 IN", "04.750 in"],
)  # fmt: skip
def test_every_spelling_of_four_and_three_quarter_inches(text):
    assert read_length(text) == inches(Fraction(19, 4))
    assert read_length(text).mm == Fraction("120.65")  # 4.75 * 25.4


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1 in", mm(INCH)),
        ('3/8"', mm(INCH * 3 / 8)),
        ("4 ⅜ in", mm(INCH * 35 / 8)),
        ("⅜ in", mm(INCH * 3 / 8)),
        (".5 in", mm(INCH / 2)),
        ("1/3 in", mm(INCH / 3)),
        ("1/16 in", mm(Fraction("1.5875"))),  # 25.4 / 16
        ("1/8 in", mm(Fraction("3.175"))),  # 25.4 / 8
        ("1/32 in", mm(Fraction("0.79375"))),  # 25.4 / 32
        ("120 mm", mm(120)),
        ("120mm", mm(120)),
        ("12 cm", mm(120)),
        ("12.5 cm", mm(125)),
        ("12½ cm", mm(125)),
        ("104.5 millimetres", mm(Fraction(209, 2))),
        ("0 mm", mm(0)),
    ],
)
def test_lengths_are_exact(text, expected):
    assert read_length(text) == expected


@pytest.mark.parametrize(
    ("text", "what", "hint"),
    [
        ("12", "12 has no unit", "write 12 mm or 12 in"),
        ("4 3/4", "4 3/4 has no unit", "write 4 3/4 mm or 4 3/4 in"),
        ("3/4", "3/4 has no unit", "write 3/4 mm or 3/4 in"),
        ("4 3/0 in", "3/0 is not a fraction", "write the lower number as 2, 4, 8 or 16"),
        ("4 9/8 in", "4 9/8 has a fraction of one or more", "write 5 1/8 if that is meant"),
        ("-3 mm", "-3 mm is less than nothing", "write 3 mm"),
        ("− 3 mm", "− 3 mm is less than nothing", "write 3 mm"),
        ("12,5 cm", "12,5 cm has a comma in its number", "write 12.5 cm"),
        ("1e3 mm", "1e3 mm has an exponent", "write the number out, such as 1000 mm"),
        ("1 m", "1 m is not in mm, cm or in", "write it in mm or cm: 1 m is 100 cm"),
        ("2 ft", "2 ft is not in mm, cm or in", "write it in inches: 1 ft is 12 in"),
        ("12 pt", "12 pt is not in mm, cm or in", "points are for the caliper of a paper; write it in mm or in"),
        ("3 ells", "3 ells is in a unit that is not known here", "write 3 mm, 3 cm or 3 in"),
        ("wide", "wide is not a length", "write a number and a unit, such as 4 3/4 in or 120 mm"),
        ("", "nothing is written where a length should be", "write a length such as 4 3/4 in or 120 mm"),
        ("1" * 39 + "mm", f"`{'1' * 20}…` is too long for a length", "write a number and a unit, such as 4 3/4 in or 120 mm"),
    ],
)
def test_a_text_that_is_no_length_says_what_and_what_to_do(text, what, hint):
    with pytest.raises(LengthFault) as caught:
        read_length(text)
    assert (caught.value.what, caught.value.hint) == (what, hint)


@pytest.mark.parametrize(
    "text", ["4 3 mm", "4.5 1/2 in", "4 - 3/4 in", "1 2 3/4 in", "3/4/5 in", "1.2.3 mm", "٣ mm", "mm", "in", "nan mm", "3 mm²"]
)
def test_near_lengths_are_refused(text):
    with pytest.raises(LengthFault):
        read_length(text)


@given(st.text(max_size=60))
def test_any_text_is_a_length_or_a_told_fault(text):
    try:
        assert read_length(text).mm >= 0
    except LengthFault as fault:
        assert fault.what and fault.hint


@given(st.text(alphabet="0123456789 ./-¾⅜⁄inmc\"″'", max_size=20))
def test_text_of_the_letters_of_lengths_is_a_length_or_a_told_fault(text):
    try:
        assert read_length(text).power == 1
    except LengthFault as fault:
        assert fault.what and fault.hint


@given(st.integers(0, 999), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_an_inch_length_reads_back_from_its_words(whole, over, under):
    count = whole + Fraction(over % under, under)
    assert read_length(f"{mixed(count)} in") == inches(count)


@given(st.integers(0, 10**6))
def test_a_metric_length_reads_back_from_its_decimals(thousandths):
    assert read_length(f"{thousandths / 1000:.3f} mm").mm == Fraction(thousandths, 1000)


def test_one_character_fractions_say_what_unicode_says_they_are():
    # Unicode Character Database, field Numeric_Value, as Python carries it
    for character, (over, under) in VULGAR.items():
        assert unicodedata.numeric(character) == pytest.approx(over / under, abs=1e-9)
