"""What can be measured on a body as it lies: over all, and every panel's part that shows between two straight edges. mm."""

from msgspec import Struct

from creasewright.fitting.finished_size import size_of
from creasewright.fitting.looks import Looking, is_flat, shown_panels, top_down
from creasewright.folding.covered_boards import outer_seen
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.clip import area, union
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import rotate
from creasewright.joining.compass import Box, box
from creasewright.joining.run_step import StepRun

Spot3 = tuple[float, float, float]
READS = 1.5
"""mm: a smaller difference is lost among the errors of hands. Common practice, no source."""
LAID = "laid"
LEAST = 8.0
"""mm: what is measured is no narrower."""
LEVEL = 1 - 1e-9
EVEN = 0.1
"""mm: what ends this near a line ends on it."""
BOX_SIDES = ("left", "head", "right", "tail")
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
    sides: tuple[str, ...] = ()
    """Of the border beside a part that was laid on another: where it is so wide."""

    @property
    def key(self) -> tuple[str, str, str]:
        return self.part, self.panel, self.way

    @property
    def over_all(self) -> bool:
        return not self.panel and not self.sides


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


def size_over_all(state: State, body: Body, way: str) -> float:
    """mm; as `measures` has it over all."""
    if way == "depth":
        return size_of(state, body)[2]
    left, head, right, tail = rim(state, body)
    return right - left if way == "width" else tail - head


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


def border(state: State, body: Body, run: StepRun) -> Measure | None:
    """How far a part that the step lays on another ends inside the edges and fold lines of that: what its place can be told by.

    Of several widths the one that most sides have; None where no straight edge of it lies beside one.
    """
    fresh = run.new_bonds
    parts = {bond.second[0] for bond in fresh}
    if len(parts) != 1 or not is_flat(state, body) or not parts <= body.parts:
        return None
    part = parts.pop()
    mine = [outer_seen(state, (part, panel.name), body.view) for panel in state.blanks[part].panels]
    theirs = [shape for key in dict.fromkeys(bond.first for bond in fresh) for shape in lines_round(state, body, key)]
    own = box(mine)
    found: dict[str, float] = {}
    for place, side in enumerate(BOX_SIDES):
        axis, outwards = place % 2, 1 if place > 1 else -1
        if any(has_edge(shape, axis, own[place]) for shape in mine):
            gaps = [(at - own[place]) * outwards for shape in theirs for at in straight_edges(shape, axis, own)]
            found[side] = min((gap for gap in gaps if gap > EVEN), default=0.0)
    found = {side: gap for side, gap in found.items() if gap >= READS}
    if not found:
        return None
    groups = {side: tuple(each for each in found if abs(found[each] - found[side]) < EVEN) for side in found}
    sides = max(groups.values(), key=len)
    return bordering(part, own, sides, found[sides[0]])


def lines_round(state: State, body: Body, key: PanelKey) -> list[Polygon]:
    """The panel's own outline; of a cover that is turned in round boards the whole one's, for its folds are not pressed beforehand."""
    blank = state.blanks[key[0]]
    if blank.wrap is None:
        return [outer_seen(state, key, body.view)]
    return union([outer_seen(state, (key[0], panel.name), body.view) for panel in blank.panels])


def bordering(part: str, own: Box, sides: tuple[str, ...], gap: float) -> Measure:
    """Drawn at the first of its sides, at the middle of the part's edge there."""
    place = BOX_SIDES.index(sides[0])
    axis, far = place % 2, own[place] + (gap if place > 1 else -gap)
    across = (own[1 - axis] + own[3 - axis]) / 2
    near_end, far_end = ((at, across, 0.0) if axis == 0 else (across, at, 0.0) for at in (own[place], far))
    ends = (near_end, far_end) if place > 1 else (far_end, near_end)
    return Measure(part, "", "width" if axis == 0 else "height", gap, *ends, sides)


def straight_edges(piece: Polygon, axis: int, beside: Box) -> list[float]:
    """Where edges that run straight along a side of a box beside it lie."""
    low, high = beside[1 - axis], beside[3 - axis]
    return [
        a[axis]
        for a, b in zip(piece, (*piece[1:], piece[0]), strict=True)
        if abs(a[axis] - b[axis]) < 0.02
        and min(high, max(a[1 - axis], b[1 - axis])) - max(low, min(a[1 - axis], b[1 - axis])) > EDGE
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
