"""Which pieces of each facet's edges are seen: every edge cut by every face that lies over it.

An edge that two facets share is one edge, seen where it is seen on either of them. Places along an edge run from 0 to 1.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from msgspec import Struct

from creasewright.booklet.diagrams.face_view import DEPTH_SAME, Face, above_when_flat, depth_at
from creasewright.booklet.diagrams.scene import Spot, Spot3
from creasewright.booklet.diagrams.space_view import SpaceView, nearness, seen_at
from creasewright.geometry.rigid_transform import dot, minus

ON_LINE = 1e-4
"""A place closer than this to a face's outline, in mm, is on it, not inside."""
LEAST = 1e-9
"""Share of an edge that counts as nothing."""
KINDS_BY_WEIGHT = ("none", "bend", "crease", "score", "mountain", "valley", "folded", "slit", "cut")
"""A shared edge is drawn as the last of these that one of its facets asks for."""

Interval = tuple[float, float]
Place = tuple[int, int, int]
"""A corner in thousandths of a mm."""


class SpaceEdge(Struct, frozen=True):
    start: Spot3
    end: Spot3
    kind: str
    owners: tuple[int, ...]
    """Places of its facets in the list of faces."""


class VisibleEdge(Struct, frozen=True):
    """An edge on the page, mm of the model, and what of it is seen."""

    start: Spot
    end: Spot
    kind: str
    seen: tuple[Interval, ...]
    owners: tuple[int, ...]
    depths: Interval
    """Nearness of start and end."""


def visible_edges(faces: tuple[Face, ...], showing: tuple[bool, ...], view: SpaceView) -> tuple[VisibleEdge, ...]:
    """`showing`: which faces are seen in part at least, or edge on. The others are wholly hidden, so their edges are too, and
    what they hide is hidden as well by what hides them.
    """
    found = []
    hiding = _hiding(faces, showing)
    for edge in space_edges(faces):
        if not any(showing[owner] for owner in edge.owners):
            continue
        start, end = seen_at(view, edge.start), seen_at(view, edge.end)
        if abs(start[0] - end[0]) + abs(start[1] - end[1]) < ON_LINE:
            continue
        depths = nearness(view, edge.start), nearness(view, edge.end)
        seen = _seen(edge, (start, end), depths, faces, hiding)
        if seen:
            found.append(VisibleEdge(start, end, edge.kind, seen, edge.owners, depths))
    return tuple(found)


def space_edges(faces: tuple[Face, ...]) -> tuple[SpaceEdge, ...]:
    """Every edge once. A bridge to a hole (an edge that one facet runs along both ways) is no edge."""
    shared: dict[tuple[Place, Place], list[tuple[int, str]]] = {}
    ends: dict[tuple[Place, Place], tuple[Spot3, Spot3]] = {}
    for index, face in enumerate(faces):
        for (one, other), (start, end, kind) in _own_edges(face).items():
            key = (one, other) if one < other else (other, one)
            shared.setdefault(key, []).append((index, kind))
            ends.setdefault(key, (start, end))
    edges = []
    for key, uses in shared.items():
        kind = max((kind for _, kind in uses), key=KINDS_BY_WEIGHT.index)
        if kind == "bend":
            kind = "cut" if len({faces[i].normal_seen for i, _ in uses}) > 1 else "none"
        if kind != "none":
            edges.append(SpaceEdge(*ends[key], kind, tuple(sorted({i for i, _ in uses}))))
    return tuple(edges)


def _own_edges(face: Face) -> dict[tuple[Place, Place], tuple[Spot3, Spot3, str]]:
    corners, kinds = face.facet.polygon, face.facet.edge_kinds
    places = [_rough(corner) for corner in corners]
    runs = {
        (places[i - 1], places[i]): (corners[i - 1], corners[i], kinds[i - 1] if kinds else "cut")
        for i in (*range(1, len(corners)), 0)
    }
    return {(one, other): run for (one, other), run in runs.items() if one != other and (other, one) not in runs}


def _rough(spot: Spot3) -> Place:
    """To a thousandth of a mm, so that the corners of neighbouring facets are one; no round measure falls between two."""
    return round(1000 * spot[0] + 0.37), round(1000 * spot[1] + 0.37), round(1000 * spot[2] + 0.37)


def _hiding(faces: tuple[Face, ...], showing: tuple[bool, ...]) -> list[tuple[int, Face]]:
    """The faces that can hide anything, with their places in the list; the nearest first, as it is likely to hide most."""
    able = [(index, face) for index, face in enumerate(faces) if showing[index] and face.outline]
    return sorted(able, key=lambda each: -each[1].nearest)


def _seen(
    edge: SpaceEdge, ends: tuple[Spot, Spot], depths: Interval, faces: tuple[Face, ...], hiding: list[tuple[int, Face]]
) -> tuple[Interval, ...]:
    hidden: list[Interval] = []
    (x0, y0), (x1, y1) = ends
    low_x, high_x = min(x0, x1), max(x0, x1)
    low_y, high_y = min(y0, y1), max(y0, y1)
    farthest = min(depths)
    for index, face in hiding:
        if face.nearest <= farthest:
            break
        left, top, right, tail = face.box
        if high_x <= left or low_x >= right or high_y <= top or low_y >= tail or index in edge.owners:
            continue
        if max(depth_at(face, ends[0]) - depths[0], depth_at(face, ends[1]) - depths[1]) < -2 * DEPTH_SAME:
            continue
        for stretch in inside_stretches(ends, face.outline):
            for low, high in _behind(stretch, edge, ends, depths, face, faces):
                if low <= LEAST and high >= 1 - LEAST:
                    return ()
                hidden.append((low, high))
    return left_over((0.0, 1.0), hidden)


def inside_stretches(ends: tuple[Spot, Spot], ring: tuple[Spot, ...]) -> Iterator[Interval]:
    """Stretches of the segment inside the ring; what runs along the ring's line is not inside."""
    (x0, y0), (x1, y1) = ends
    dx, dy = x1 - x0, y1 - y0
    size = dx * dx + dy * dy
    near = ON_LINE * size**0.5
    at = [0.0, 1.0]
    px, py = ring[-1]
    side_p = dx * (py - y0) - dy * (px - x0)
    for qx, qy in ring:
        side_q = dx * (qy - y0) - dy * (qx - x0)
        if (side_p > 0) != (side_q > 0):
            s = side_p / (side_p - side_q)
            at.append((dx * (px + s * (qx - px) - x0) + dy * (py + s * (qy - py) - y0)) / size)
        if -near <= side_q <= near:
            at.append((dx * (qx - x0) + dy * (qy - y0)) / size)
        px, py, side_p = qx, qy, side_q
    if len(at) == 2:
        return
    stops = sorted([t for t in at if 0 <= t <= 1])
    for here, there in pairwise(stops):
        middle = (here + there) / 2
        if (there - here) ** 2 * size > ON_LINE**2 and strictly_inside((x0 + middle * dx, y0 + middle * dy), ring):
            yield here, there


def strictly_inside(place: Spot, ring: tuple[Spot, ...]) -> bool:
    """Inside the ring by the even-odd rule, and not on its line."""
    x, y = place
    inside = False
    px, py = ring[-1]
    for qx, qy in ring:
        ex, ey = qx - px, qy - py
        reach = (x - px) * ex + (y - py) * ey
        size = ex * ex + ey * ey
        if 0 <= reach <= size and ((x - px) * ey - (y - py) * ex) ** 2 <= ON_LINE**2 * size:
            return False
        if (py > y) != (qy > y) and x < px + (y - py) / ey * ex:
            inside = not inside
        px, py = qx, qy
    return inside


def _behind(
    stretch: Interval, edge: SpaceEdge, ends: tuple[Spot, Spot], depths: Interval, face: Face, faces: tuple[Face, ...]
) -> Iterator[Interval]:
    """The part of a stretch that the face hides."""
    (x0, y0), (x1, y1) = ends
    over = []
    for t in stretch:
        place = x0 + t * (x1 - x0), y0 + t * (y1 - y0)
        over.append(depth_at(face, place) - depths[0] - t * (depths[1] - depths[0]))
    if max(over) <= DEPTH_SAME and min(over) >= -DEPTH_SAME:
        if all(_lies_over(face, faces[owner]) for owner in edge.owners):
            yield stretch
    elif min(over) >= -DEPTH_SAME:
        yield stretch
    elif max(over) > DEPTH_SAME:
        crossing = stretch[0] + (stretch[1] - stretch[0]) * over[0] / (over[0] - over[1])
        yield (stretch[0], crossing) if over[0] > 0 else (crossing, stretch[1])


def _lies_over(face: Face, owner: Face) -> bool:
    """An edge of `owner` lies on `face`: is it on the side that is turned away from the reader?"""
    heights = [dot(face.outward, minus(spot, face.facet.polygon[0])) for spot in owner.facet.polygon]
    far = max(heights, key=abs)
    if abs(far) <= DEPTH_SAME:
        return above_when_flat(face, owner)
    return far < 0


def left_over(whole: Interval, taken: Iterable[Interval], least: float = LEAST) -> tuple[Interval, ...]:
    """What of an interval the taken ones leave."""
    rest = []
    reached = whole[0]
    for low, high in sorted(taken):
        if min(low, whole[1]) - reached > least:
            rest.append((reached, min(low, whole[1])))
        reached = max(reached, high)
    if whole[1] - reached > least:
        rest.append((reached, whole[1]))
    return tuple(rest)
