"""A planned sheet as a drawing for a machine: every piece where the plan lays it, the paper's front up.

A border that two pieces share is cut once: it belongs to the one nearer the head, and the other's outline is open there. A piece
whose front is the paper's back is seen from behind: turned over left for right, its valleys drawn as mountains.
"""

from collections.abc import Mapping

from creasewright.cutfiles.blank_drawing import moved_strokes
from creasewright.cutfiles.cut_drawing import CUT, MARK, Caption, CutDrawing, Ring, Stroke
from creasewright.cutfiles.unshared import unshared
from creasewright.cutting.kit_demand import turn_as_placed
from creasewright.cutting.plan import Placement, SheetPlan
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.geometry.edges import box_of
from creasewright.geometry.outline import Edge, Line
from creasewright.geometry.plane_transform import Affine, left_for_right, rotation, shift
from creasewright.geometry.point import Point

LETTER_HIGH = 5.0
"""mm, of a piece's letter."""


def sheet_drawing(
    plan: SheetPlan, paper: PaperFacts, pieces: Mapping[str, Piece], drawings: Mapping[str, CutDrawing], title: str
) -> CutDrawing:
    """`pieces` and their `drawings` by letter."""
    strokes: list[Stroke] = []
    rings: list[Ring] = []
    captions: list[Caption] = []
    borders: list[Edge] = []
    for placement in plan.placements:
        moved, holes = moved_strokes(drawings[placement.key], placed(pieces[placement.key], paper, placement))
        for stroke in moved:
            if stroke.closed:
                strokes += opened(stroke, borders)
                borders += stroke.edges
            else:
                strokes.append(stroke)
        rings += holes
        x, y = float(placement.x + placement.width / 2), float(placement.y + placement.height / 2)
        captions.append(Caption(placement.key, x, y + LETTER_HIGH / 2, LETTER_HIGH))
    width, height = plan.stock.width, plan.stock.height
    corners = [Point(0, 0), Point(width, 0), Point(width, height), Point(0, height)]
    rim = [Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    strokes += [Stroke(MARK, (part,)) for edge in rim for part in unshared(edge, borders)]
    return CutDrawing(title, float(width), float(height), tuple(strokes), tuple(rings), tuple(captions))


def placed(piece: Piece, paper: PaperFacts, placement: Placement) -> Affine:
    """From the blank's frame to the sheet's."""
    turned = rotation(turn_as_placed(piece, paper, placement))
    left, head, _, _ = box_of(turned.loop(_box(piece)))
    lying = turned.then(shift(-left, -head))
    if piece.back_up:
        lying = lying.then(left_for_right(placement.width))
    return lying.then(shift(placement.x, placement.y))


def _box(piece: Piece) -> tuple[Edge, ...]:
    wide, high = piece.blank.width, piece.blank.height
    corners = [Point(0, 0), Point(wide, 0), Point(wide, high), Point(0, high)]
    return tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def opened(stroke: Stroke, borders: list[Edge]) -> list[Stroke]:
    """A closed outline without what is drawn already: itself, or open runs of what is left."""
    left = [(k, unshared(edge, borders)) for k, edge in enumerate(stroke.edges)]
    if all(parts == [stroke.edges[k]] for k, parts in left):
        return [stroke]
    runs: list[list[Edge]] = []
    for edge in (part for _, parts in left for part in parts):
        if runs and runs[-1][-1].end == edge.start:
            runs[-1].append(edge)
        else:
            runs.append([edge])
    if len(runs) > 1 and runs[-1][-1].end == runs[0][0].start:
        runs[0] = runs.pop() + runs[0]
    return [Stroke(CUT, tuple(run)) for run in runs]
