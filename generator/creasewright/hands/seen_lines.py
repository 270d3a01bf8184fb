"""Lines as the maker sees them: the scores and edges that lie at a place, and how that place errs."""

from msgspec import Struct

from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, apply, dot, rotate, transposed
from creasewright.hands.carried import Slopes, added
from creasewright.hands.made_lines import FlatLine, lines_of
from creasewright.hands.made_places import Places, along, shifts_from

AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
"""Of the view: right, to the maker, down."""
SAME = 0.05
"""mm within which a line lies at a place."""


class SeenLine(Struct, frozen=True):
    """A line of a panel that runs across one axis of the view."""

    panel: PanelKey
    at: float
    """On that axis, mm."""
    slopes: Slopes
    """Of its place on its own panel."""
    scored: bool = False
    """A score, not an edge."""


def seen_lines(state: State, body: Body, panel: PanelKey, axis: int) -> list[SeenLine]:
    """The sides of a panel that run straight across an axis of the view (0: left to right, 1: head to tail, 2: down to the table)."""
    flat = state.blanks[panel[0]].panel(panel[1]).polygon
    lines = lines_of(state, panel[0])
    way, placed = in_world(body, axis), state.placed[panel]
    found = []
    for a, b in zip(flat, (*flat[1:], flat[0]), strict=True):
        ends = [rotate(body.view, apply(placed, (*spot, 0.0)))[axis] for spot in (a, b)]
        line = next((line for line in lines if line.holds(a, b)), None)
        if abs(ends[0] - ends[1]) < SAME and line is not None:
            found.append(SeenLine(panel, sum(ends) / 2, own_slopes(state, panel, line, way), line.scored))
    return found


def own_slopes(state: State, panel: PanelKey, line: FlatLine, way: Vector) -> Slopes:
    share = dot(rotate(state.placed[panel].turn, (*line.normal, 0.0)), way)
    return added({}, line.slopes, share)


def in_world(body: Body, axis: int) -> Vector:
    return rotate(transposed(body.view), AXES[axis])


def lines_at(state: State, body: Body, panels: list[PanelKey], axis: int, value: float) -> list[SeenLine]:
    return [line for panel in panels for line in seen_lines(state, body, panel, axis) if abs(line.at - value) < SAME]


def apart(state: State, body: Body, places: Places, first: SeenLine, second: SeenLine, axis: int) -> Slopes:
    """How the distance from the first line to the second errs, along an axis of the view."""
    between = between_panels(state, body, places, first.panel, second.panel, axis)
    return added(added(between, second.slopes), first.slopes, -1.0)


def between_panels(state: State, body: Body, places: Places, first: PanelKey, second: PanelKey, axis: int) -> Slopes:
    """How far the second panel is shifted against the first along an axis of the view (2: its depth)."""
    found = shifts_from(state, body.parts, places, first)
    return along(found.get(second, {}), in_world(body, axis))
