"""Exact quantities: a rational number and the power of length it carries.

power 0   a plain number: a count, a ratio, degrees
power 1   a length, in millimetres
power 2   an area, in square millimetres; 3 a volume

Every module outside `units` and `measures` takes lengths as plain numbers of millimetres, with mm in the name or the docstring.
"""

from fractions import Fraction

from msgspec import Struct

MM_PER_INCH = Fraction(254, 10)
"""1 in = 25.4 mm exactly (international yard and pound agreement, 1959)."""


class Quantity(Struct, frozen=True):
    """`value` in mm to the `power`; exact."""

    value: Fraction
    power: int = 0

    @property
    def mm(self) -> Fraction:
        """The value of a length."""
        return self.value


def number(value: Fraction | int) -> Quantity:
    return Quantity(Fraction(value), 0)


def mm(value: Fraction | int) -> Quantity:
    return Quantity(Fraction(value), 1)


def inches(value: Fraction | int) -> Quantity:
    return Quantity(Fraction(value) * MM_PER_INCH, 1)
