"""Sheet plans as data: where the pieces lie, the cuts in order, what is left. No words for readers here.

All lengths are exact mm. Rectangles are (x, y, width, height) in the frame of the sheet: origin at its head-left corner, x to
the right, y towards the tail. An "across" cut runs from left to right, a "down" cut from head to tail.
"""

from fractions import Fraction
from typing import Literal

from msgspec import Struct

from creasewright.cutting.demand import Stock

Direction = Literal["across", "down"]
Edge = Literal["left", "head", "right", "tail"]
SideKind = Literal["pieces", "offcut", "margin"]
FaultKind = Literal["cut too long", "strip too narrow", "trim too thin"]
Box = tuple[Fraction, Fraction, Fraction, Fraction]


class Placement(Struct, frozen=True):
    """One piece on a sheet. `width` and `height` are as it lies, so exchanged where it is `turned`."""

    key: str
    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction
    turned: bool


class Side(Struct, frozen=True):
    """One of the two parts that a cut gives."""

    kind: SideKind
    box: Box
    keys: tuple[str, ...]
    """Of the pieces still in this part, one entry a piece, in the order of the plan's placements."""


class Cut(Struct, frozen=True):
    """One edge-to-edge cut through the part `piece_rect` that is in hand."""

    number: int
    """From 1, in the order of cutting."""
    direction: Direction
    position: Fraction
    """From the left edge (down) or head edge (across) of the part in hand."""
    piece_rect: Box
    from_edge: Edge
    """The edge of the part in hand that lies against the stop."""
    setting: Fraction
    """From that edge to the cut: the width of the part kept under the stop."""
    same_setting: bool
    """The stop stays where it was for the cut before."""
    kept: Side
    other: Side

    @property
    def length(self) -> Fraction:
        """How far the blade runs."""
        return self.piece_rect[2] if self.direction == "across" else self.piece_rect[3]


class Offcut(Struct, frozen=True):
    """A whole rectangle that is left over. Strips lost at the sheet's margins are not among them."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


class SheetPlan(Struct, frozen=True):
    """One way to cut up a sheet, done on `count` sheets."""

    stock: Stock
    count: int
    placements: tuple[Placement, ...]
    """By y, then x."""
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]
    """Largest first."""


class TooLarge(Struct, frozen=True):
    """A piece that fits no sheet either way it may lie. It is in no sheet plan."""

    key: str
    width: Fraction
    height: Fraction
    may_turn: bool
    usable_width: Fraction
    usable_height: Fraction


class NotLaid(Struct, frozen=True):
    """Pieces for which there are not enough sheets."""

    key: str
    count: int


class TrimmerFault(Struct, frozen=True):
    """A cut that the trimmer cannot make well."""

    kind: FaultKind
    sheet: int
    """Index into the plan's sheets."""
    cut: int
    """The cut's number."""
    figure: Fraction
    """The length that is out of reach: of the cut, of the strip's width, of the trim's width."""
    limit: Fraction


class PaperPlan(Struct, frozen=True):
    """All sheets of one paper."""

    paper: str
    sheets: tuple[SheetPlan, ...]
    sheet_count: int
    """Sheets to have at hand: the sum of the sheet plans' counts."""
    lower_bound: int
    """No plan, however clever, needs fewer sheets."""
    price: Fraction
    """Of all sheets."""
    least_price: Fraction
    """No plan, however clever, costs less."""
    proved: bool
    """True where a plan with fewer sheets is impossible; where sheets differ in price, a plan that costs less."""
    settings: int
    """Different distances to set, over all sheets."""
    too_large: tuple[TooLarge, ...]
    not_laid: tuple[NotLaid, ...]
    """Empty unless all sheets with a limit are used up."""
    trimmer_faults: tuple[TrimmerFault, ...]
    stopped: bool
    """The search ended before its effort was spent: time was over, or someone stopped it."""
