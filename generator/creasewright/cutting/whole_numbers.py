"""The same demand in whole numbers, so that the search is exact and fast.

All lengths of one call are counted in the largest unit of which each is a whole number. Only the usable area is known here: its
head-left corner is (0, 0).
"""

from collections.abc import Iterable
from fractions import Fraction
from math import gcd, lcm
from typing import NamedTuple

from msgspec import Struct

from creasewright.cutting.demand import Piece, Stock, Trimmer


class Shape(NamedTuple):
    """A piece in whole numbers. Elsewhere in the search a piece is known by its place in the list of shapes."""

    width: int
    height: int
    wanted: int
    may_turn: bool


class Laid(NamedTuple):
    """A shape, by its place in the list, on the usable area, with its size as it lies."""

    which: int
    x: int
    y: int
    width: int
    height: int
    turned: bool


Pattern = tuple[Laid, ...]


class Reach(Struct, frozen=True):
    """The trimmer's limits in whole numbers."""

    longest_cut: int
    narrowest_strip: int
    least_trim: int


class Grid(Struct, frozen=True):
    """How many whole units one millimetre is."""

    per_mm: Fraction

    def whole(self, length: Fraction | int) -> int:
        return int(length * self.per_mm)

    def mm(self, units: int) -> Fraction:
        return units / self.per_mm

    def reach(self, trimmer: Trimmer) -> Reach:
        return Reach(self.whole(trimmer.longest_cut), self.whole(trimmer.narrowest_strip), self.whole(trimmer.least_trim))


def grid_of(pieces: Iterable[Piece], stocks: Iterable[Stock], trimmer: Trimmer) -> Grid:
    """The coarsest grid on which every given length is whole."""
    lengths = [trimmer.longest_cut, trimmer.narrowest_strip, trimmer.least_trim]
    for stock in stocks:
        lengths += [stock.width, stock.height, *stock.usable]
    for piece in pieces:
        lengths += [piece.width, piece.height]
    exact = [Fraction(length) for length in lengths]
    finest = lcm(*(length.denominator for length in exact))
    return Grid(Fraction(finest, gcd(*(int(length * finest) for length in exact)) or 1))


def lies(shape: Shape, width: int, height: int) -> tuple[tuple[int, int, bool], ...]:
    """The ways a shape fits an area: (width, height, turned) as it lies."""
    ways = [(shape.width, shape.height, False)]
    if shape.may_turn and shape.width != shape.height:
        ways.append((shape.height, shape.width, True))
    return tuple(way for way in ways if way[0] <= width and way[1] <= height)
