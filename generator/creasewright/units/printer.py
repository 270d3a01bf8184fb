"""What one printer does to one paper, and how a page must be drawn so that it comes out true.

true frame   the page as it shall lie on the table: full-size drawings are laid out in it, mm from its head-left corner, y down
page frame   the page as it is written to the file, same origin and unit

A printer that draws `across` times as wide and `along` times as high as the file says, about any fixed place, needs a page whose
true places are moved to  c + (place - c) / scale,  c being the middle of the page: every length then prints as it was meant, and
what the fixed place is does not matter but for a shift of the whole.
"""

from fractions import Fraction

from msgspec import Struct

MOST_ERROR = Fraction(3, 100)
"""The largest error of scale that is put right. More is a page fitted to the paper, or a slip of the ruler."""
USUAL_WHITE = 7.2
"""mm along every edge that home printers leave white (common practice, no source)."""

Margins = tuple[float, float, float, float]
"""mm at the left, head, right and tail of the page."""
USUAL_MARGINS: Margins = (USUAL_WHITE,) * 4


class Reading(Struct, frozen=True):
    """A length of the test page as it should be, and as it was measured on paper; mm, exact."""

    measured: Fraction
    true: Fraction

    @property
    def scale(self) -> Fraction:
        return self.measured / self.true

    @property
    def too_far_off(self) -> bool:
        return abs(self.scale - 1) > MOST_ERROR


class Printer(Struct, frozen=True):
    """One printer on one paper."""

    name: str
    page: str
    """`letter` or `a4`."""
    across: Reading
    """Along the page's width."""
    along: Reading
    """Along its height."""
    margins: tuple[Fraction, Fraction, Fraction, Fraction] = (Fraction(USUAL_WHITE).limit_denominator(10),) * 4
    """Left, head, right and tail strips of the page frame in which nothing is printed."""
    back: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))
    """How far the back of a sheet lands to the right of and below its place, seen through the paper from the front."""

    @property
    def scale(self) -> tuple[float, float]:
        """Printed over drawn, across and along."""
        return float(self.across.scale), float(self.along.scale)

    @property
    def stretch(self) -> tuple[float, float]:
        """What lengths are multiplied with in the file."""
        return float(1 / self.across.scale), float(1 / self.along.scale)

    def white(self, width: float, height: float) -> Margins:
        """The strips that stay white in the true frame of a page of that size, mm."""
        (left, head, right, tail), (sx, sy) = (tuple(map(float, self.margins)), self.scale)
        across, along = width / 2, height / 2
        return (
            across - (across - left) * sx,
            along - (along - head) * sy,
            across - (across - right) * sx,
            along - (along - tail) * sy,
        )


def stretch_of(printer: Printer | None) -> tuple[float, float]:
    return printer.stretch if printer is not None else (1.0, 1.0)


def white_of(printer: Printer | None, width: float, height: float) -> Margins:
    return printer.white(width, height) if printer is not None else USUAL_MARGINS
