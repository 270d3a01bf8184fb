"""Points in the plane. Coordinates stay rational (Fraction) until something irrational meets them."""

from fractions import Fraction
from typing import NamedTuple

Number = Fraction | float
"""Fraction where exact, float where a root or an angle came in; the two mix."""


class Point(NamedTuple):
    """In mm; x to the right, y down the page (towards the tail)."""

    x: Number
    y: Number
