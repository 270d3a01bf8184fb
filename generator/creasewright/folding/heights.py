"""Thickness: how high each panel of a stack lies, from the calipers of what is beneath it.

The height of a flat panel is the longest path beneath it through panels that overlap, adding calipers, inserts and foam.
Mid-planes of the rigid model do not move for it; heights are counted along the stack's normal from the mid-plane of its anchor,
the largest panel that hangs on another plane by a score (else the lowest).
"""

from creasewright.folding.overlaps import flat_frame, overlap, seen_polygon
from creasewright.folding.panel_graph import links, neighbours, reached
from creasewright.folding.state import Body, PanelKey, Stack, State

FLAT = 1.0
"""Degrees."""
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
    middle = sewn_middle(state, found)
    if middle is None:
        base = anchor(state, body, stack)
        middle = max(found[key][0] + found[key][1] for key in level_with(state, base, stack)) / 2
    return {key: (low - middle, high - middle) for key, (low, high) in found.items()}


def sewn_middle(state: State, found: Heights) -> float | None:
    """Half-way between the two halves of a leaf that is sewn: its fold stays on the line; None where no such leaf lies there."""
    sewn = {bond.second for bond in state.bonds if bond.hinge is not None and bond.second in found}
    if len(sewn) < 2:
        return None
    return (min(found[key][0] for key in sewn) + max(found[key][1] for key in sewn)) / 2


def anchor(state: State, body: Body, stack: Stack) -> PanelKey:
    """The panel that hangs on another plane; of several the largest (a turn-in that folds with its cover is not it)."""
    inside = set(stack.order)
    hanging = [
        link.first if link.first in inside else link.second
        for link in links(state, body.parts)
        if link.piece is not None and (link.first in inside) != (link.second in inside)
    ]
    if not hanging:
        return stack.order[0]
    return max(hanging, key=lambda key: round(state.blanks[key[0]].panel(key[1]).area, 1))


def level_with(state: State, base: PanelKey, stack: Stack) -> set[PanelKey]:
    """The panels of one sheet that lie flat beside this one: they lie at one level, that of the highest."""
    flat = [
        link
        for link in links(state, [base[0]])
        if link.piece_key is not None and abs(state.angles.get(link.piece_key, 0.0)) < FLAT
    ]
    inside = set(stack.order)
    return reached(base, neighbours(link for link in flat if link.first in inside and link.second in inside))


def total(found: Heights) -> float:
    """From the lowest face to the highest, mm."""
    return max(high for _, high in found.values()) - min(low for low, _ in found.values())
