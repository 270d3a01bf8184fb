"""How a piece is cut from its rectangle: straight, with corners rounded, with a reusable template, or by a template of its own.

Found by comparing the outline with the rectangle it is cut from: what lies between them must be told by rounded corners and
reusable templates; if it is not, the whole outline has to be traced.
"""

from fractions import Fraction
from math import pi

from msgspec import Struct

from creasewright.blanks.blank import Blank, Cutout
from creasewright.booklet.kit_templates import needs_template
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.clip import area, difference
from creasewright.geometry.outline import Polygon, flattened
from creasewright.geometry.point import Number

WHOLE_SHEET, STRAIGHT, TEMPLATE = "whole sheet", "straight", "template"
SPECK = 0.2
"""mm²: what is left between outline and rectangle below this comes from flattening curves."""
NEAR = 0.01
"""mm between a corner of the rectangle and a part that holds it."""
CORNERS = ("head-left", "head-right", "tail-right", "tail-left")


class CuttingWay(Struct, frozen=True):
    kind: str
    """WHOLE_SHEET, STRAIGHT or TEMPLATE (the outline is traced)."""
    rounded: tuple[tuple[str, Number], ...] = ()
    """Rounded corners by compass word, with radius in mm; of a straight piece only."""
    aids: tuple[Cutout, ...] = ()
    """Shapes cut with a reusable template; of a straight piece only."""
    marked: bool = False
    """A straight piece whose fold lines, slits or holes no board guides: its template shows where they are."""

    @property
    def corners_alike(self) -> Number | None:
        """The radius where all four corners are rounded alike."""
        radii = {radius for _, radius in self.rounded}
        return radii.pop() if len(self.rounded) == 4 and len(radii) == 1 else None


def cutting_way(blank: Blank, paper: PaperFacts | None) -> CuttingWay:
    spare = [part for part in difference((_rectangle(blank),), (flattened(blank.outline.edges),)) if abs(area(part)) > SPECK]
    radii = dict(blank.corner_radius or {})
    rounded: list[tuple[str, Number]] = []
    for part in spare:
        corner = _corner_in(part, blank)
        if corner in radii and _is_rounding(part, radii[corner]):
            rounded.append((corner, radii[corner]))
        elif not _is_told(corner, blank):
            return CuttingWay(TEMPLATE)
    if not spare and paper is not None and _is_sheet(blank, paper):
        return CuttingWay(WHOLE_SHEET)
    in_order = tuple(sorted(rounded, key=lambda one: CORNERS.index(one[0])))
    return CuttingWay(STRAIGHT, in_order, blank.cutouts, not blank.cutouts and needs_template(blank))


def _rectangle(blank: Blank) -> Polygon:
    wide, high = float(blank.width), float(blank.height)
    return ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))


def _corner_in(part: Polygon, blank: Blank) -> str:
    """The one corner of the rectangle that the part holds; empty if it holds none, or several."""
    found = [
        word
        for word, (cx, cy) in zip(CORNERS, _rectangle(blank), strict=True)
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


def _is_sheet(blank: Blank, paper: PaperFacts) -> bool:
    sides = sorted(Fraction(side) for side in (blank.width, blank.height))
    return all(abs(a - b) < Fraction(1, 1000) for a, b in zip(sides, sorted(paper.sheet), strict=True))
