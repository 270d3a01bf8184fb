"""A length given in one system only, for a pack in the other."""

from collections.abc import Callable
from fractions import Fraction

from creasewright.measures.formula import LengthLiteral
from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.ruler import length_in_words, nearest_multiple

ROUND = "round"
"""To the nearest round number of the other system, with a note: for measures."""
EXACT = "exact"
"""To the very same length: for papers, materials and things."""

_COARSE = {"in": MM_PER_INCH / 8, "mm": Fraction(5)}
_FINE = {"in": MM_PER_INCH / 16, "mm": Fraction(1, 2)}
_FARTHEST = Fraction(1, 5)
"""A coarse mark more than a fifth off is not taken."""


def in_system(literal: LengthLiteral, system: str, convert: str, note: Callable[[str], None] | None) -> Fraction:
    """The length of a literal in mm, for a pack in `system`; `convert` is ROUND or EXACT. `note` is told what was rounded."""
    if literal.system == system or convert == EXACT:
        return literal.mm
    rounded = rounded_for(literal.mm, system)
    if rounded != literal.mm and note is not None:
        taken = length_in_words(rounded, system)
        settled = f"{literal.text} | {taken}"
        note(f"`{literal.text}` is given in one system only and is taken as {taken}; write `{settled}` to settle it")
    return rounded


def rounded_for(mm: Fraction, system: str) -> Fraction:
    """The nearest 1/8 in or 5 mm; where that is more than a fifth off, the nearest 1/16 in or 0.5 mm, and at least one of these.

    Where even that would more than double or halve the length (a caliper, a hair), the length is kept as it is.
    """
    if mm == 0:
        return mm
    coarse = nearest_multiple(mm, _COARSE[system])
    if abs(coarse - mm) <= _FARTHEST * mm:
        return coarse
    fine = max(nearest_multiple(mm, _FINE[system]), _FINE[system])
    return fine if mm / 2 <= fine <= mm * 2 else mm
