"""Rulers that measure true when a page is printed at 100 %: one line with millimetres on one side and inches on the other.

The level one runs to the right, the upright one down; both begin at 0. mm; the origin is the ruler's 0 on its line.
"""

from fractions import Fraction

from creasewright.booklet.drawing import Command, Item, Path, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.units.quantity import MM_PER_INCH

MM_TICKS = ((10, 4.4), (5, 3.2), (1, 2.0))
INCH_TICKS = ((16, 4.8), (8, 3.8), (4, 2.9), (2, 2.2), (1, 1.5))
"""Every so many marks, a tick so long, mm; marks are 1 mm and 1/16 in."""
LINE, TICK = Pen("INK", 0.65, cap="butt"), Pen("INK", 0.35, cap="butt")
SIZE = 9.0
"""pt of the figures."""
BREADTH = 8.6
"""mm on either side of the line: ticks and figures."""


def true_ruler(ruler: TextRuler, millimetres: int, inches: int, upright: bool, stretch: float = 1.0) -> tuple[Item, ...]:
    """Millimetres above or to the left of the line, inches below or to the right; drawn `stretch` times as long, for a printer that
    makes that true."""
    mm_ends, inch_ends = Fraction(millimetres), inches * MM_PER_INCH
    longest = float(max(mm_ends, inch_ends))
    place = "down" if upright else "across"
    items: list[Item] = [Shape(_stroke(0.0, 0.0, longest * stretch, 0.0, upright), LINE, role=f"ruler line {place}")]
    items.append(_ticks(MM_TICKS, stretch, millimetres, -1, upright, f"ruler mm {place}"))
    items.append(_ticks(INCH_TICKS, float(MM_PER_INCH / 16) * stretch, inches * 16, 1, upright, f"ruler in {place}"))
    for k in range(0, millimetres + 1, 10):
        items.append(_figure(str(k), k * stretch, -1, ruler, upright, heavy=k == millimetres))
    for k in range(inches + 1):
        items.append(_figure(str(k), float(k * MM_PER_INCH) * stretch, 1, ruler, upright, heavy=k == inches))
    items.append(_figure("mm", 5.0 * stretch, -1, ruler, upright))
    items.append(_figure("in", float(MM_PER_INCH / 2) * stretch, 1, ruler, upright))
    return tuple(items)


def _ticks(ticks: tuple[tuple[int, float], ...], step: float, count: int, side: int, upright: bool, role: str) -> Shape:
    strokes: list[Command] = []
    for k in range(count + 1):
        long = next(length for every, length in ticks if k % every == 0)
        at = k * step
        strokes += [*_stroke(at, 0.0, at, side * long, upright)]
    return Shape(tuple(strokes), TICK, role=role)


def _stroke(x0: float, y0: float, x1: float, y1: float, upright: bool) -> Path:
    """Along the ruler and across it; the upright one is the level one's mirror image in the diagonal."""
    first, second = ((y0, x0), (y1, x1)) if upright else ((x0, y0), (x1, y1))
    return (("M", *first), ("L", *second))


def _figure(text: str, at: float, side: int, ruler: TextRuler, upright: bool, heavy: bool = False) -> Words:
    """Beyond the longest tick, upright on both rulers; the last one heavy."""
    high = ruler.cap_height("Regular", SIZE)
    off = 5.3
    runs = (Run(text, "Bold" if heavy else "Regular", SIZE),)
    if upright:
        anchor = "end" if side < 0 else "start"
        return Words(side * off, at + high / 2, runs, anchor, role="ruler figure")
    y = -off if side < 0 else off + high
    return Words(at, y, runs, "middle", role="ruler figure")
