"""A paper with its numbers worked out: what the engine needs to know of a sheet."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

BOARD = Fraction(1)
"""mm: bare stock from this thickness on is board."""


class PaperFacts(Struct, frozen=True):
    """Lengths in mm, exact."""

    name: str
    called: str
    tone: int
    """1 to 4: its tone in the pack's drawings, by order of the papers."""
    sheet: tuple[Fraction, Fraction]
    """Width and height as sold."""
    sheet_name: str
    lost: tuple[Fraction, Fraction, Fraction, Fraction]
    """Left, head, right, tail: strips that cannot be used."""
    grammage: Fraction | None
    weight_as_written: str
    caliper: Fraction | None
    front: str
    back: str
    runs: str
    back_agrees: str
    grain: str
    sides_differ: bool
    core: str
    pack: int | None
    price: str

    def print_of(self, side: str) -> str:
        return self.front if side == "front" else self.back

    def with_up(self, back_up: bool) -> "PaperFacts":
        """The same paper for a blank whose front is the paper's back: turned over so that the back print runs as the front did."""
        return replace(self, front=self.back, back=self.front) if back_up else self

    @property
    def is_board(self) -> bool:
        """Greyboard and the like: too thick to fold, bare on both sides. Common practice, no source."""
        return self.caliper is not None and self.caliper >= BOARD and self.front == self.back == "plain"

    @property
    def sides_alike(self) -> bool:
        """Whether neither side can be told from the other."""
        return self.front == self.back and not self.sides_differ

    @property
    def mirrors(self) -> bool:
        """Whether a mirror image is had by turning a piece over: no print that the turn would change."""
        return self.front == "plain" and self.sides_alike

    @property
    def usable(self) -> tuple[Fraction, Fraction]:
        left, head, right, tail = self.lost
        return self.sheet[0] - left - right, self.sheet[1] - head - tail
