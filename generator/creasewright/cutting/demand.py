"""What is to be cut, on what, with what, and how it is wished: the inputs of a cutting plan.

Piece    a rectangle wanted `count` times from one material; its outline inside the rectangle is no matter of this folder
Stock    the sheet as sold, the strips of it that are lost, what it costs and how many there are
Trimmer  the cutting tool: one blade, one stop
Wishes   what a change of setting is worth, and how often the cuts may change their direction
Effort   how long to look

All lengths are exact, in any one unit (within Creasewright: millimetres).

Frame of a sheet: origin at its head-left corner, x to the right, y towards the tail.
"""

from fractions import Fraction

from msgspec import Struct


class Piece(Struct, frozen=True):
    """A rectangle to cut `count` times. `key` is unique in one call; both sizes are greater than 0."""

    key: str
    width: Fraction | int
    """Across the sheet's width when the piece is not turned."""
    height: Fraction | int
    count: int
    may_turn: bool
    """True where neither print nor grain forbids a quarter turn."""


class Stock(Struct, frozen=True):
    """Sheets of one size."""

    paper: str
    """What they are of; plans are made for one paper at a time."""
    width: Fraction | int
    height: Fraction | int
    usable: tuple[Fraction | int, Fraction | int, Fraction | int, Fraction | int] = (0, 0, 0, 0)
    """Strips lost at the left, head, right and tail (a brand edge, a ragged edge); the usable area is the sheet without them."""
    price: Fraction | int = 1
    """Of one sheet, not negative, in any one currency."""
    limit: int | None = None
    """How many there are; None: as many as wished."""

    @property
    def usable_width(self) -> Fraction:
        return Fraction(self.width) - self.usable[0] - self.usable[2]

    @property
    def usable_height(self) -> Fraction:
        return Fraction(self.height) - self.usable[1] - self.usable[3]


class Trimmer(Struct, frozen=True):
    """What the cutting tool can do, in mm."""

    longest_cut: Fraction | int
    narrowest_strip: Fraction | int
    """The narrowest part that can be held against the stop and still come out true."""
    least_trim: Fraction | int
    """The thinnest sliver that comes off clean."""


NO_LIMITS = Trimmer(10**9, 0, 0)
"""A tool that is never in the way."""


class Wishes(Struct, frozen=True):
    setting_price: Fraction | int = 0
    """What one distance more to set is worth, in the currency of the sheets: so much a sheet more may save by fewer settings."""
    stages: int | None = None
    """How often the cuts may change their direction, the first cuts counting as one and the last trim of a piece as none; None:
    as often as wished."""


NO_WISHES = Wishes()


class Effort(Struct, frozen=True):
    """How long to look. Work is counted, so that the same effort gives the same plan on every machine; `seconds` gives that up."""

    iterations: int = 32_000
    """Of ruin and recreate, for each demand that the quick constructions leave open."""
    rounds: int = 300
    """Of column generation."""
    polish: int = 300
    """Changes tried to make a plan of that many sheets easier to cut."""
    seconds: float | None = None
    """Stop after this time with the best plan so far."""
    seed: int = 1


EFFORTS = {"quick": Effort(2_000, 60, 60), "usual": Effort(), "high": Effort(400_000, 2_000, 3_000)}
"""By name, as the commands take them."""
