"""How a piece is cut from its rectangle: straight, with corners rounded, with a reusable template, or by a template of its own.

Found by comparing the outline with the rectangle it is cut from: what lies between them must be told by rounded corners and
reusable templates; if it is not, the whole outline has to be traced.
"""

from fractions import Fraction

from msgspec import Struct

from creasewright.blanks.blank import Blank, Cutout
from creasewright.blanks.by_template import has_own_template
from creasewright.blanks.spare_parts import CORNERS, ROUND, spare_parts
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.point import Number

WHOLE_SHEET, STRAIGHT, TEMPLATE = "whole sheet", "straight", "template"


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
    spare = spare_parts(blank)
    if not all(part.how for part in spare):
        return CuttingWay(TEMPLATE)
    if not spare and paper is not None and _is_sheet(blank, paper):
        return CuttingWay(WHOLE_SHEET)
    radii = dict(blank.corner_radius or {})
    rounded = [(part.corner, radii[part.corner]) for part in spare if part.how == ROUND]
    in_order = tuple(sorted(rounded, key=lambda one: CORNERS.index(one[0])))
    return CuttingWay(STRAIGHT, in_order, blank.cutouts, has_own_template(blank))


def _is_sheet(blank: Blank, paper: PaperFacts) -> bool:
    sides = sorted(Fraction(side) for side in (blank.width, blank.height))
    return all(abs(a - b) < Fraction(1, 1000) for a, b in zip(sides, sorted(paper.sheet), strict=True))
