"""Doors: two panels folded shut from opposite sides over a third, and how far their free edges end from each other."""

from creasewright.folding.overlaps import COVERED, overlap_area, seen_corners
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.outline import Polygon
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import Box, box

MEANT = 12.0
"""mm: doors that end farther apart are not meant to meet."""
SHUT = 179.0


def doors(state: State) -> list[tuple[PanelKey, PanelKey, PanelKey]]:
    """Pairs of panels of one blank folded shut onto the same panel by two different scores, not stuck down."""
    stuck = {key for area in state.glue for key in (area.panel, area.onto)}
    onto: dict[PanelKey, list[PanelKey]] = {}
    for part, blank in state.blanks.items():
        for piece in blank.pieces:
            if abs(state.angles.get((part, piece.name), 0.0)) > SHUT:
                for door, home in ((piece.first, piece.second), (piece.second, piece.first)):
                    if (part, door) not in stuck:
                        onto.setdefault((part, home), []).append((part, door))
    return [(a, b, home) for home, panels in onto.items() for k, a in enumerate(panels) for b in panels[k + 1 :]]


def between(state: State, a: PanelKey, b: PanelKey) -> float | None:
    """mm from one door to the other, where they lie beside each other on one side of their home and are near enough to be meant."""
    body = state.body_of(a[0])
    stack = stack_of(body, a)
    if b not in stack.order:
        return None
    shapes: list[Polygon] = [seen_corners(state, key, body.view) for key in (a, b)]
    if overlap_area(*shapes) > COVERED:
        return None
    first, second = (box([shape]) for shape in shapes)
    gaps = [apart(first, second, axis) for axis in (0, 1) if overlap_along(first, second, 1 - axis)]
    return next((gap for gap in gaps if 0 <= gap < MEANT), None)


def apart(first: Box, second: Box, axis: int) -> float:
    return max(second[axis] - first[axis + 2], first[axis] - second[axis + 2])


def overlap_along(first: Box, second: Box, axis: int) -> bool:
    """Whether they stand opposite each other over more than half of the shorter one."""
    shared = min(first[axis + 2], second[axis + 2]) - max(first[axis], second[axis])
    return shared > 0.5 * min(first[axis + 2] - first[axis], second[axis + 2] - second[axis])
