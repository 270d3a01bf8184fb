"""Walls that rise until their edges meet, and tabs that turn until they lie on the next wall (`to: meet`).

A tab hangs on the end of a wall; where its score begins, at the corner of the base, the end of the next wall begins too. In the
closed box the two are one line: that gives the angles of the walls. For a regular base they follow from
cos(fold) = tan(ends - 90) / tan(180 / n), which the tests hold against what is found here.
"""

from math import acos, degrees, dist

from msgspec import Struct

from creasewright.folding.loop_motion import axis_of, least_squares
from creasewright.folding.panel_graph import Link, links, neighbours
from creasewright.folding.refused import FoldRefused, called
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import Placed, spread
from creasewright.geometry.rigid_transform import Vector, apply, cross, dot, minus

Targets = dict[PieceKey, float]
SAME_SPOT = 0.01
"""mm"""
START = 60.0
"""Degrees from which the angles of the walls are sought."""
ROUNDS = 60
NOISE = 7
"""Decimals of a degree that are kept."""


class Corner(Struct, frozen=True):
    """A tab, its wall, and the next wall whose end edge the tab's score meets; points in the flat blank."""

    tab: PanelKey
    hinge: Link
    wall: PanelKey
    next_wall: PanelKey
    base: Vector
    wall_end: Vector
    next_end: Vector


def meeting_angles(state: State, body: Body, root: PanelKey, signs: Targets) -> Targets:
    """The angle of every score of `signs` (+1 or -1) at which all tabs touch their walls. Raises FoldRefused."""
    all_links = list(links(state, body.parts))
    corners = corners_of(state, all_links, root, set(signs))
    if not corners:
        raise FoldRefused("none of these scores has a tab that could meet a wall", "write the angle in degrees")
    for corner in corners:
        refuse_uneven(state, corner)
    walls = [link.piece_key for link in all_links if link.piece_key in signs and root in (link.first, link.second) and link.piece_key]
    angles = {**state.angles, **{key: START * signs[key] for key in walls}}
    angles = closed_walls(state, root, all_links, angles, walls, corners)
    placed, _ = spread(state, root, scores_among(all_links), angles)
    found = {key: round(angles[key], NOISE) for key in walls}
    for corner in corners:
        assert corner.hinge.piece_key is not None
        found[corner.hinge.piece_key] = round(onto_wall(state, placed, corner), NOISE)
    left = [key for key in signs if key not in found]
    if left:
        raise FoldRefused(f"the score {left[0][1]} of {left[0][0]} meets nothing", "write its angle in degrees, in a step of its own")
    return found


def scores_among(all_links: list[Link]) -> list[Link]:
    return [link for link in all_links if link.piece is not None]


def corners_of(state: State, all_links: list[Link], root: PanelKey, named: set[PieceKey]) -> list[Corner]:
    around = neighbours(scores_among(all_links))
    walls = {link.other(root) for link in around.get(root, ()) if link.piece_key in named}
    found = []
    for wall in sorted(walls):
        for link in around[wall]:
            if link.piece_key in named and root not in (link.first, link.second):
                corner = corner_at(state, link, wall, sorted(walls - {wall}))
                if corner is not None:
                    found.append(corner)
    return found


def corner_at(state: State, hinge: Link, wall: PanelKey, others: list[PanelKey]) -> Corner | None:
    """Where the tab's score meets the end of another wall, in the flat blank."""
    assert hinge.piece is not None
    ends = [(float(p.x), float(p.y)) for p in (hinge.piece.start, hinge.piece.end)]
    for other in others:
        if other[0] != wall[0]:
            continue
        polygon = state.blanks[other[0]].panel(other[1]).polygon
        for k, spot in enumerate(polygon):
            for base, far in (ends, ends[::-1]):
                if dist(spot, base) > SAME_SPOT:
                    continue
                beside = [polygon[k - 1], polygon[(k + 1) % len(polygon)]]
                free = [p for p in beside if not is_scored(state, other, spot, p)]
                if free:
                    return Corner(hinge.other(wall), hinge, wall, other, (*base, 0.0), (*far, 0.0), (*free[0], 0.0))
    return None


def is_scored(state: State, panel: PanelKey, a: tuple[float, float], b: tuple[float, float]) -> bool:
    """Whether the edge from a to b of a panel is one of its scores."""
    for piece in state.blanks[panel[0]].pieces:
        if panel[1] in (piece.first, piece.second):
            ends = [(float(p.x), float(p.y)) for p in (piece.start, piece.end)]
            if min(max(dist(a, ends[0]), dist(b, ends[1])), max(dist(a, ends[1]), dist(b, ends[0]))) < SAME_SPOT:
                return True
    return False


def refuse_uneven(state: State, corner: Corner) -> None:
    mine, theirs = dist(corner.base, corner.wall_end), dist(corner.base, corner.next_end)
    if abs(mine - theirs) > SAME_SPOT:
        raise FoldRefused(
            f"{called(corner.wall)} and {called(corner.next_wall)} do not meet: "
            f"their edges are {mine:.2f} mm and {theirs:.2f} mm long, {abs(mine - theirs):.2f} mm apart",
            "make the two walls equally high there",
        )


def closed_walls(
    state: State, root: PanelKey, all_links: list[Link], angles: Targets, walls: list[PieceKey], corners: list[Corner]
) -> Targets:
    """The angles with the walls turned so that at every corner the ends of both edges are in one place. Raises FoldRefused."""
    tree = scores_among(all_links)
    hinge_of = {link.other(root): link for link in tree if link.piece_key in walls and root in (link.first, link.second)}
    for _ in range(ROUNDS):
        placed, _ = spread(state, root, tree, angles)
        errors: list[float] = []
        rows: list[list[float]] = []
        for corner in corners:
            here, there = apply(placed[corner.wall], corner.wall_end), apply(placed[corner.next_wall], corner.next_end)
            errors += minus(here, there)
            rows += slopes(state, placed, root, corner, hinge_of, walls, here, there)
        if max(abs(e) for e in errors) < 1e-9:
            return angles
        step = least_squares(rows, errors, 1e-9)
        largest = max(abs(s) for s in step)
        ease = min(1.0, 0.5 / largest) if largest > 0 else 1.0
        angles = {**angles, **{key: angles[key] - degrees(s * ease) for key, s in zip(walls, step, strict=True)}}
    worst = max(range(0, len(errors), 3), key=lambda k: dist(errors[k : k + 3], (0, 0, 0)))
    gap = dist(errors[worst : worst + 3], (0, 0, 0))
    corner = corners[worst // 3]
    raise FoldRefused(
        f"{called(corner.wall)} and {called(corner.next_wall)} never meet: at the nearest they are {gap:.2f} mm apart",
        "change the angle of their ends, so that the ends of all walls leave room to close",
    )


def slopes(
    state: State, placed: Placed, root: PanelKey, corner: Corner, hinge_of: dict[PanelKey, Link], walls: list[PieceKey],
    here: Vector, there: Vector,
) -> list[list[float]]:  # fmt: skip
    rows = [[0.0] * len(walls) for _ in range(3)]
    for wall, point, sign in ((corner.wall, here, 1.0), (corner.next_wall, there, -1.0)):
        link = hinge_of[wall]
        axis, on = axis_of(state, placed, link, root)
        speed = cross(axis, minus(point, on))
        assert link.piece_key is not None
        for k in range(3):
            rows[k][walls.index(link.piece_key)] += sign * speed[k]
    return rows


def onto_wall(state: State, placed: Placed, corner: Corner) -> float:
    """The angle that lays a tab, which hangs on its wall, against the next one."""
    axis, on = axis_of(state, placed, corner.hinge, corner.wall)
    flat = minus(apply(placed[corner.wall], centre_of(state, corner.tab)), on)
    wanted = minus(apply(placed[corner.next_wall], centre_of(state, corner.next_wall)), on)
    a = minus(flat, scaled(axis, dot(flat, axis)))
    b = minus(wanted, scaled(axis, dot(wanted, axis)))
    size = (dot(a, a) * dot(b, b)) ** 0.5
    angle = degrees(acos(max(-1.0, min(1.0, dot(a, b) / size))))
    return angle if dot(cross(a, b), axis) > 0 else -angle


def scaled(v: Vector, by: float) -> Vector:
    return v[0] * by, v[1] * by, v[2] * by
