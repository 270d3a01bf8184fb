"""The maker's own ruler: which mark a length falls on, and how that is said.

Mark      a line of the ruler, a whole number of steps from its end
Residue   the length less its mark, in mm; under `EXACT_WITHIN_MM` the length is said to be on the mark

Lengths come from exact formulas (Fraction) or from geometry (float), in mm; marks are always exact.
"""

import re
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor

from msgspec import Struct

from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.spellings import mixed

EXACT_WITHIN_MM = Fraction(1, 1_000_000)
"""A length this near to a mark lies on it: what irrational geometry leaves behind, far below any paper."""

NEAREST = "nearest"
UP = "up"
DOWN = "down"


class Ruler(Struct, frozen=True):
    system: str
    """`in` or `mm`."""
    step_mm: Fraction
    """From mark to mark, in mm."""


INCH_RULER = Ruler("in", MM_PER_INCH / 16)
MM_RULER = Ruler("mm", Fraction(1))
HALF_MM_RULER = Ruler("mm", Fraction(1, 2))


class Marked(Struct, frozen=True):
    """A length as read off a ruler."""

    text: str
    """`4 3/16 in`, `104.5 mm`."""
    exact: bool
    """Whether the length lies on the mark that the text says."""
    residue_mm: Fraction
    """The true length less the one in the text; 0 if exact."""


def ruler_of(system: str) -> Ruler:
    """The common ruler of `in` (1/16 in) or `mm` (1 mm)."""
    return INCH_RULER if system == "in" else MM_RULER


def nearest_mark(mm: Fraction | float, ruler: Ruler) -> Fraction:
    """In mm; half way goes up."""
    return nearest_multiple(Fraction(mm), ruler.step_mm)


def mark_at_or_above(mm: Fraction | float, ruler: Ruler) -> Fraction:
    """In mm; not below the length, but for what counts as exact."""
    return multiple_at_or_above(Fraction(mm), ruler.step_mm)


def mark_at_or_below(mm: Fraction | float, ruler: Ruler) -> Fraction:
    """In mm; not above the length, but for what counts as exact."""
    return multiple_at_or_below(Fraction(mm), ruler.step_mm)


def nearest_multiple(value: Fraction, step: Fraction) -> Fraction:
    return floor(value / step + Fraction(1, 2)) * step


def multiple_at_or_above(value: Fraction, step: Fraction) -> Fraction:
    return ceil((value - EXACT_WITHIN_MM) / step) * step


def multiple_at_or_below(value: Fraction, step: Fraction) -> Fraction:
    return floor((value + EXACT_WITHIN_MM) / step) * step


_ROUNDINGS = {NEAREST: nearest_mark, UP: mark_at_or_above, DOWN: mark_at_or_below}


@lru_cache(maxsize=1024)
def mark_in_words(mm: Fraction | float, ruler: Ruler, rounding: str = NEAREST) -> Marked:
    """The length as read off the ruler, rounded `NEAREST`, `UP` or `DOWN`. Kept, as a pack says the same few measures everywhere."""
    mark = _ROUNDINGS[rounding](mm, ruler)
    residue = Fraction(mm) - mark
    exact = abs(residue) < EXACT_WITHIN_MM
    return Marked(f"{_count(mark, ruler.system)} {ruler.system}", exact, Fraction(0) if exact else residue)


def pair_in_words(width_mm: Fraction | float, height_mm: Fraction | float, ruler: Ruler, rounding: str = NEAREST) -> str:
    """`5 1/4 × 7 1/2 in`: two lengths on the ruler, the unit said once."""
    width, height = (_count(_ROUNDINGS[rounding](side, ruler), ruler.system) for side in (width_mm, height_mm))
    return f"{width} × {height} {ruler.system}"


def plain_words(mm: Fraction | float, system: str) -> str:
    """The number alone, off any ruler: `8 1/2` or `0.011` (inches), `0.27` or `105` (mm).

    Inches are a fraction when they come to 1/64 exactly, else three decimals; mm have two decimals at most.
    """
    value = Fraction(mm)
    if system == "mm":
        return _decimal(value, 2)
    count = nearest_multiple(value, MM_PER_INCH / 64)
    if abs(count - value) < EXACT_WITHIN_MM:
        return mixed(count / MM_PER_INCH)
    return _decimal(value / MM_PER_INCH, 3)


def length_in_words(mm: Fraction | float, system: str) -> str:
    """`plain_words` with its unit: for calipers and for messages, where no ruler is asked."""
    return f"{plain_words(mm, system)} {system}"


_PLAIN_FRACTION = re.compile("(?<![0-9./⁄\u2064])(?:([0-9]+) )?([0-9]+)/([0-9]+)(?![0-9./])")


def as_set(text: str) -> str:
    """`4 3/16 in` as the drawing list wants it, `4\\u20643⁄16 in`: a fraction slash, an invisible plus after a whole number."""
    return _PLAIN_FRACTION.sub(lambda found: (f"{found[1]}\u2064" if found[1] else "") + f"{found[2]}\u2044{found[3]}", text)


def _count(mm: Fraction, system: str) -> str:
    return mixed(mm / MM_PER_INCH) if system == "in" else _decimal(mm, 3)


def _decimal(value: Fraction, places: int) -> str:
    """Rounded half up in size to so many places, no trailing zeros, a true minus sign."""
    scaled = floor(abs(value) * 10**places + Fraction(1, 2))
    whole, rest = divmod(scaled, 10**places)
    decimals = f".{rest:0{places}d}".rstrip("0") if rest else ""
    return ("\u2212" if value < 0 and scaled else "") + f"{whole}{decimals}"
