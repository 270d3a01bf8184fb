"""What can still be opened: whether a panel that lies over another can be folded or lifted away from it.

A panel can be opened where all score pieces on one line, turned together, part it from the other; glue, thread and what was placed in
does not open. `closed_in` names the panels that lie over a place and cannot be opened.
"""

from creasewright.folding.overlaps import overlap_area
from creasewright.folding.panel_graph import links, neighbours, reached
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.geometry.clip import clockwise
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import apply, cross, minus, norm, rotate
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import facing, polygon_in_view

ON_LINE = 0.05
"""mm within which the ends of a score piece lie on a line."""
COVERS = 20.0
"""mm² of a place that a panel must cover to be in the way."""


def lines_of(state: State, body: Body) -> list[frozenset[PieceKey]]:
    """The score pieces of a body, those that lie on one line as it stands together."""
    spots = []
    for link in links(state, body.parts):
        if link.piece is None or link.piece_key is None or link.piece.arc is not None:
            continue
        ends = [apply(state.placed[link.first], (float(p.x), float(p.y), 0.0)) for p in (link.piece.start, link.piece.end)]
        spots.append((link.piece_key, ends[0], ends[1]))
    found: list[tuple[list[PieceKey], tuple[float, float, float], tuple[float, float, float]]] = []
    for key, start, end in spots:
        for group, a, b in found:
            way = minus(b, a)
            if all(norm(cross(minus(spot, a), way)) <= ON_LINE * norm(way) for spot in (start, end)):
                group.append(key)
                break
        else:
            found.append(([key], start, end))
    return [frozenset(group) for group, _, _ in found]


def opens(state: State, body: Body, panel: PanelKey, away_from: PanelKey) -> bool:
    """Whether some line of folds parts the two panels."""
    every = list(links(state, body.parts))
    return any(panel not in reached(away_from, neighbours(every, without=line)) for line in lines_of(state, body))


def closed_in(state: State, panel: PanelKey, onto: PanelKey, place: Polygon | None = None) -> list[PanelKey]:
    """Panels on the far side of `panel` from `onto` (both of one plane) that cover it, or a place on it, and cannot be opened.

    `place` is in the panel's flat frame. Nearest first.
    """
    body = state.body_of(panel[0])
    stack = stack_of(body, panel)
    if onto not in stack.order:
        return []
    here, there = stack.order.index(panel), stack.order.index(onto)
    beyond = stack.order[here + 1 :] if here > there else stack.order[:here][::-1]
    seen = facing(state, body, panel)
    shape = polygon_in_view(state, seen, panel) if place is None else placed_in_view(state, seen, panel, place)
    return [
        key
        for key in beyond
        if overlap_area(polygon_in_view(state, seen, key), shape) > COVERS and not opens(state, body, key, onto)
    ]


def placed_in_view(state: State, body: Body, panel: PanelKey, place: Polygon) -> Polygon:
    spots = [rotate(body.view, apply(state.placed[panel], (x, y, 0.0))) for x, y in place]
    return clockwise(tuple((spot[0], spot[1]) for spot in spots))
