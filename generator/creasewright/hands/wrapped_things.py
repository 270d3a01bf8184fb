"""Wraps: a cover that goes round what lies inside it: spine and covers, the room between them, and what is there."""

from msgspec.structs import replace

from creasewright.folding.overlaps import flat_frame, seen_polygon
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.folding.swing import centre_of
from creasewright.geometry.clip import intersection
from creasewright.geometry.rigid_transform import Vector, apply, dot, minus, rotate
from creasewright.joining.bulk_map import layers_of, thickest_of

SQUARE = 0.5
"""Degrees off a right angle."""
APART = 0.1
"""mm from which two covers stand apart."""


def wraps(state: State, body: Body) -> list[tuple[PanelKey, PanelKey, PanelKey]]:
    """(cover, spine, cover): a panel with two parallel neighbours that stand square on it and face each other."""
    found = []
    for part in sorted(body.parts):
        blank = state.blanks[part]
        for panel in blank.panels:
            beside = [
                piece.second if piece.first == panel.name else piece.first
                for piece in blank.pieces
                if panel.name in (piece.first, piece.second) and abs(abs(state.angles.get((part, piece.name), 0.0)) - 90) < SQUARE
            ]
            for k, a in enumerate(beside):
                found += [((part, a), (part, panel.name), (part, b)) for b in beside[k + 1 :] if faces_across(state, (part, a), (part, b))]
    return found


def faces_across(state: State, a: PanelKey, b: PanelKey) -> bool:
    return abs(dot(front_normal(state.placed[a]), front_normal(state.placed[b]))) > 0.9999 and gap_of(state, a, b) > APART


def gap_of(state: State, a: PanelKey, b: PanelKey) -> float:
    """mm between the middles of two parallel sheets."""
    return abs(dot(minus(spot(state, a), spot(state, b)), front_normal(state.placed[a])))


def spot(state: State, key: PanelKey) -> Vector:
    return apply(state.placed[key], centre_of(state, key))


def inside_thickness(state: State, body: Body, first: PanelKey, second: PanelKey) -> float:
    """The greatest thickness of what lies between two covers, where both of them reach, mm."""
    view = flat_frame(front_normal(state.placed[first]))
    levels = sorted(rotate(view, spot(state, key))[2] for key in (first, second))
    seen = Body(body.parts, body.stacks, view)
    shared = intersection([seen_polygon(state, first, view)], [seen_polygon(state, second, view)])
    between = []
    for layer in layers_of(state, seen):
        if layer.key in (first, second) or layer.key not in state.placed:
            continue
        level = rotate(view, spot(state, layer.key))[2]
        if levels[0] - 0.01 <= level <= levels[1] + 0.01 and not outside(state, seen, layer.key, first, second):
            between.append(replace(layer, shape=tuple(intersection(list(layer.shape), shared))))
    return thickest_of(between)


def outside(state: State, body: Body, key: PanelKey, first: PanelKey, second: PanelKey) -> bool:
    """A layer in the plane of one of the covers, on the side away from the other."""
    stack = next(stack for stack in body.stacks if key in stack.order)
    for cover, other in ((first, second), (second, first)):
        if cover in stack.order:
            towards = dot(minus(spot(state, other), spot(state, cover)), stack.normal) > 0
            return (stack.order.index(key) > stack.order.index(cover)) != towards
    return False
