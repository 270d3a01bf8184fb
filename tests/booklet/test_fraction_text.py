import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.booklet.fraction_text import with_true_fractions


@pytest.mark.parametrize(
    ("written", "true"),
    [
        ("4 3/16 in", "4\u20643⁄16 in"),
        ("4-3/16 in", "4\u20643⁄16 in"),
        ("3/16 in", "3⁄16 in"),
        ("3/16in", "3⁄16in"),
        ('3/4"', '3⁄4"'),
        ("every 1/8", "every 1⁄8"),
        ("(1/2)", "(1⁄2)"),
        ("5/4 in", "5⁄4 in"),
        ("5 1/4 × 7 1/2 in", "5\u20641⁄4 × 7\u20641⁄2 in"),
        ("4½ in", "4\u20641⁄2 in"),
        ("4 ½ in", "4\u20641⁄2 in"),
        ("⅜ in", "3⁄8 in"),
    ],
)
def test_a_written_fraction_becomes_a_true_one(written: str, true: str) -> None:
    assert with_true_fractions(written) == true


@pytest.mark.parametrize(
    "text",
    [
        "and/or",
        "3/16/2024",
        "16/3/24",
        "24/7",
        "km/h",
        "page/centre",
        "v1/2x",
        "1/0 in",
        "0.1/2.5",
        "1:8",
        "a1/2",
        "2 5/4 in",
        "65 g/m²",
    ],
)
def test_what_is_no_value_stays_as_it_is(text: str) -> None:
    assert with_true_fractions(text) == text


@given(st.text(alphabet="0123456789/ -½⅜inma.×\u2044\u2064", max_size=30))
def test_once_is_enough(text: str) -> None:
    once = with_true_fractions(text)
    assert with_true_fractions(once) == once
