"""What is to be cut, on what, with what: the three inputs of a sheet plan.

Piece    a rectangle wanted `count` times from one paper; its outline inside the rectangle is no matter of this folder
Stock    the sheet as sold, and the strips of it that are lost
Trimmer  the cutting tool: one blade, one stop

All lengths are exact millimetres. Frame of a sheet: origin at its head-left corner, x to the right, y towards the tail.
"""

from fractions import Fraction

from msgspec import Struct


class Piece(Struct, frozen=True):
    """A rectangle to cut `count` times. `key` is unique in one call; both sizes are greater than 0."""

    key: str
    width: Fraction
    """Across the sheet's width when the piece is not turned."""
    height: Fraction
    count: int
    may_turn: bool
    """True where neither print nor grain forbids a quarter turn."""


class Stock(Struct, frozen=True):
    """Sheets of one paper, all of one size."""

    paper: str
    width: Fraction
    height: Fraction
    usable: tuple[Fraction, Fraction, Fraction, Fraction] = (Fraction(0), Fraction(0), Fraction(0), Fraction(0))
    """Strips lost at the left, head, right and tail (a brand edge, a ragged edge); the usable area is the sheet without them."""

    @property
    def usable_width(self) -> Fraction:
        return self.width - self.usable[0] - self.usable[2]

    @property
    def usable_height(self) -> Fraction:
        return self.height - self.usable[1] - self.usable[3]


class Trimmer(Struct, frozen=True):
    """What the cutting tool can do, in mm."""

    longest_cut: Fraction
    narrowest_strip: Fraction
    """The narrowest part that can be held against the stop and still come out true."""
    least_trim: Fraction
    """The thinnest sliver that comes off clean."""
