"""Every piece of a planned sheet lies in the rectangle that the plan gives it, whichever side of the paper is its front."""

from fractions import Fraction

import pytest

from creasewright.checked import checked
from creasewright.cutfiles.sheet_drawing import placed, sheet_drawing
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.geometry.edges import box_of
from creasewright.machine_files import piece_drawing
from creasewright.places import built_in_designs
from creasewright.reading.settings import MakerSettings, Tools
from small_designs import worked_of

TRIMMER = Trimmer(longest_cut=Fraction(620), narrowest_strip=Fraction(10), least_trim=Fraction(2))
STRIP = """
blanks: {{strip: {{height: 100 mm, across: [flap: 50 mm, page: 80 mm], paper up: {side}, corners: {{head-left: {{cut: [10 mm, 20 mm]}}}}}}}}
steps: [{{fold: flap}}]
finished: {{front: page}}
"""


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("name", built_in_designs())
def test_every_piece_fills_its_place(name, units):
    done = checked(built_in_designs()[name], units, 3, {}, MakerSettings(), Tools())
    pieces = {piece.letter: piece for piece in done.worked.pieces}
    for plan in done.plans:
        for sheet in plan.sheets:
            for placement in sheet.placements:
                piece = pieces[placement.key]
                move = placed(piece, done.worked.papers[plan.paper], placement)
                box = [float(side) for side in box_of(move.loop(piece.blank.outline.edges))]
                place = [float(v) for v in (placement.x, placement.y, placement.x + placement.width, placement.y + placement.height)]
                assert box == pytest.approx(place, abs=1e-6)


def drawing_of(side):
    worked = worked_of(STRIP.format(side=side))
    (piece,) = worked.pieces
    (plan,) = plans_of(worked, TRIMMER)
    own = piece_drawing(worked, piece)
    return own, sheet_drawing(plan.sheets[0], worked.papers["card"], {piece.letter: piece}, {piece.letter: own}, "sheet")


def scores_and_corner(drawing):
    """Layer and place of the score, and at which end of the outline's head edge the corner is cut off."""
    score = next(stroke for stroke in drawing.strokes if stroke.layer.startswith("score"))
    outline = next(stroke for stroke in drawing.strokes if stroke.closed)
    left, head, right, _ = (float(side) for side in box_of(outline.edges))
    heads = [float(edge.start.x) for edge in outline.edges if abs(float(edge.start.y) - head) < 1e-6]
    return score.layer, float(score.edges[0].start.x) - left, "left" if min(heads) > left + 1 else "right" if max(heads) < right - 1 else ""


def test_a_piece_with_the_papers_front_up_lies_as_it_is_seen():
    own, sheet = drawing_of("front")
    assert scores_and_corner(own) == ("score valley", 50.0, "left")
    assert scores_and_corner(sheet) == ("score valley", 50.0, "left")


def test_a_piece_whose_front_is_the_papers_back_is_turned_over_on_the_sheet():
    own, sheet = drawing_of("back")
    assert scores_and_corner(own) == ("score valley", 50.0, "left")
    # 130 wide: a score 50 from the left is 80 from it when seen from behind, and folds away there
    assert scores_and_corner(sheet) == ("score mountain", 80.0, "right")
