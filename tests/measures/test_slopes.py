"""Derivatives of formulas: held against difference quotients, and what is said where there are branches."""

from fractions import Fraction

import pytest

from creasewright.measures.formula import Formula
from creasewright.measures.parse_formula import parse_formula
from creasewright.measures.slopes import Differentiator, Leaf, Sloped
from creasewright.problems import Where
from creasewright.reading.design import Text
from creasewright.units.quantity import Quantity
from creasewright.units.ruler import Ruler

ROOM, HIGH = Leaf("room width", "pocket"), Leaf("height", "card")
MEASURES = {"ease": "3 mm", "less": "room width of pocket - 2 * ease"}


class Known:
    """What the names and the two qualities are worth, mm."""

    def __init__(self, room: float, high: float) -> None:
        self.values = {"room width": room, "height": high}

    def name(self, name: str, where: Where, /) -> Quantity:
        differ = differentiator(self)
        return Quantity(Fraction(differ.value(parsed(MEASURES[name]))).limit_denominator(10**9), 1)

    def quality(self, word: str, of: str, when: str | None, where: Where, /) -> Quantity:
        return Quantity(Fraction(self.values[word]).limit_denominator(10**9), 1)


def parsed(text: str) -> Formula:
    return parse_formula(Text(text, Where("small.yaml", 1, 1)), frozenset(MEASURES))


def differentiator(known: Known) -> Differentiator:
    return Differentiator("mm", known, Ruler("mm", Fraction(1)), lambda name: parsed(MEASURES[name]))


def sloped(text: str, room: float = 100.0, high: float = 60.0) -> Sloped:
    return differentiator(Known(room, high)).of(parsed(text))


@pytest.mark.parametrize(
    "text",
    [
        "room width of pocket - 3 mm",
        "less",
        "2 * less + height of card / 4",
        "room width of pocket * height of card / room width of pocket",
        "sqrt(room width of pocket * room width of pocket + height of card * height of card)",
        "height of card * sin(30) + less * cos(20)",
        "50 mm * tan(atan(height of card / room width of pocket) / 2)",
        "10 mm * asin(height of card / room width of pocket) / 90 - 5 mm * acos(height of card / room width of pocket) / 90",
        "abs(height of card - room width of pocket)",
        "-less",
        "max(room width of pocket, height of card)",
        "if(height of card < 50 mm, less, height of card)",
    ],
)
def test_a_derivative_is_what_the_difference_quotient_tends_to(text: str) -> None:
    found, step = sloped(text), 1e-4
    for leaf, more in ((ROOM, (step, 0.0)), (HIGH, (0.0, step))):
        ahead, behind = (sloped(text, 100 + sign * more[0], 60 + sign * more[1]).value for sign in (1, -1))
        assert found.slopes.get(leaf, 0.0) == pytest.approx((ahead - behind) / (2 * step), abs=1e-5)
    assert found.worse == ()


def test_of_branches_that_hands_could_tip_the_worse_is_taken_and_said() -> None:
    found = sloped("min(room width of pocket, 3 * height of card)", 100.0, 33.5)
    assert found.value == 100.0
    assert found.slopes == {HIGH: 3.0}
    assert found.worse == ("the worse branch `3 * height of card`",)
    near = sloped("if(room width of pocket < 101 mm, 20 mm, 2 * height of card)")
    assert near.slopes == {HIGH: 2.0}
    assert near.worse == ("the worse branch `2 * height of card`",)


def test_branches_that_change_alike_need_no_word() -> None:
    assert sloped("min(room width of pocket, room width of pocket + 1 mm)").worse == ()


def test_a_rounding_is_taken_to_move_with_what_it_rounds() -> None:
    found = sloped("down(room width of pocket - 2 * ease)")
    assert found.slopes == {ROOM: 1.0}
    assert found.worse == ("`down(room width of pocket - 2 * ease)` taken to move with what it rounds",)
    assert sloped("down(2 * ease)").worse == ()
