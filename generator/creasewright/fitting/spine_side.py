"""The spine: the side at which a closed thing is hinged, the folds that lie there and the panels that stand there."""

from collections.abc import Iterator

from msgspec import Struct

from creasewright.folding.panel_graph import Link, links
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.bulk_map import from_the_table, level
from creasewright.joining.compass import Box

FOLDED = 45.0
FLAT_FOLD = 170.0
NEAR = 1.5
"""mm: a fold this near to a side lies at it."""
OPPOSITE = {"left": "right", "right": "left", "head": "tail", "tail": "head"}


class Hinge(Struct, frozen=True):
    """A panel that stands upright on the table at the spine, between two that lie flat."""

    panel: PanelKey
    between: tuple[PanelKey, PanelKey]


def spine_side(state: State, body: Body, whole: Box, front: PanelKey | None) -> str | None:
    """The hinged side of the closed thing.

    Where panels stand upright on the table it is their side; else the side at which the front's own folds lie, unless the opposite side
    has as many folds. A thing whose front is folded on all four sides (an envelope) has no spine.
    """
    counts = dict.fromkeys(("left", "right", "head", "tail"), 0.0)
    own = dict.fromkeys(counts, 0.0)
    upright = dict.fromkeys(counts, 0.0)
    family = carriers(state, body, front) if front is not None else set()
    for link, side in folds_at_sides(state, body, whole):
        counts[side] += 1
        own[side] += 1 if family & {link.first, link.second} else 0
        if link.piece_key is not None and abs(state.angles[link.piece_key]) < FLAT_FOLD:
            upright[side] += 1
    for table in (upright, own):
        if any(table.values()) and not all(table.values()):
            side = max(table, key=lambda s: (table[s], counts[s]))
            if table is upright or counts[side] > counts[OPPOSITE[side]] or own[OPPOSITE[side]] == 0:
                return side
            return None
    return None


def folds_at_sides(state: State, body: Body, whole: Box) -> Iterator[tuple[Link, str]]:
    """Every folded score piece that lies at a side of the thing, with that side."""
    for link in links(state, body.parts):
        if link.piece is None or link.piece_key is None or abs(state.angles.get(link.piece_key, 0.0)) < FOLDED:
            continue
        ends = [
            rotate(body.view, apply(state.placed[link.first], (float(p.x), float(p.y), 0.0)))
            for p in (link.piece.start, link.piece.end)
        ]
        side = side_at(ends, whole)
        if side is not None:
            yield link, side


def folds_at(state: State, body: Body, whole: Box, side: str) -> list[Link]:
    return [link for link, at in folds_at_sides(state, body, whole) if at == side]


def hinges_at(state: State, body: Body, whole: Box, side: str) -> list[Hinge]:
    """The panels that stand upright at a side and hang between two that lie flat."""
    flat = {key for stack in from_the_table(state, body) for key in stack.order}
    beside: dict[PanelKey, list[PanelKey]] = {}
    for link in folds_at(state, body, whole, side):
        for key, other in ((link.first, link.second), (link.second, link.first)):
            if key not in flat and other in flat:
                beside.setdefault(key, []).append(other)
    return [Hinge(key, (others[0], others[1])) for key, others in beside.items() if len(others) == 2]


def room_at(state: State, body: Body) -> float:
    """mm from the lowest plane that lies flat to the highest: what a standing spine holds open, from middle to middle of its paper."""
    levels = [level(state, body, stack) for stack in from_the_table(state, body)]
    return max(levels) - min(levels) if levels else 0.0


def side_at(ends: list[tuple[float, float, float]], whole: Box) -> str | None:
    for side, axis, value in (("left", 0, whole[0]), ("right", 0, whole[2]), ("head", 1, whole[1]), ("tail", 1, whole[3])):
        if all(abs(end[axis] - value) < NEAR for end in ends):
            return side
    return None


def carriers(state: State, body: Body, front: PanelKey) -> set[PanelKey]:
    """The front panel and the panels it is joined to face to face."""
    family = {front}
    grown = True
    while grown:
        grown = False
        for bond in state.bonds:
            if bond.kind == "glue" and (bond.first in family) != (bond.second in family):
                family |= {bond.first, bond.second}
                grown = True
    return family


