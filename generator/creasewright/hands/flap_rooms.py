"""Flaps folded flat over something: their free edge must stay inside the edge of what they land on, a pocket's flap inside its page.

Only edges that are meant are looked at: those within 12 mm, but not those on which the flap ends.
"""

from collections.abc import Iterator

from creasewright.folding.fold_scores import piece_of
from creasewright.folding.overlaps import COVERED, overlap_area
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey, PieceKey
from creasewright.hands.carried import Carried
from creasewright.hands.clearance import Clearance, Making
from creasewright.hands.seen_lines import SeenLine, apart, seen_lines
from creasewright.joining.compass import box, point_in_view, polygon_in_view
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

MEANT = 12.0
"""mm: an edge farther away is not meant."""
EVEN = 0.1
"""mm: what ends this near an edge is meant to end on it."""
SHUT = 179.0
MOST = 4
"""Scores of one step: where more are folded together they are pleats or walls, no flaps."""
STRAIGHT = 0.05


def flap_rooms(making: Making) -> Iterator[Clearance]:
    for _, run in making.original_runs():
        if isinstance(run.written.action, design.Fold) and len(run.targets) <= MOST:
            for key, angle in run.targets.items():
                if abs(angle) > SHUT and key[0] in run.before.blanks:
                    yield from of_fold(making, run, key)


def of_fold(making: Making, run: StepRun, key: PieceKey) -> Iterator[Clearance]:
    state = run.after
    body = state.body_of(key[0])
    piece = piece_of(state, key)
    beside = [(key[0], piece.first), (key[0], piece.second)]
    moved = [panel for panel in beside if run.before.placed.get(panel) != state.placed[panel]]
    if len(moved) != 1:
        return
    ends = [point_in_view(state, body, beside[0], float(p.x), float(p.y)) for p in (piece.start, piece.end)]
    axis = next((k for k in (0, 1) if abs(ends[0][k] - ends[1][k]) < STRAIGHT), None)
    if axis is None:
        return
    shape = polygon_in_view(state, body, moved[0])
    own = box([shape])
    outwards = 1 if (own[axis] + own[axis + 2]) / 2 > ends[0][axis] else -1
    edge = own[axis + 2] if outwards > 0 else own[axis]
    free = [line for line in seen_lines(state, body, moved[0], axis) if abs(line.at - edge) < EVEN and not line.scored]
    near = [line for panel in landings(run, moved[0]) for line in edges_beyond(run, panel, axis, edge, outwards)]
    if free and near:
        limit = min(near, key=lambda line: abs(line.at - edge))
        low, high = (free[0], limit) if outwards > 0 else (limit, free[0])
        room = Carried(abs(limit.at - edge), apart(state, body, making.places, low, high, axis))
        remedy = f"make {moved[0][1]} {{more}} shorter"
        yield Clearance("flap", called(moved[0]), limit.panel[1], "", run.written.where, room, remedy, key[0], run.number)


def landings(run: StepRun, flap: PanelKey) -> list[PanelKey]:
    """The panels that a flap comes to lie over, or under."""
    state = run.after
    body = state.body_of(flap[0])
    shape = polygon_in_view(state, body, flap)
    stack = next(stack for stack in body.stacks if flap in stack.order)
    still = [key for key in stack.order if run.before.placed.get(key) == state.placed[key]]
    return [key for key in still if overlap_area(polygon_in_view(state, body, key), shape) > COVERED]


def edges_beyond(run: StepRun, panel: PanelKey, axis: int, edge: float, outwards: int) -> list[SeenLine]:
    """Free edges of a panel a little farther out than the flap's own."""
    lines = seen_lines(run.after, run.after.body_of(panel[0]), panel, axis)
    return [line for line in lines if not line.scored and EVEN < (line.at - edge) * outwards < MEANT]
