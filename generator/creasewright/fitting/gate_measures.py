"""What can be measured on a body as it lies: over all, and every panel's part that shows between two straight edges. mm."""

from msgspec import Struct

from creasewright.fitting.finished_size import size_of
from creasewright.fitting.looks import Looking, is_flat, shown_panels, top_down
from creasewright.folding.covered_boards import outer_seen
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, State
from creasewright.geometry.clip import area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import rotate
from creasewright.joining.compass import Box, box

Spot3 = tuple[float, float, float]
READS = 1.5
"""mm: a smaller difference is lost among the errors of hands. Common practice, no source."""
LAID = "laid"
LEAST = 8.0
"""mm: what is measured is no narrower."""
LEVEL = 1 - 1e-9
EDGE = 5.0
"""mm of straight edge that a ruler can be held to."""


class Measure(Struct, frozen=True):
    part: str
    """Of a panel that shows; `LAID` for all that the step lays; empty for a measure over all."""
    panel: str
    way: str
    """`width` (left to right), `height` (head to tail) or `depth` (up from the table)."""
    mm: float
    start: Spot3
    end: Spot3
    """In the view: x right, y towards the maker, z down."""

    @property
    def key(self) -> tuple[str, str, str]:
        return self.part, self.panel, self.way

    @property
    def over_all(self) -> bool:
        return not self.panel


def measures(state: State, body: Body, looking: Looking) -> list[Measure]:
    """Over all first, with the thickness of what stands at the rim."""
    if not is_flat(state, body):
        return standing(state, body)
    left, head, right, tail = rim(state, body)
    found = [
        Measure("", "", "width", right - left, (left, tail, 0.0), (right, tail, 0.0)),
        Measure("", "", "height", tail - head, (right, head, 0.0), (right, tail, 0.0)),
    ]
    for shown in shown_panels(state, body, looking):
        if len(shown.pieces) == 1:
            found += of_panel(shown.key, shown.pieces[0])
    return found


def rim(state: State, body: Body) -> Box:
    """Left, head, right, tail; where everything lies flat, thickness adds nothing to them."""
    if all(abs(rotate(body.view, stack.normal)[2]) > LEVEL for stack in body.stacks):
        return box([outer_seen(state, key, body.view) for stack in body.stacks for key in stack.order])
    (left, head, _), (right, tail, _) = extents(state, body)
    return left, head, right, tail


def laid_measures(state: State, body: Body, parts: tuple[str, ...]) -> list[Measure]:
    """Across several parts that one step lays flat: their gaps are in it."""
    if len(parts) < 2 or not is_flat(state, body):
        return []
    shapes = [outer_seen(state, key, body.view) for key in top_down(state, body) if key[0] in parts]
    if not shapes:
        return []
    left, head, right, tail = box(shapes)
    return [
        Measure(LAID, "", "width", right - left, (left, tail, 0.0), (right, tail, 0.0)),
        Measure(LAID, "", "height", tail - head, (right, head, 0.0), (right, tail, 0.0)),
    ]


def of_panel(key: tuple[str, str], piece: Polygon) -> list[Measure]:
    left, head, right, tail = box([piece])
    found = []
    if right - left > LEAST and has_edge(piece, 0, left) and has_edge(piece, 0, right):
        found.append(Measure(*key, "width", right - left, (left, tail, 0.0), (right, tail, 0.0)))
    if tail - head > LEAST and has_edge(piece, 1, head) and has_edge(piece, 1, tail):
        found.append(Measure(*key, "height", tail - head, (right, head, 0.0), (right, tail, 0.0)))
    return found if abs(area(piece)) > LEAST * LEAST else []


def has_edge(piece: Polygon, axis: int, value: float) -> bool:
    """A straight edge that lies on the limit, long enough to hold a ruler to."""
    return any(
        abs(a[axis] - value) < 0.02 and abs(b[axis] - value) < 0.02 and abs(a[1 - axis] - b[1 - axis]) > EDGE
        for a, b in zip(piece, (*piece[1:], piece[0]), strict=True)
    )


def standing(state: State, body: Body) -> list[Measure]:
    (x0, y0, z0), (x1, y1, z1) = extents(state, body)
    width, height, depth = size_of(state, body)
    return [
        Measure("", "", "width", width, (x0, y1, z1), (x1, y1, z1)),
        Measure("", "", "height", height, (x1, y0, z1), (x1, y1, z1)),
        Measure("", "", "depth", depth, (x0, y0, z0), (x0, y0, z1)),
    ]
