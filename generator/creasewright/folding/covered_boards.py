"""Boards that a cover is turned in round: from the outside only the cover shows, also at the edges.

The fold of a turn-in lies half the board's thickness outside the board's edge, so that the flat cover is large enough to go up that edge.
Folding leaves it there. On the real thing the cover is pulled tight round the edge: the outside is the board's outline and the cover's
caliper. So what is measured or seen from outside takes a panel's `outer_polygon`, not its polygon.
"""

from msgspec import Struct

from creasewright.blanks.blank import BoardPlace, TurnInLine
from creasewright.folding.heights import Heights
from creasewright.folding.overlaps import clockwise_in_view, corners_in_view
from creasewright.folding.state import PanelKey, Stack, State
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Matrix
from creasewright.geometry.tolerance import SAME

TURNED = 170.0
"""Degrees: a turn-in folded on is turned by no less."""


class CoveredBoard(Struct, frozen=True):
    """A board between its own panel of the cover and the turn-ins on its other side."""

    panel: PanelKey
    """The cover's."""
    board: PanelKey
    low: float
    high: float
    """From the cover's middle to the turn-ins' middle along the stack's normal, mm; `low` is the lower of the two."""


def covered_boards(state: State, stack: Stack, level: Heights) -> tuple[CoveredBoard, ...]:
    found = []
    for key in stack.order:
        wrap = state.blanks[key[0]].wrap
        place = next((place for place in wrap.boards if place.panel == key[1]), None) if wrap is not None else None
        board = board_on(state, key[0], place) if place is not None else None
        turned = [level[other] for other in stack.order if other[0] == key[0] and is_turned_in(state, other)]
        if board is None or not turned:
            continue
        own = sum(level[key]) / 2
        inner = max((sum(one) / 2 for one in turned), key=lambda at: abs(at - own))
        found.append(CoveredBoard(key, (board, state.blanks[board].panels[0].name), min(own, inner), max(own, inner)))
    return tuple(found)


def board_on(state: State, cover: str, place: BoardPlace) -> str | None:
    """The part that lies at a place of a cover, held there; None where it is still free."""
    for bond in state.bonds:
        first, second = (bond.first, bond.second) if bond.first[0] == cover else (bond.second, bond.first)
        if first == (cover, place.panel) and state.blanks[second[0]].name == place.board:
            return second[0]
    return None


def is_turned_in(state: State, key: PanelKey) -> bool:
    """A panel of a cover that lies folded on: it hangs by a score that is turned all the way."""
    blank = state.blanks[key[0]]
    own = [piece for piece in blank.pieces if key[1] in (piece.first, piece.second)]
    return any(turned_all_the_way(state, key[0], piece.name) for piece in own)


def turned_all_the_way(state: State, part: str, piece: str) -> bool:
    return abs(state.angles.get((part, piece), 0.0)) > TURNED


def outer_polygon(state: State, key: PanelKey) -> Polygon:
    """The panel as it is measured from outside, in its flat frame: at a fold that goes round a board it ends a caliper of the cover
    beyond the board. All other panels keep their polygon."""
    part, panel = key
    blank = state.blanks[part]
    polygon = blank.panel(panel).polygon
    lines = [line for line in blank.turn_in_lines if goes_round(state, part, line)]
    if not lines:
        return polygon
    caliper = state.thick.get(part) or 0.0
    corners = [list(corner) for corner in polygon]
    for line in lines:
        middle = sum(corner[line.axis] for corner in polygon) / len(polygon)
        beyond = (middle - line.at) * line.outwards > 0
        moved = line.at + (line.outside - caliper) * line.outwards * (1.0 if beyond else -1.0)
        for corner in corners:
            if abs(corner[line.axis] - line.at) < SAME:
                corner[line.axis] = moved
    return tuple((x, y) for x, y in corners)


def goes_round(state: State, part: str, line: TurnInLine) -> bool:
    """Whether the cover is folded there, all the way, over boards that lie on it."""
    if not line.pieces or not all(turned_all_the_way(state, part, piece) for piece in line.pieces):
        return False
    return all(board_on(state, part, place) is not None for place in line.boards)


def outer_corners(state: State, key: PanelKey, view: Matrix) -> Polygon:
    """The corners of `outer_polygon` as seen in a view, in the panel's own order."""
    return corners_in_view(state, key, outer_polygon(state, key), view)[0]


def outer_seen(state: State, key: PanelKey, view: Matrix) -> Polygon:
    """The same, clockwise whichever side is up."""
    return clockwise_in_view(state, key, outer_polygon(state, key), view)
