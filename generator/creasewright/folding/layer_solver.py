"""The order of layers when many folds close flat at once.

A state that lies flat is possible when some order of its panels obeys, along every fold line, the conditions of
J. Justin ("Towards a mathematical theory of origami", 1997), as restated by E. Demaine and J. O'Rourke, "Geometric Folding
Algorithms" (2007), ch. 11 (from memory):

- a fold puts its two panels in the order that its direction says;
- no panel that crosses a fold line lies between the two panels of that fold;
- two folds on one line, on one side of it, nest or lie apart;
- two flat joints across one line are in the same order on both sides.

The conditions are worked out here; `pair_orders` finds an order that obeys them.
"""

from math import hypot

from msgspec import Struct

from creasewright.folding.overlaps import box_of, boxes_meet, flat_frame, overlap_area, seen_polygon
from creasewright.folding.pair_orders import Alike, Nested, Outside, Wish, ordered
from creasewright.folding.panel_graph import Link
from creasewright.folding.state import PanelKey, Stack, State, front_normal
from creasewright.geometry.clip import clockwise
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Matrix, apply, dot, rotate

ON_LINE = 1e-3


class Seam(Struct, frozen=True):
    """A score piece between two panels of the stack, as seen in the plane.

    `above` is the panel that the fold puts on top, None if flat.
    """

    first: PanelKey
    second: PanelKey
    start: tuple[float, float]
    end: tuple[float, float]
    above: PanelKey | None


def seams_of(state: State, all_links: list[Link], stack: Stack, frame: Matrix) -> list[Seam]:
    inside = set(stack.order)
    seams = []
    for link in all_links:
        if link.piece is None or link.piece_key is None or link.first not in inside or link.second not in inside:
            continue
        angle = state.angles.get(link.piece_key, 0.0)
        ends = []
        for point in (link.piece.start, link.piece.end):
            seen = rotate(frame, apply(state.placed[link.first], (float(point.x), float(point.y), 0.0)))
            ends.append((seen[0], seen[1]))
        above = None
        if abs(angle) > 90:
            looks_up = dot(front_normal(state.placed[link.first]), stack.normal) > 0
            above = link.second if looks_up == (angle > 0) else link.first
        seams.append(Seam(link.first, link.second, ends[0], ends[1], above))
    return seams


def near_line(seam: Seam, boxes: dict[PanelKey, tuple[float, float, float, float]]) -> list[PanelKey]:
    """The panels whose boxes come within 1 mm of a seam."""
    xs, ys = (sorted((seam.start[k], seam.end[k])) for k in (0, 1))
    mine = (xs[0] - 1, ys[0] - 1, xs[1] + 1, ys[1] + 1)
    return [panel for panel, box in boxes.items() if boxes_meet(mine, box)]


def side_of(polygon: Polygon, seam: Seam) -> tuple[bool, bool]:
    """Whether a polygon reaches to the left and to the right of a seam, beside the seam itself."""
    (ax, ay), (bx, by) = seam.start, seam.end
    dx, dy = bx - ax, by - ay
    length = hypot(dx, dy)
    ux, uy = dx / length, dy / length
    strip = [(ax + ux * t + uy * s, ay + uy * t - ux * s) for t, s in ((0.0, 1.0), (length, 1.0), (length, 0.0), (0.0, 0.0))]
    other = [(ax + ux * t - uy * s, ay + uy * t + ux * s) for t, s in ((0.0, 0.0), (length, 0.0), (length, 1.0), (0.0, 1.0))]
    return overlap_area(polygon, clockwise(tuple(strip))) > 0.5, overlap_area(polygon, clockwise(tuple(other))) > 0.5


class Rules:
    """What an order must obey, looked up by panel."""

    def __init__(self, state: State, all_links: list[Link], stack: Stack, fixed: tuple[tuple[PanelKey, PanelKey], ...] = ()) -> None:
        self.fixed = fixed
        """(lower, upper) that an order must keep."""
        frame = flat_frame(stack.normal)
        self.shapes = {panel: seen_polygon(state, panel, frame) for panel in stack.order}
        seams = seams_of(state, all_links, stack, frame)
        self.folds = [seam for seam in seams if seam.above is not None]
        boxes = {panel: box_of(shape) for panel, shape in self.shapes.items()}
        self.crossers = [
            (fold, panel)
            for fold in self.folds
            for panel in near_line(fold, boxes)
            if self.crosses(panel, fold, side_of(self.shapes[fold.first], fold), seams)
        ]
        self.pairs = [
            (a, b)
            for k, a in enumerate(self.folds)
            for b in self.folds[k + 1 :]
            if self.share_line(a, b) and self.same_side(a, b)
        ]
        flats = [seam for seam in seams if seam.above is None]
        self.joints = [self.side_by_side(a, b) for k, a in enumerate(flats) for b in flats[k + 1 :] if self.share_line(a, b)]

    def crosses(self, panel: PanelKey, fold: Seam, home: tuple[bool, bool], seams: list[Seam]) -> bool:
        """A panel lies on both sides of a fold line, alone or with a neighbour that continues it flat.

        `home`: the side of the line on which the fold's own panels lie.
        """
        if panel in (fold.first, fold.second):
            return False
        left, right = side_of(self.shapes[panel], fold)
        if left and right:
            return True
        if not ((left and home[0]) or (right and home[1])):
            return False
        return any(flat.above is None and panel in (flat.first, flat.second) and self.share_line(flat, fold) for flat in seams)

    @staticmethod
    def share_line(a: Seam, b: Seam) -> bool:
        """The two seams lie on one line and overlap along it."""
        (ax, ay), (bx, by) = a.start, a.end
        dx, dy = bx - ax, by - ay
        length = hypot(dx, dy)
        along = []
        for x, y in (b.start, b.end):
            if abs((x - ax) * dy - (y - ay) * dx) / length > ON_LINE:
                return False
            along.append(((x - ax) * dx + (y - ay) * dy) / length)
        return min(max(along), length) - max(min(along), 0.0) > 0.5

    def same_side(self, a: Seam, b: Seam) -> bool:
        left_a, right_a = side_of(self.shapes[a.first], a)
        left_b, right_b = side_of(self.shapes[b.first], a)
        return (left_a and left_b) or (right_a and right_b)

    def side_by_side(self, a: Seam, b: Seam) -> tuple[tuple[PanelKey, PanelKey], tuple[PanelKey, PanelKey]]:
        """The panels of two flat joints on one line, paired by side."""
        if self.same_side(a, b):
            return (a.first, b.first), (a.second, b.second)
        return (a.first, b.second), (a.second, b.first)

    def allows(self, order: list[PanelKey]) -> bool:
        height = {panel: number for number, panel in enumerate(order)}
        if any(low in height and high in height and height[low] > height[high] for low, high in self.fixed):
            return False
        for fold in self.folds:
            if fold.above is not None and fold.first in height and fold.second in height:
                below = fold.second if fold.above == fold.first else fold.first
                if height[below] > height[fold.above]:
                    return False
        for fold, panel in self.crossers:
            if panel in height and fold.first in height and fold.second in height:
                low, high = sorted((height[fold.first], height[fold.second]))
                if low < height[panel] < high:
                    return False
        if not all(same_order(pair, other, height) for pair, other in self.joints):
            return False
        return all(nested(a, b, height) for a, b in self.pairs)


def nested(a: Seam, b: Seam, height: dict[PanelKey, int]) -> bool:
    if not {a.first, a.second, b.first, b.second} <= height.keys():
        return True
    low, high = sorted((height[a.first], height[a.second]))
    return (low < height[b.first] < high) == (low < height[b.second] < high)


def same_order(pair: tuple[PanelKey, PanelKey], other: tuple[PanelKey, PanelKey], height: dict[PanelKey, int]) -> bool:
    if not {*pair, *other} <= height.keys():
        return True
    return (height[pair[0]] < height[pair[1]]) == (height[other[0]] < height[other[1]])


def solved_order(
    state: State, all_links: list[Link], stack: Stack, fixed: tuple[tuple[PanelKey, PanelKey], ...] = ()
) -> tuple[PanelKey, ...] | None:
    """An order of the stack's panels, low to high along its normal, that obeys every fold and keeps each (lower, upper) of `fixed`.

    None where there is none.
    """
    rules = Rules(state, all_links, stack, fixed)
    number = {panel: k for k, panel in enumerate(stack.order)}
    below = [(number[low], number[high]) for low, high in rules.fixed if low in number and high in number]
    span: dict[int, tuple[int, int]] = {}
    for fold in rules.folds:
        low, high = (fold.second, fold.first) if fold.above == fold.first else (fold.first, fold.second)
        span[id(fold)] = (number[low], number[high])
    wishes: list[Wish] = [Outside(*span[id(fold)], number[panel]) for fold, panel in rules.crossers]
    wishes += [Nested(span[id(a)], span[id(b)]) for a, b in rules.pairs]
    wishes += [Alike((number[p[0]], number[p[1]]), (number[q[0]], number[q[1]])) for p, q in rules.joints]
    order = ordered(len(stack.order), [*below, *span.values()], wishes)
    return tuple(stack.order[k] for k in order) if order is not None else None
