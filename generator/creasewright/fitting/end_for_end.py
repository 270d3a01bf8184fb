"""How a print that runs one way comes to stand on its head on a piece that is otherwise right.

Pieces are cut straight to size as oblongs first. Of a sheet whose print is the same all over, an oblong turned by half a turn is the very
same piece: it was turned end for end later, when it got what tells its ends apart. Only pages drawn on it tell them apart on the sheet.
"""

from creasewright.blanks.blank import Blank
from creasewright.blanks.by_template import has_own_template, needs_template
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import shape_of

SHEET, TEMPLATE, SCORED, SHAPED, LAID = "sheet", "template", "scored", "shaped", "laid"


def turned_when(blank: Blank, paper: PaperFacts) -> str:
    """What was done to it while it lay the wrong way round.

    sheet     it was cut from its sheet so: its pages are drawn there
    template  it was cut by its template, before all else
    scored    its scores were pressed (and it was cut to shape by the same mistake)
    shaped    its corners were cut, or slits or holes made
    laid      nothing yet: both its ends are alike but for the print; the folds of a wrapped cover are made by its boards
    """
    if "by panel" in (paper.front, paper.back):
        return SHEET
    if blank.wrap is not None or shape_of(blank) == shape_of(blank, half_turn=True):
        return LAID
    if has_own_template(blank):
        return TEMPLATE
    return SCORED if blank.scores else SHAPED


def same_after_half_turn(blank: Blank, paper: PaperFacts | None) -> bool:
    """Half a turn in its plane changes nothing that one sees. `paper`: None for a bought thing."""
    directed = paper is not None and {"one-way", "by panel"} & {paper.front, paper.back}
    return not directed and shape_of(blank) == shape_of(blank, half_turn=True)


def is_shaped(blank: Blank) -> bool:
    """Something besides its scores is cut into the oblong."""
    return bool(blank.cutouts or blank.corner_radius or blank.slits) or needs_template(blank)
