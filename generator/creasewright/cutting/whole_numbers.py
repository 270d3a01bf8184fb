"""The same demand in whole numbers, so that the search is exact and fast.

All lengths of one call are multiplied by the least common multiple of their denominators. Only the usable area is known here:
its head-left corner is (0, 0).
"""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm
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

    per_mm: int

    def whole(self, length: Fraction) -> int:
        return int(length * self.per_mm)

    def mm(self, units: int) -> Fraction:
        return Fraction(units, self.per_mm)

    def reach(self, trimmer: Trimmer) -> Reach:
        return Reach(self.whole(trimmer.longest_cut), self.whole(trimmer.narrowest_strip), self.whole(trimmer.least_trim))


def grid_of(pieces: Iterable[Piece], stock: Stock, trimmer: Trimmer) -> Grid:
    """The coarsest grid on which every given length is whole."""
    lengths = [stock.width, stock.height, *stock.usable, trimmer.longest_cut, trimmer.narrowest_strip, trimmer.least_trim]
    for piece in pieces:
        lengths += [piece.width, piece.height]
    return Grid(lcm(*(Fraction(length).denominator for length in lengths)))


def lies(shape: Shape, width: int, height: int) -> tuple[tuple[int, int, bool], ...]:
    """The ways a shape fits an area: (width, height, turned) as it lies."""
    ways = [(shape.width, shape.height, False)]
    if shape.may_turn and shape.width != shape.height:
        ways.append((shape.height, shape.width, True))
    return tuple(way for way in ways if way[0] <= width and way[1] <= height)
