"""What a blank's outline leaves out of the rectangle that it is cut from, and how each part of it goes."""

from math import pi

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.geometry.clip import area, difference
from creasewright.geometry.outline import Polygon, flattened
from creasewright.geometry.point import Number

ROUND, TRIM = "round", "trim"
"""How a part of the rectangle goes: a corner rounded off, or along a reusable template. The words of the steps that do it."""
SPECK = 0.2
"""mm²: what is left between outline and rectangle below this comes from flattening curves."""
NEAR = 0.01
"""mm between a corner of the rectangle and a part that holds it."""
CORNERS = ("head-left", "head-right", "tail-right", "tail-left")


class Spare(Struct, frozen=True):
    """A part of the rectangle that the outline leaves out."""

    polygon: Polygon
    corner: str
    """The corner of the rectangle that it holds, by compass word; empty if it holds none, or several."""
    how: str
    """ROUND, TRIM, or empty: told by neither."""


def spare_parts(blank: Blank) -> tuple[Spare, ...]:
    """What lies between the outline and its rectangle."""
    left_out = [part for part in difference((rectangle_of(blank),), (flattened(blank.outline.edges),)) if abs(area(part)) > SPECK]
    return tuple(_spare(part, blank) for part in left_out)


def _spare(part: Polygon, blank: Blank) -> Spare:
    corner, radii = _corner_in(part, blank), dict(blank.corner_radius or {})
    if corner in radii and _is_rounding(part, radii[corner]):
        return Spare(part, corner, ROUND)
    return Spare(part, corner, TRIM if _is_told(corner, blank) else "")


def rectangle_of(blank: Blank) -> Polygon:
    wide, high = float(blank.width), float(blank.height)
    return ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))


def _corner_in(part: Polygon, blank: Blank) -> str:
    """The one corner of the rectangle that the part holds; empty if it holds none, or several."""
    found = [
        word
        for word, (cx, cy) in zip(CORNERS, rectangle_of(blank), strict=True)
        if any(abs(x - cx) < NEAR and abs(y - cy) < NEAR for x, y in part)
    ]
    return found[0] if len(found) == 1 else ""


def _is_rounding(part: Polygon, radius: Number) -> bool:
    """A square corner less a quarter disc: r² (1 - pi / 4)."""
    expected = float(radius) ** 2 * (1 - pi / 4)
    return abs(abs(area(part)) - expected) <= max(SPECK, 0.03 * expected)


def _is_told(corner: str, blank: Blank) -> bool:
    """A corner cut with a template; away from the corners, any other template (an edge, a notch) tells it."""
    named = {cut.what for cut in blank.cutouts}
    return f"{corner} corner" in named if corner else any(not what.endswith(" corner") for what in named)
