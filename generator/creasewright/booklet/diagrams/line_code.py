"""The one look of each line: widths and dashes of the visual language, in pt, and dashes that begin and end with a dash.

cut, slit     solid 0.9             folded       solid 0.65
valley        dashed 0.85           mountain     dash dot dot 0.85
score, crease solid 0.45, stopping 1 mm short of each end
hidden        round dots 0.8
"""

import itertools
from collections.abc import Sequence
from math import hypot

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.picture_style import POINT, PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Pen, Shape

WIDTHS = {"cut": 0.9, "slit": 0.9, "folded": 0.65, "valley": 0.85, "mountain": 0.85, "score": 0.45, "crease": 0.45, "hidden": 0.8}
DASHES: dict[str, tuple[float, ...]] = {
    "valley": (5.2, 2.6),
    "mountain": (8.0, 2.4, 0.9, 2.4, 0.9, 2.4),
}
DOT_PERIOD = 2.2
STOPS_SHORT = 1.0
"""mm at each end of a crease."""
FAINT = frozenset({"score", "crease"})
THIN = 0.4
"""Dimensions, extension lines, leaders."""


def line_shape(kind: str, chain: Sequence[Spot], style: PictureStyle, role: str = "") -> Shape | None:
    """The chain drawn as its kind asks; None if nothing of it is left."""
    drawn = shortened(chain, STOPS_SHORT) if kind in FAINT else list(chain)
    if len(drawn) < 2:
        return None
    length = chain_length(drawn) / POINT
    width = WIDTHS[kind] * style.weight
    role = role or f"line {kind}"
    if kind == "hidden":
        return Shape(polyline(drawn), Pen("INK", width, dotted(length)), role=role)
    if kind in DASHES:
        return Shape(polyline(drawn), Pen("INK", width, dashed(DASHES[kind], length), "butt"), role=role)
    return Shape(polyline(drawn, closed=drawn[0] == drawn[-1] and len(drawn) > 3), Pen("INK", width), role=role)


def dashed(pattern: tuple[float, ...], length: float) -> tuple[float, ...]:
    """The pattern stretched so that a line of `length` pt begins and ends with a dash.

    n whole periods and one more dash: length = k (n period + dash), with n chosen so that k is nearest to 1.
    """
    period, dash = sum(pattern), pattern[0]
    count = max(1, round((length - dash) / period))
    stretch = length / (count * period + dash)
    return tuple(round(stretch * part, 4) for part in pattern)


def too_short(kind: str, chain: Sequence[Spot]) -> bool:
    """Whether the dashes of a line of this kind would have to be squeezed to less than half, which reads as a black bar."""
    pattern = DASHES.get(kind, ())
    return bool(pattern) and chain_length(chain) / POINT < (sum(pattern) + pattern[0]) / 2


def dotted(length: float) -> tuple[float, float]:
    """Dots from end to end: a whole number of periods."""
    count = max(1, round(length / DOT_PERIOD))
    return 0.01, round(length / count - 0.01, 4)


def chain_length(chain: Sequence[Spot]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in itertools.pairwise(chain))


def shortened(chain: Sequence[Spot], by: float) -> list[Spot]:
    """The chain with `by` mm taken off each end; empty if it is too short for that."""
    if chain_length(chain) <= 2 * by + 0.2:
        return []
    return _without_start(_without_start(list(chain), by)[::-1], by)[::-1]


def _without_start(chain: list[Spot], by: float) -> list[Spot]:
    left = by
    for k, (a, b) in enumerate(itertools.pairwise(chain)):
        step = hypot(b[0] - a[0], b[1] - a[1])
        if step > left:
            t = left / step
            return [(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])), *chain[k + 1 :]]
        left -= step
    return []
