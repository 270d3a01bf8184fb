"""Where panels really come to lie: how far each is shifted against another by every error of scoring and placing.

Across a score that lies `d` off along its normal n, a panel Q that turns about it is shifted against its neighbour P by

    T(Q) = T(P) Rot(line):   dT(Q) = dT(P) + (turn of P - turn of Q) n d

(a rotation R about a line through c maps x to R(x - c) + c, so moving c by n d moves the image by (1 - R) n d). Flat it is nothing, at 180
degrees twice the error, at 90 degrees the error along either panel. A part that was put down is shifted against the panel it lies on by
what the two lines that meet are off, and by the eye. Parts that close a ring are reached by the
shortest way; what the ring forces is left out.
"""

from collections import deque

from msgspec import Struct

from creasewright.folding.panel_graph import Link, links
from creasewright.folding.state import Bond, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, dot, minus, rotate
from creasewright.hands.carried import Cause, Slopes, added
from creasewright.hands.error_table import PLACED
from creasewright.hands.made_lines import FlatLine, lines_of

Shift = dict[Cause, Vector]
"""mm in the world of the body for each mm of error."""
STILL: Shift = {}


class Held(Struct, frozen=True):
    """How a part that was put down errs against the panel it is held by: directions in that panel's flat frame, and errors along each."""

    ways: tuple[tuple[Vector, Slopes], ...]


Places = dict[tuple[PanelKey, PanelKey], Held]
"""By the two panels of the bond, as the assembly names them that made it."""


def shifts_from(state: State, parts: frozenset[str], places: Places, root: PanelKey) -> dict[PanelKey, Shift]:
    """Every panel that hangs together with `root`, and how it is shifted against it."""
    around: dict[PanelKey, list[Link]] = {}
    for link in holding(state, parts):
        around.setdefault(link.first, []).append(link)
        around.setdefault(link.second, []).append(link)
    found: dict[PanelKey, Shift] = {root: STILL}
    queue = deque([root])
    while queue:
        panel = queue.popleft()
        for link in around.get(panel, ()):
            other = link.other(panel)
            if other not in found:
                found[other] = combined(found[panel], step(state, places, link, panel, other))
                queue.append(other)
    return found


def holding(state: State, parts: frozenset[str]) -> list[Link]:
    """Scores, and of the bonds those that first held two parts together: later ones hold what has its place already."""
    group = {part: part for part in parts}

    def home(part: str) -> str:
        while group[part] != part:
            part = group[part]
        return part

    found = []
    for link in links(state, parts):
        if link.bond is None:
            found.append(link)
        elif link.second[0] in group and home(link.first[0]) != home(link.second[0]):
            group[home(link.first[0])] = home(link.second[0])
            found.append(link)
    return found


def step(state: State, places: Places, link: Link, near: PanelKey, far: PanelKey) -> Shift:
    """How the far panel of a link is shifted against the near one."""
    if link.piece is not None:
        return across_score(state, link, near, far)
    assert link.bond is not None
    sign = 1.0 if near == link.bond.first else -1.0
    turn = state.placed[link.bond.first].turn
    found: Shift = {}
    for way, slopes in held_by(places, link.bond).ways:
        found = combined(found, {cause: scaled(rotate(turn, way), sign * slope) for cause, slope in slopes.items()})
    return found


def across_score(state: State, link: Link, near: PanelKey, far: PanelKey) -> Shift:
    piece = link.piece
    assert piece is not None
    if piece.arc is not None:
        return STILL
    ends = (float(piece.start.x), float(piece.start.y)), (float(piece.end.x), float(piece.end.y))
    line = line_along(state, near[0], *ends)
    if line is None:
        return STILL
    normal = (*line.normal, 0.0)
    way = minus(rotate(state.placed[near].turn, normal), rotate(state.placed[far].turn, normal))
    return {cause: scaled(way, slope) for cause, slope in line.slopes.items()} if dot(way, way) > 1e-12 else STILL


def line_along(state: State, part: str, a: tuple[float, float], b: tuple[float, float]) -> FlatLine | None:
    """The line of a part that runs through two places, a score before an edge."""
    return next((line for line in lines_of(state, part) if line.holds(a, b)), None)


def held_by(places: Places, bond: Bond) -> Held:
    """As it was put down; a part of an assembly that was made by itself is looked up by its name there.

    A part made as a mirror image, or one that nothing is known of, errs by the eye alone.
    """
    first, second = bond.first[0].split("/"), bond.second[0].split("/")
    for depth in range(min(len(first), len(second))):
        if first[:depth] != second[:depth]:
            break
        known = places.get((("/".join(first[depth:]), bond.first[1]), ("/".join(second[depth:]), bond.second[1])))
        if known is not None:
            prefix = "".join(f"{name}/" for name in first[:depth])
            return Held(tuple((way, {inside(cause, prefix): slope for cause, slope in slopes.items()}) for way, slopes in known.ways))
    return by_eye(bond)


def inside(cause: Cause, prefix: str) -> Cause:
    return Cause(cause.operation, prefix + cause.part, cause.line)


def by_eye(bond: Bond) -> Held:
    part = bond.second[0]
    return Held((((1.0, 0.0, 0.0), {Cause(PLACED, part, "x"): 1.0}), ((0.0, 1.0, 0.0), {Cause(PLACED, part, "y"): 1.0})))


def combined(first: Shift, second: Shift) -> Shift:
    found = dict(first)
    for cause, (x, y, z) in second.items():
        a, b, c = found.get(cause, (0.0, 0.0, 0.0))
        found[cause] = (a + x, b + y, c + z)
    return found


def scaled(v: Vector, factor: float) -> Vector:
    return v[0] * factor, v[1] * factor, v[2] * factor


def along(shift: Shift, way: Vector) -> Slopes:
    """The part of a shift along a unit vector of the world."""
    return added({}, {cause: dot(v, way) for cause, v in shift.items()})
