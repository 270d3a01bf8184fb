"""Panels that pass through one another: mid-planes that cross, in one state or on the way between two.

A crossing is a stretch of the line that two planes share which lies inside both panels, longer than `STRETCH`, where each panel
reaches past the plane of the other on both sides by more than `PAST`. Panels that touch along an edge, or lie in one plane, do not
cross; which of those lies on top is a matter of layers.
"""

from collections.abc import Callable, Iterable
from math import atan2, pi

from msgspec import Struct

from creasewright.folding.overlaps import COVERED, overlap_area
from creasewright.folding.state import PanelKey, State
from creasewright.folding.transforms import Placed
from creasewright.geometry.clip import clockwise
from creasewright.geometry.rigid_transform import Rigid, Vector, apply, cross, dot, minus, norm

PAST = 0.05
"""mm"""
STRETCH = 0.5
"""mm"""
BORDER = 1e-3
"""Radians: a panel that starts or ends against another does not pass through it."""


class Sheet(Struct, frozen=True):
    """A panel in space: its corners in the world and the plane it lies in."""

    corners: tuple[Vector, ...]
    normal: Vector
    low: Vector
    high: Vector


def sheet(state: State, panel: PanelKey, placed: Rigid) -> Sheet:
    m, (x0, y0, z0) = placed
    a, b, _, c, d, _, e, f, _ = m
    polygon = state.blanks[panel[0]].panel(panel[1]).polygon
    corners = tuple([(a * x + b * y + x0, c * x + d * y + y0, e * x + f * y + z0) for x, y in polygon])
    xs, ys, zs = zip(*corners, strict=True)
    return Sheet(corners, (-m[2], -m[5], -m[8]), (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs)))


def crossing_length(a: Sheet, b: Sheet) -> float:
    """mm of the line along which two panels pass through each other; 0 where they do not."""
    for k in range(3):
        if (a.low[k] > b.high[k] - PAST or b.low[k] > a.high[k] - PAST) and not flat_in(a, b, k):
            return 0.0
    over_b = heights_over(b, a.corners)
    if min(over_b) > -PAST or max(over_b) < PAST:
        return 0.0
    over_a = heights_over(a, b.corners)
    if min(over_a) > -PAST or max(over_a) < PAST:
        return 0.0
    line = cross(a.normal, b.normal)
    if norm(line) < 1e-6:
        return 0.0
    return shared_length(stretches(a.corners, over_b, line), stretches(b.corners, over_a, line)) / norm(line)


def heights_over(sheet: Sheet, spots: tuple[Vector, ...]) -> list[float]:
    """How far each spot is above the sheet's plane, mm."""
    (a, b, c), (x0, y0, z0) = sheet.normal, sheet.corners[0]
    return [a * (x - x0) + b * (y - y0) + c * (z - z0) for x, y, z in spots]


def flat_in(a: Sheet, b: Sheet, k: int) -> bool:
    """Whether either has no extent this way, so that touching boxes may still be a crossing."""
    return a.high[k] - a.low[k] < 2 * PAST or b.high[k] - b.low[k] < 2 * PAST


def stretches(corners: tuple[Vector, ...], heights: list[float], line: Vector) -> list[tuple[float, float]]:
    """Where the outline of a panel runs through the other's plane, as intervals along the shared line."""
    spots = []
    n = len(corners)
    for k in range(n):
        h, g = heights[k], heights[(k + 1) % n]
        if (h > 0) != (g > 0):
            t = h / (h - g)
            a, b = corners[k], corners[(k + 1) % n]
            spots.append(dot(line, (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))))
    spots.sort()
    return list(zip(spots[::2], spots[1::2], strict=False))


def shared_length(a: list[tuple[float, float]], b: list[tuple[float, float]]) -> float:
    return max((min(p[1], q[1]) - max(p[0], q[0]) for p in a for q in b), default=0.0)


def first_crossing(
    state: State, placed: Placed, pairs: Iterable[tuple[PanelKey, PanelKey]]
) -> tuple[PanelKey, PanelKey, float] | None:
    """The first of these pairs that pass through each other, with the length of the crossing in mm."""
    sheets: dict[PanelKey, Sheet] = {}

    def found(panel: PanelKey) -> Sheet:
        if panel not in sheets:
            sheets[panel] = sheet(state, panel, placed[panel])
        return sheets[panel]

    for a, b in pairs:
        length = crossing_length(found(a), found(b))
        if length > STRETCH:
            return a, b, length
    return None


def swept_through(
    state: State, placed: Placed, moving: Iterable[PanelKey], still: Iterable[PanelKey], axis: Vector, on: Vector, degrees: float
) -> tuple[PanelKey, PanelKey] | None:
    """A moving panel that turns by `degrees` about a fixed line and goes through one that stands still.

    Exact for panels whose planes hold the line: each is a half-plane or two at an angle about it, and shows as a flat shape of
    height along the line and distance from it.
    """
    frame = frame_about(axis)
    mine = [(panel, wing) for panel in moving for wing in wings(state, panel, placed[panel], frame, on)]
    theirs = [(panel, wing) for panel in still for wing in wings(state, panel, placed[panel], frame, on)]
    swept = degrees * pi / 180
    for panel, (angle, shape) in mine:
        for other, (there, shade) in theirs:
            ahead = (there - angle) % (2 * pi) if swept > 0 else (angle - there) % (2 * pi)
            if BORDER < ahead < abs(swept) - BORDER and overlap_area(shape, shade) > COVERED:
                return panel, other
    return None


Wing = tuple[float, tuple[tuple[float, float], ...]]
"""The angle about the line, and the shape as (along the line, away from it)."""


def wings(state: State, panel: PanelKey, placed: Rigid, frame: Callable[[Vector], Vector], on: Vector) -> list[Wing]:
    corners = [frame(minus(apply(placed, (x, y, 0.0)), on)) for x, y in state.blanks[panel[0]].panel(panel[1]).polygon]
    far = max(corners, key=lambda c: c[1] * c[1] + c[2] * c[2])
    size = (far[1] ** 2 + far[2] ** 2) ** 0.5
    if size < PAST or any(abs(c[1] * far[2] - c[2] * far[1]) / size > PAST for c in corners):
        return []
    away = [(c[0], (c[1] * far[1] + c[2] * far[2]) / size) for c in corners]
    angle = atan2(far[2], far[1])
    found: list[Wing] = []
    for turn, sign in ((0.0, 1.0), (pi, -1.0)):
        half = clipped_away([(u, sign * r) for u, r in away])
        if len(half) > 2:
            found.append((angle + turn, clockwise(tuple(half))))
    return found


def clipped_away(corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The part of an outline at distances over `PAST` (Sutherland-Hodgman against one line)."""
    found = []
    for (u, r), (v, s) in zip(corners, corners[1:] + corners[:1], strict=True):
        if r > PAST:
            found.append((u, r))
        if (r > PAST) != (s > PAST):
            t = (PAST - r) / (s - r)
            found.append((u + t * (v - u), PAST))
    return found


def frame_about(axis: Vector) -> Callable[[Vector], Vector]:
    """A point as (along the axis, and two ways square to it, by the right-hand rule)."""
    helper = (1.0, 0.0, 0.0) if abs(axis[0]) < 0.9 else (0.0, 1.0, 0.0)
    first = cross(axis, helper)
    size = norm(first)
    first = (first[0] / size, first[1] / size, first[2] / size)
    second = cross(axis, first)
    return lambda v: (dot(v, axis), dot(v, first), dot(v, second))
