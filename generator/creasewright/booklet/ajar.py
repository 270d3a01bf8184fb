"""The finished thing a little open, for the cover: its topmost leaf lifted about a fold that lies along one edge of it.

Nothing is written in the design for this. Of all lines on which closed folds lie, one head to tail comes first, then the one that
lifts least paper, a cover rather than the block; what the engine refuses to lift (it is glued or tucked in) stays closed, and so
does what is tied round.
"""

from msgspec import Struct
from msgspec.structs import replace

from creasewright.folding.fold_scores import area_of, fold_scores, piece_of
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.panel_graph import Link, clusters, links, neighbours, panels_of
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.geometry.rigid_transform import apply, rotate, times

OPENED = 0.7
"""Of half a turn: the angle that a fold head to tail is left at when it is lifted."""
RAISED = 0.45
"""The same of a fold that runs across: its leaf stands up and leans back a little, so that what is printed inside it is seen."""
FLAT = 179.0
"""Degrees: a fold at least so far closed lies flat."""
ON_LINE = 0.5
"""mm within which folds lie on one line, and a line along the edge of the thing."""
Seam = tuple[bool, float]
"""Whether a line runs head to tail as seen, and its distance from the left, or else from the head; mm in the view."""


class _Lift(Struct, frozen=True):
    leaf: frozenset[PanelKey]
    targets: dict[PieceKey, float]
    """The angles that lift it."""
    seam: Seam


def ajar(state: State, body: Body, front: PanelKey | None) -> tuple[State, Body]:
    """The state with one leaf lifted, and its body; both as given where nothing can be.

    A thing whose `front` lies face down is turned over like a page, if it then opens like a book.
    """
    if state.closures or len(body.stacks) != 1:
        return state, body
    faced_down = front is not None and _from_the_table(body)[0] == front
    for each in (_turned_over(body), body) if faced_down else (body,):
        lying = replace(state, bodies=tuple(each if other is body else other for other in state.bodies))
        for lift in _lifts(lying, each):
            lifted = _lifted(lying, each, lift) if lift.seam[0] or each is body else None
            if lifted is not None:
                return lifted, lifted.body_of(next(iter(body.parts)))
    return state, body


def _turned_over(body: Body) -> Body:
    """Like a page: left and right, over and under change places."""
    return replace(body, view=times((-1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, -1.0), body.view))


def _from_the_table(body: Body) -> tuple[PanelKey, ...]:
    """The panels of the one stack, the topmost as seen last."""
    stack = body.stacks[0]
    return stack.order if rotate(body.view, stack.normal)[2] < 0 else stack.order[::-1]


def _lifted(state: State, body: Body, lift: _Lift) -> State | None:
    rest = [panel for panel in panels_of(state, body.parts) if panel not in lift.leaf]
    try:
        return fold_scores(state, lift.targets, stays=max(rest, key=lambda panel: area_of(state, panel)))
    except FoldRefused:
        return None


def _lifts(state: State, body: Body) -> list[_Lift]:
    """The best first."""
    all_links = list(links(state, body.parts))
    top = _from_the_table(body)[-1]
    found = []
    for seam, pieces in _seams(state, body, all_links).items():
        around = neighbours(all_links, frozenset(pieces))
        leaf = next(group for group in clusters(panels_of(state, body.parts), around) if top in group)
        ends = [link for link in all_links if link.piece_key in pieces and (link.first in leaf) != (link.second in leaf)]
        left_at = OPENED if seam[0] else RAISED
        targets = {link.piece_key: state.angles[link.piece_key] * left_at for link in ends if link.piece_key}
        if targets:
            found.append(_Lift(frozenset(leaf), targets, seam))
    return sorted(found, key=lambda lift: (not lift.seam[0], round(sum(area_of(state, panel) for panel in lift.leaf)), lift.seam[1]))


def _seams(state: State, body: Body, all_links: list[Link]) -> dict[Seam, list[PieceKey]]:
    """The closed folds on each line that runs along an edge of the thing, straight up or straight across."""
    spots = [spot for panel in body.stacks[0].order for spot in seen_corners(state, panel, body.view)]
    edges = {down: (min(s[axis] for s in spots), max(s[axis] for s in spots)) for down, axis in ((True, 0), (False, 1))}
    found: dict[Seam, list[PieceKey]] = {}
    for link in all_links:
        if link.piece_key is None or abs(state.angles.get(link.piece_key, 0.0)) < FLAT:
            continue
        piece = piece_of(state, link.piece_key)
        places = ((float(end.x), float(end.y), 0.0) for end in (piece.start, piece.end))
        (ax, ay, _), (bx, by, _) = (rotate(body.view, apply(state.placed[link.first], place)) for place in places)
        for down, a, b in ((True, ax, bx), (False, ay, by)):
            edge = next((edge for edge in edges[down] if abs(a - edge) < ON_LINE and abs(b - edge) < ON_LINE), None)
            if edge is not None:
                found.setdefault((down, edge), []).append(link.piece_key)
    return found
