"""Head, tail, left and right of things as they lie before the maker."""

from math import atan2, degrees, hypot

from msgspec.structs import replace

from creasewright.folding.overlaps import seen_polygon
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector, about_axis, apply, rotate, times

SIDES = ("head", "tail", "left", "right")
Box = tuple[float, float, float, float]


def box(polygons: list[Polygon]) -> Box:
    """left, head, right, tail of several polygons."""
    xs = [x for polygon in polygons for x, _ in polygon]
    ys = [y for polygon in polygons for _, y in polygon]
    return min(xs), min(ys), max(xs), max(ys)


def side_value(box_: Box, side: str) -> float:
    """The coordinate of a side: x for left and right, y for head and tail."""
    return box_[("left", "head", "right", "tail").index(side)]


def outward(start: tuple[float, float], end: tuple[float, float], inside: tuple[float, float]) -> tuple[float, float]:
    """Unit normal of an edge, pointing away from a point inside."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = (dx * dx + dy * dy) ** 0.5 or 1.0
    nx, ny = dy / size, -dx / size
    if (inside[0] - start[0]) * nx + (inside[1] - start[1]) * ny > 0:
        nx, ny = -nx, -ny
    return nx, ny


EIGHTHS = ("right", "tail-right", "tail", "tail-left", "left", "head-left", "head", "head-right")


def compass_word(nx: float, ny: float) -> str:
    """The one of eight directions nearest to a vector (y down)."""
    return EIGHTHS[round(degrees(atan2(ny, nx)) / 45) % 8]


def faces_maker(normal: Vector, body: Body) -> bool:
    """Whether a direction in the world points towards the maker (up from the table)."""
    return rotate(body.view, normal)[2] < 0


LEVEL = 0.999
"""A panel whose normal is this near the upright lies flat before the maker."""
EDGE_ON = 0.05


def facing(state: State, body: Body, panel: PanelKey) -> Body:
    """The body as the maker holds it to work on a panel: tipped so that the panel lies flat, by the least turn.

    The side up is the one the maker sees; of a panel that stands edge-on, the one that faced the maker when it last lay flat.
    """
    front = rotate(body.view, front_normal(state.placed[panel]))
    if abs(front[2]) > LEVEL:
        return body
    front_up = front[2] < 0 if abs(front[2]) > EDGE_ON else state.faced.get(panel[0], "front") == "front"
    x, y, z = front if front_up else (-front[0], -front[1], -front[2])
    flat = hypot(x, y)
    if flat < 1e-9:
        return body
    # about the level axis square to (x, y), by the angle from (x, y, z) to straight up (0, 0, -1)
    tip = about_axis((-y / flat, x / flat, 0.0), degrees(atan2(flat, -z)))
    return replace(body, view=times(tip, body.view))


def polygon_in_view(state: State, body: Body, panel: PanelKey) -> Polygon:
    return seen_polygon(state, panel, body.view)


def point_in_view(state: State, body: Body, panel: PanelKey, x: float, y: float) -> tuple[float, float]:
    seen = rotate(body.view, apply(state.placed[panel], (x, y, 0.0)))
    return seen[0], seen[1]
