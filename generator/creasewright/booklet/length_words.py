"""Lengths in words: the nearest mark of the maker's ruler, with `just over` or `just under` where the length is off it; and rooms."""

from fractions import Fraction
from math import floor

from creasewright.booklet.context import PackContext
from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.ruler import DOWN, Ruler, as_set, length_in_words, mark_in_words

TRUE_WITHIN = 0.05
"""mm: what a pack is true to; a line this near to a mark of the ruler is on it."""
SEEN_OFF = 0.3
"""mm: on finished work the eye sees no smaller distance from a mark. Common practice, no source."""


MINUS = "\u2212"
HAIR = 0.25
"""mm: from here on `just over` a mark leaves too much open to set a line out by. Common practice, no source."""
PARTS = (
    (0.22, "a fifth of a mark", "1/5"),
    (0.29, "a quarter of a mark", "1/4"),
    (0.38, "a third of a mark", "1/3"),
    (0.45, "two fifths of a mark", "2/5"),
    (1.0, "half a mark", "1/2"),
)
"""How far off a mark, in steps of the ruler, and how that is said and listed below it."""


def marked_length(ruler: Ruler, mm: Fraction | float, within: Fraction | float = TRUE_WITHIN) -> tuple[str, bool | None]:
    """The nearest mark, and whether the length is over it; None where it is no farther from it than `within` mm."""
    marked = mark_in_words(mm, ruler)
    off = round(abs(float(marked.residue_mm)), 6) > within
    return marked.text, marked.residue_mm > 0 if off else None


def said_length(context: PackContext, mm: Fraction | float, within: Fraction | float = TRUE_WITHIN) -> str:
    """`4 1/8 in`, or `just over 4 1/8 in`."""
    mark, over = marked_length(context.worked.ruler, mm, within)
    return mark if over is None else f"{context.word('just over' if over else 'just under')} {mark}"


def rough_length(context: PackContext, mm: float) -> str:
    """Of what hands press: `about 5/16 in`; within the eye's reach of the mark the mark alone; `under 1/16 in` before the first."""
    ruler = context.worked.ruler
    if mm < ruler.step_mm - SEEN_OFF:
        return f"{context.word('under')} {mark_in_words(ruler.step_mm, ruler).text}"
    mark, over = marked_length(ruler, mm, SEEN_OFF)
    return mark if over is None else f"{context.word('about')} {mark}"


def is_between(ruler: Ruler, mm: Fraction | float) -> bool:
    """Whether a length lies off every mark by more than a hair."""
    return abs(mark_in_words(mm, ruler).residue_mm) >= HAIR


def is_parted(ruler: Ruler, mm: Fraction | float) -> bool:
    """Whether such a length is told in parts of a mark: those of a ruler in inches are too far apart to judge tenths by."""
    return ruler.system == "in" and is_between(ruler, mm)


def placed_length(context: PackContext, mm: Fraction | float) -> str:
    """Where to set something out: as `said_length` within a hair of a mark, else `93.4 mm` or `a third of a mark past 4 9/16 in`."""
    ruler = context.worked.ruler
    if not is_between(ruler, mm):
        return said_length(context, mm)
    if not is_parted(ruler, mm):
        return _tenths(mm)
    mark, over, (_, part, _) = _off_mark(ruler, mm)
    return f"{context.word(part)} {context.word('past' if over else 'short of')} {mark}"


def listed_length(context: PackContext, mm: Fraction | float) -> str:
    """The same in a table, where what it means is told once: `4 9/16 in + 1/3 mark`."""
    if not is_parted(context.worked.ruler, mm):
        return placed_length(context, mm)
    mark, over, (_, _, part) = _off_mark(context.worked.ruler, mm)
    return f"{mark} {'+' if over else MINUS} {part} {context.word('mark')}"


def _off_mark(ruler: Ruler, mm: Fraction | float) -> tuple[str, bool, tuple[float, str, str]]:
    """The nearest mark, whether the length is past it, and by which of PARTS."""
    mark = mark_in_words(mm, ruler)
    off = abs(mark.residue_mm) / ruler.step_mm
    return mark.text, mark.residue_mm > 0, next(part for part in PARTS if off < part[0])


def drawn_place(ruler: Ruler, mm: Fraction | float) -> str:
    """The same in a picture: `93.4 mm`, `≈ 4 9/16 in`."""
    return _tenths(mm) if ruler.system == "mm" and is_between(ruler, mm) else drawn_length(ruler, mm)


def _tenths(mm: Fraction | float) -> str:
    return length_in_words(round(Fraction(mm), 1), "mm")


def drawn_length(ruler: Ruler, mm: Fraction | float, within: Fraction | float = TRUE_WITHIN) -> str:
    """In a picture: `4 1/8 in`, or `≈ 4 1/8 in` where the length is off the mark."""
    mark, over = marked_length(ruler, mm, within)
    return as_set(mark if over is None else f"≈ {mark}")


def fine_ruler(system: str) -> Ruler:
    """Lids go by less than a mark of the maker's ruler: half a millimetre, a thirty-second of an inch."""
    return Ruler(system, MM_PER_INCH / 32 if system == "in" else Fraction(1, 2))


def said_room(system: str, ruler: Ruler, mm: float) -> str:
    """Never more than there is: to the mark below, or where that is nothing as it is."""
    mark = mark_in_words(max(mm, 0.0), ruler, DOWN)
    return mark.text if not mark.text.startswith("0 ") else length_in_words(round(max(mm, 0.0), 2), system)


def said_depth(mm: float | None, system: str) -> str:
    """A room's depth, never more than there is: to 0.1 mm or a hundredth of an inch below. Empty where none was measured."""
    if mm is None:
        return ""
    step = Fraction(254, 1000) if system == "in" else Fraction(1, 10)
    return length_in_words(max(floor(Fraction(mm + 1e-6) / step), 0) * step, system)
