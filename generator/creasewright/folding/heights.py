"""Thickness: how high each panel of a stack lies, from the calipers of what is beneath it.

The height of a flat panel is the longest path beneath it through panels that overlap, adding calipers, inserts and foam.
Mid-planes of the rigid model do not move for it; heights are counted along the stack's normal from the mid-plane of its anchor,
the panel that hangs on another plane by a score (else the lowest).
"""

from creasewright.folding.overlaps import flat_frame, overlap, seen_polygon
from creasewright.folding.panel_graph import links
from creasewright.folding.state import Body, PanelKey, Stack, State

Heights = dict[PanelKey, tuple[float, float]]
"""Panel to (lower face, upper face) along the normal, mm."""


def thickness(state: State, panel: PanelKey) -> float:
    return state.thick.get(panel[0]) or 0.0


def foam_between(state: State, panels: set[PanelKey]) -> dict[frozenset[PanelKey], float]:
    return {frozenset((b.first, b.second)): b.gap for b in state.bonds if b.gap > 0 and b.first in panels and b.second in panels}


def heights(state: State, body: Body, stack: Stack) -> Heights:
    frame = flat_frame(stack.normal)
    shapes = {key: seen_polygon(state, key, frame) for key in stack.order}
    foam = foam_between(state, set(stack.order))
    found: Heights = {}
    for number, key in enumerate(stack.order):
        low = 0.0
        for below in reversed(stack.order[:number]):  # the highest first: it leaves the fewest to be compared
            top = found[below][1] + foam.get(frozenset((below, key)), 0.0)
            if top > low and overlap(shapes[key], shapes[below]):
                low = top
        found[key] = (low, low + thickness(state, key))
    base = anchor(state, body, stack)
    middle = (found[base][0] + found[base][1]) / 2
    return {key: (low - middle, high - middle) for key, (low, high) in found.items()}


def anchor(state: State, body: Body, stack: Stack) -> PanelKey:
    inside = set(stack.order)
    for link in links(state, body.parts):
        if link.piece is not None and (link.first in inside) != (link.second in inside):
            return link.first if link.first in inside else link.second
    return stack.order[0]


def total(found: Heights) -> float:
    """From the lowest face to the highest, mm."""
    return max(high for _, high in found.values()) - min(low for low, _ in found.values())
