"""Where a piece's letter may be pencilled so that nobody ever sees it: under glue."""

from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.geometry.clip import area


def letter_panel(worked: Worked, piece: Piece) -> str:
    """The panel on which every part of the piece is glued, that with the most glue first; empty if there is none.

    Both sides of a joint count: what the glue is put on, and what it is pressed to.
    """
    state = worked.finished.state if worked.finished else None
    if state is None:
        return ""
    shared: dict[str, float] = {}
    for number, part in enumerate(piece.parts):
        glued: dict[str, float] = {}
        for each in state.glue:
            for path, panel in (each.panel, each.onto):
                if path == part:
                    glued[panel] = glued.get(panel, 0.0) + abs(area(each.polygon))
        shared = glued if number == 0 else {panel: shared[panel] + held for panel, held in glued.items() if panel in shared}
    return max(shared, key=lambda panel: shared[panel], default="")
