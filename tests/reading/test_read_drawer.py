"""The drawer and the wishes of a tool file."""

from fractions import Fraction

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_config import read_tools_text
from creasewright.reading.settings import CuttingWishes, Tools

INCH = Fraction("25.4")


def test_sheets_at_hand_are_read_by_name_and_by_size():
    tools = read_tools_text(
        "drawer:\n"
        "  card: [{sheet: letter | A4, count: 12, price: 0.20 EUR}, {sheet: [12 in | 305 mm, 12 in]}]\n"
        "  felt: {sheet: A3}\n",
        "t",
    )  # fmt: skip
    first, second, third = tools.drawer
    assert (str(first.paper), first.count, first.price) == ("card", 12, Fraction(1, 5))
    assert (first.width.mm("in"), first.width.mm("mm")) == (Fraction("8.5") * INCH, 210)
    assert (second.width.mm("in"), second.width.mm("mm"), second.height.mm("mm")) == (12 * INCH, 305, 12 * INCH)
    assert (second.count, second.price) == (None, None)
    assert (str(third.paper), third.height.mm("in")) == ("felt", 420)


def test_wishes_are_read():
    wishes = read_tools_text("cutting: {spares: 2, setting price: 0.05, stages: 3}\n", "t").cutting
    assert wishes == CuttingWishes(2, (), Fraction(1, 20), 3)
    named = read_tools_text("cutting: {spares: {cover: 2, inner strip: 1}}\n", "t").cutting
    assert [(str(name), count) for name, count in named.spares_of] == [("cover", 2), ("inner strip", 1)]
    assert read_tools_text("trimmer: {}\n", "t") == Tools()


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("drawer: {card: [{count: 3}]}\n", ["t:1:10: a sheet of `card` has no `sheet`; add `sheet: letter | A4`"]),
        ("drawer: {card: {sheet: lettr, count: 0}}\n", [
            "t:1:24: `lettr` is not a sheet known here; write its name, such as letter or A4, or `[width, height]`",
            "t:1:38: `0` for `count` is not a whole number from 1 to 100000; write it as `count: 3`",
        ]),
        ("drawer: {card: {sheet: [12 in, 0 mm], price: cheap}}\n", [
            "t:1:32: `0 mm` is nothing; write a length greater than nothing",
            "t:1:46: `cheap` for `price` is not a price; write it as `price: 0.20` or `price: 0.20 EUR`",
        ]),
        ("cutting: {spares: many, stages: 0, stagges: 1}\n", [
            "t:1:19: `many` for `spares` is not a whole number from 1 to 1000; write it as `spares: 3`",
            "t:1:33: `0` for `stages` is not a whole number from 1 to 20; write it as `stages: 3`",
            "t:1:36: `stagges` is not a key of `cutting`; did you mean `stages`?",
        ]),
    ],
)  # fmt: skip
def test_a_drawer_that_cannot_be_used_is_told(text, faults):
    with pytest.raises(ProblemsFound) as caught:
        read_tools_text(text, "t")
    assert sorted(map(str, caught.value.problems)) == sorted(faults)
