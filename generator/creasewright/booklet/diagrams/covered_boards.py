"""Boards that a cover is turned in round: from the outside only the cover shows, also at the edges."""

from msgspec import Struct

from creasewright.folding.heights import Heights
from creasewright.folding.state import PanelKey, Stack, State

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
        if wrap is None:
            continue
        turned = [level[other] for other in stack.order if other[0] == key[0] and turned_in(state, other)]
        place = next((place for place in wrap.boards if place.panel == key[1]), None)
        on_it = [bond for bond in state.bonds if key in (bond.first, bond.second)]
        others = [bond.second if bond.first == key else bond.first for bond in on_it]
        board = next((other for other in others if place is not None and state.blanks[other[0]].name == place.board), None)
        if board is None or not turned:
            continue
        own = sum(level[key]) / 2
        inner = max((sum(one) / 2 for one in turned), key=lambda at: abs(at - own))
        found.append(CoveredBoard(key, board, min(own, inner), max(own, inner)))
    return tuple(found)


def turned_in(state: State, key: PanelKey) -> bool:
    """A panel of a cover that lies folded on: it hangs by a score that is turned all the way."""
    blank = state.blanks[key[0]]
    own = [piece for piece in blank.pieces if key[1] in (piece.first, piece.second)]
    return any(abs(state.angles.get((key[0], piece.name), 0.0)) > TURNED for piece in own)
