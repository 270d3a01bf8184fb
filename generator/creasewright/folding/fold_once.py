"""One fold: the score pieces on one line turn, one side of the work moves, the other stays."""

from msgspec.structs import replace

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.panel_graph import Link, links, neighbours, reached
from creasewright.folding.refused import FoldRefused, called
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.folding.swing import Swing, centre_of, landed, refuse_if_trapped, swing_of
from creasewright.folding.transforms import LoopFault, Placed, spread
from creasewright.geometry.rigid_transform import STILL, Rigid, Vector, apply, compose, dot, inverse, minus, rotate

SAME_PLANE = 1e-3
"""mm"""
SAME_MOVE = 1e-6


def loop_refused(fault: LoopFault) -> FoldRefused:
    a, b = called(fault.link.first), called(fault.link.second)
    return FoldRefused(
        f"{a} and {b} do not meet when this is folded: {fault.gap_mm:.2f} mm and {fault.gap_degrees:.2f}° are left",
        "check the sizes round that loop, or fold fewer scores in this step",
    )


def fold_line(state: State, body: Body, root: PanelKey, targets: dict[PieceKey, float]) -> State:
    """Turns the score pieces of `targets`, which lie on one line in one layer or several; the side of `root` stays.

    Everything that changes its place must do so by one and the same turn; what keeps its place (a layer beyond two of the scores,
    folded back by the second) stays with the root.
    Raises FoldRefused when the fold is locked, or something lies in its way.
    """
    all_links = list(links(state, body.parts))
    around = neighbours(all_links, frozenset(targets))
    staying = reached(root, around)
    hinges = [link for link in all_links if link.piece_key in targets]
    if all(link.first in staying and link.second in staying for link in hinges):
        raise locked(around, hinges[0])
    angles = {**state.angles, **targets}
    placed, faults = spread(state, root, all_links, angles)
    if faults:
        raise loop_refused(faults[0])
    moving = {panel for panel, there in placed.items() if not is_still(motion_of(state, placed, panel))}
    bodies = state.bodies
    if moving:
        stacks = restacked(state, body, placed, moving, swing_of(state, hinges, moving, targets))
        bodies = tuple(replace(body, stacks=stacks) if other is body else other for other in state.bodies)
    creased = state.creased | set(targets)
    return replace(state, placed={**state.placed, **placed}, angles=angles, bodies=bodies, creased=creased)


def motion_of(state: State, placed: Placed, panel: PanelKey) -> Rigid:
    """The move in the world that takes a panel from where it lies to where it will."""
    return compose(placed[panel], inverse(state.placed[panel]))


def alike(a: Rigid, b: Rigid) -> bool:
    """Whether two moves are one, but for the noise of floating point."""
    return all(abs(x - y) < SAME_MOVE for x, y in zip((*a.turn, *a.shift), (*b.turn, *b.shift), strict=True))


def is_still(motion: Rigid) -> bool:
    return alike(motion, STILL)


def locked(around: dict[PanelKey, list[Link]], hinge: Link) -> FoldRefused:
    """Names what holds the two sides of a score together besides the score."""
    far = hinge.second
    trail: dict[PanelKey, Link | None] = {hinge.other(far): None}
    queue = [hinge.other(far)]
    for panel in queue:
        for link in around.get(panel, ()):
            if link.other(panel) not in trail:
                trail[link.other(panel)] = link
                queue.append(link.other(panel))
    step: PanelKey = far
    while (held := trail.get(step)) is not None:
        if held.bond is not None:
            a, b = called(held.first), called(held.second)
            return FoldRefused(
                f"the score between {called(hinge.first)} and {called(hinge.second)} cannot turn: "
                f"{a} holds {b} on both sides of it",
                "fold it before that join, or give the piece that lies across a score on the same line",
            )
        step = held.other(step)
    return FoldRefused(
        f"the score between {called(hinge.first)} and {called(hinge.second)} cannot turn alone: other paper goes round it",
        "name every score that turns in this step",
    )


def restacked(state: State, body: Body, placed: Placed, moving: set[PanelKey], swung: Swing) -> tuple[Stack, ...]:
    """The stacks after the moving side has swung about the line: reversed onto what it lands on, over or under as it came."""
    motion = motion_of(state, placed, next(iter(moving)))
    stays: list[Stack] = []
    goes: list[Stack] = []
    for stack in body.stacks:
        still = tuple(p for p in stack.order if p not in moving)
        move = tuple(p for p in stack.order if p in moving)
        if still and move:
            refuse_if_trapped(state, stack, set(still), set(move), swung)
        if still:
            stays.append(Stack(stack.normal, still))
        if move:
            goes.append(Stack(rotate(motion.turn, stack.normal), move))
    after = replace(state, placed={**state.placed, **placed})
    for stack in goes:
        home = next((k for k, other in enumerate(stays) if same_plane(after, stack, other)), None)
        if home is None:
            stays.append(stack)
        else:
            stays[home] = landed(after, stays[home], stack, swung)
    return tuple(stays)


def plane_point(state: State, stack: Stack) -> Vector:
    return apply(state.placed[stack.order[0]], centre_of(state, stack.order[0]))


def same_plane(state: State, a: Stack, b: Stack) -> bool:
    if abs(dot(a.normal, b.normal)) < 1 - 1e-9:
        return False
    return abs(dot(minus(plane_point(state, a), plane_point(state, b)), b.normal)) < SAME_PLANE


def on_one_line(state: State, pieces: list[tuple[PieceKey, ScorePiece]]) -> bool:
    """Whether these score pieces lie on one line in space."""
    ends = [
        apply(state.placed[(key[0], piece.first)], (float(p.x), float(p.y), 0.0))
        for key, piece in pieces
        for p in (piece.start, piece.end)
    ]
    origin, along = ends[0], minus(ends[1], ends[0])
    length2 = dot(along, along)
    for point in ends[2:]:
        away = minus(point, origin)
        k = dot(away, along) / length2
        off = (away[0] - k * along[0], away[1] - k * along[1], away[2] - k * along[2])
        if dot(off, off) > SAME_PLANE**2:
            return False
    return True
