"""Who covers whom: panels of one plane compared as polygons in that plane."""

from collections.abc import Iterator
from functools import lru_cache

from creasewright.folding.state import PanelKey, Stack, State
from creasewright.geometry.clip import area, intersection, total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Matrix, Vector, dot, rotate, times

COVERED = 1.0
"""Overlaps under this many mm² are slivers, not layers."""


def seen_corners(state: State, panel: PanelKey, view: Matrix) -> Polygon:
    """The corners of the panel's polygon as seen in a view, in the panel's own order: x and y there, mm."""
    return corners_in_view(state, panel, state.blanks[panel[0]].panel(panel[1]).polygon, view)[0]


def seen_polygon(state: State, panel: PanelKey, view: Matrix) -> Polygon:
    """The panel as seen in a view, clockwise whichever side is up, so that polygons can be joined and compared."""
    return clockwise_in_view(state, panel, state.blanks[panel[0]].panel(panel[1]).polygon, view)


def clockwise_in_view(state: State, panel: PanelKey, flat: Polygon, view: Matrix) -> Polygon:
    """Corners given clockwise in the panel's flat frame, as seen in a view, clockwise there too."""
    corners, front_up = corners_in_view(state, panel, flat, view)
    return corners if front_up else corners[::-1]


def corners_in_view(state: State, panel: PanelKey, flat: Polygon, view: Matrix) -> tuple[Polygon, bool]:
    """Corners given in the panel's flat frame, as seen in a view, in the same order; and whether the panel's front is towards the eye:
    then they run clockwise as they do on the blank."""
    turn, shift = state.placed[panel]
    a, b, _, c, d, _, _, _, _ = times(view, turn)
    x0, y0, _ = rotate(view, shift)
    return tuple([(a * x + b * y + x0, c * x + d * y + y0) for x, y in flat]), a * d >= b * c


def box_of(polygon: Polygon) -> tuple[float, float, float, float]:
    """left, head, right, tail"""
    xs, ys = zip(*polygon, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def boxes_meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float], margin: float = 0.01) -> bool:
    return a[0] < b[2] - margin and b[0] < a[2] - margin and a[1] < b[3] - margin and b[1] < a[3] - margin


def overlap_area(a: Polygon, b: Polygon) -> float:
    """mm² that two polygons share."""
    box_a, box_b = box_of(a), box_of(b)
    if not boxes_meet(box_a, box_b):
        return 0.0
    if fills(a, box_a) and fills(b, box_b):
        wide = min(box_a[2], box_b[2]) - max(box_a[0], box_b[0])
        return wide * (min(box_a[3], box_b[3]) - max(box_a[1], box_b[1]))
    return sum(abs(area(piece)) for piece in intersection([a], [b]))


@lru_cache(maxsize=16384)
def overlap(a: Polygon, b: Polygon) -> bool:
    """Whether two polygons share more than a sliver. Told by their boxes alone where those share more than both polygons leave free.

    The same two panels are met again in every later step and view, so answers are kept.
    """
    box_a, box_b = box_of(a), box_of(b)
    if not boxes_meet(box_a, box_b):
        return False
    wide = min(box_a[2], box_b[2]) - max(box_a[0], box_b[0])
    high = min(box_a[3], box_b[3]) - max(box_a[1], box_b[1])
    if wide * high - unfilled(a, box_a) - unfilled(b, box_b) > COVERED:
        return True
    return overlap_area(a, b) > COVERED


def unfilled(polygon: Polygon, box: tuple[float, float, float, float]) -> float:
    """mm² of its box that a polygon leaves free."""
    return (box[2] - box[0]) * (box[3] - box[1]) - abs(area(polygon))


def fills(polygon: Polygon, box: tuple[float, float, float, float]) -> bool:
    """Whether a polygon is its own box: four corners straight up and across."""
    return len(polygon) == 4 and all(
        min(abs(x - box[0]), abs(x - box[2])) < 1e-6 and min(abs(y - box[1]), abs(y - box[3])) < 1e-6 for x, y in polygon
    )


def flat_frame(normal: Vector) -> Matrix:
    """A view that looks straight at a plane from the side its normal points to."""
    x, y, z = normal
    down = (-x, -y, -z)
    along = (1.0, 0.0, 0.0) if abs(x) < 0.9 else (0.0, 1.0, 0.0)
    k = dot(along, down)
    ax = (along[0] - k * down[0], along[1] - k * down[1], along[2] - k * down[2])
    size = dot(ax, ax) ** 0.5
    ax = (ax[0] / size, ax[1] / size, ax[2] / size)
    ay = (down[1] * ax[2] - down[2] * ax[1], down[2] * ax[0] - down[0] * ax[2], down[0] * ax[1] - down[1] * ax[0])
    return (*ax, *ay, *down)


def coverings(
    state: State, stack: Stack, low: set[PanelKey], high: set[PanelKey], within: Polygon | None
) -> Iterator[tuple[PanelKey, PanelKey]]:
    """Each panel of `low` with each of `high` that lies above it (along the normal) and over it, as far as `within` reaches.

    Panels that do not reach in there are left out first; of the others a sweep finds those whose boxes meet.
    """
    frame = flat_frame(stack.normal)
    shapes = {number: seen_polygon(state, key, frame) for number, key in enumerate(stack.order) if key in low or key in high}
    if within is not None:
        shapes = {number: shape for number, shape in shapes.items() if total_area(intersection([shape], [within])) > COVERED}
    for number, other in sorted(meeting_boxes(shapes)):
        a, b = stack.order[number], stack.order[other]
        if a not in low or b not in high or not overlap(shapes[number], shapes[other]):
            continue
        if within is None or shared(shapes[number], shapes[other], within) > COVERED:
            yield a, b


def meeting_boxes(shapes: dict[int, Polygon]) -> list[tuple[int, int]]:
    """Pairs of numbers, the lower first, whose boxes meet; found by a sweep from left to right."""
    boxes = {number: box_of(shape) for number, shape in shapes.items()}
    reached: list[int] = []
    found = []
    for number in sorted(boxes, key=lambda one: boxes[one][0]):
        mine = boxes[number]
        reached = [other for other in reached if boxes[other][2] > mine[0]]
        found += [(min(number, other), max(number, other)) for other in reached if boxes_meet(mine, boxes[other])]
        reached.append(number)
    return found


def shared(a: Polygon, b: Polygon, within: Polygon | None) -> float:
    """mm² that two polygons share inside a third."""
    pieces = intersection([a], [b])
    if within is not None:
        pieces = intersection(pieces, [within])
    return sum(abs(area(piece)) for piece in pieces)
