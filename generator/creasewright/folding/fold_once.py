"""One fold: the score pieces on one line turn, one side of the work moves, the other stays."""

from math import hypot

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.overlaps import coverings, flat_frame
from creasewright.folding.panel_graph import Link, links, neighbours, reached
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.folding.transforms import LoopFault, across, spread
from creasewright.geometry.clip import clockwise
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import STILL, Rigid, Vector, apply, compose, dot, inverse, minus, rotate
from creasewright.problems import CreasewrightError

SAME_PLANE = 1e-3
"""mm"""
SAME_MOVE = 1e-6
Placed = dict[PanelKey, Rigid]


class FoldRefused(CreasewrightError):
    """A fold that cannot be made: `what` is wrong and `hint` says what to do."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


def called(panel: PanelKey) -> str:
    """A panel in words: `page of left strip of front block`."""
    return " of ".join([panel[1], *reversed(panel[0].split("/"))])


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
        stacks = restacked(state, body, placed, moving, swing(state, hinges, moving, targets))
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


class Swing(Struct, frozen=True):
    """How the moving side goes: `far` beside the line moves, its middle is at `midway` when half of the turn is made."""

    far: PanelKey
    midway: Vector
    line: tuple[Vector, Vector]
    """In the world, where it stays."""


def swing(state: State, hinges: list[Link], moving: set[PanelKey], targets: dict[PieceKey, float]) -> Swing:
    link = next(link for link in hinges if (link.first in moving) != (link.second in moving))
    assert link.piece is not None and link.piece_key is not None
    far = link.first if link.first in moving else link.second
    near = link.other(far)
    half = (state.angles.get(link.piece_key, 0.0) + targets[link.piece_key]) / 2
    midway = compose(state.placed[near], across(state, far[0], link.piece, near[1], half))
    start, end = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
    line = apply(state.placed[near], start), apply(state.placed[near], end)
    return Swing(far, apply(midway, centre_of(state, far)), line)


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


def centre_of(state: State, panel: PanelKey) -> Vector:
    polygon = state.blanks[panel[0]].panel(panel[1]).polygon
    n = len(polygon)
    return (sum(x for x, _ in polygon) / n, sum(y for _, y in polygon) / n, 0.0)


def restacked(state: State, body: Body, placed: Placed, moving: set[PanelKey], swung: Swing) -> tuple[Stack, ...]:
    """The stacks after the moving side has swung about the line: reversed onto what it lands on, over or under as it came."""
    motion = motion_of(state, placed, swung.far)
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
            over = dot(minus(swung.midway, plane_point(after, stays[home])), stays[home].normal) > 0
            stays[home] = landed(after, merged(stays[home], stack, over), set(stack.order), over, swung)
    return tuple(stays)


def refuse_if_trapped(state: State, stack: Stack, still: set[PanelKey], move: set[PanelKey], swung: Swing) -> None:
    """A panel that swings up must have nothing staying above it, one that swings down nothing below.

    What reaches past the line on the other side of it goes the other way, so it must not meet what stays there either.
    """
    up = dot(minus(swung.midway, plane_point(state, stack)), stack.normal)
    if abs(up) < SAME_PLANE:
        return
    with_it, past_it = sides_of(state, stack, swung)
    over, under = (move, still) if up > 0 else (still, move)
    for low, high in coverings(state, stack, over, under, with_it):
        held, by = (low, high) if up > 0 else (high, low)
        raise FoldRefused(
            f"{called(held)} cannot swing that way: {called(by)} lies over it and stays",
            "fold it the other way, or fold it before that piece is laid on",
        )
    if past_it is None:
        return
    for low, high in coverings(state, stack, under, over, past_it):
        held, by = (high, low) if up > 0 else (low, high)
        raise FoldRefused(
            f"the fold creases {called(held)}, which has no score there: it reaches past the fold line over {called(by)}",
            "make it short enough to end before that line, or give it a score there",
        )


FAR = 1e5
"""mm, beyond any sheet."""


def sides_of(state: State, stack: Stack, swung: Swing) -> tuple[Polygon | None, Polygon | None]:
    """The half-planes on the moving side of the line and past it, in the stack's own frame; none where the line is elsewhere."""
    if any(abs(dot(minus(point, plane_point(state, stack)), stack.normal)) > SAME_PLANE for point in swung.line):
        return None, None
    frame = flat_frame(stack.normal)
    (ax, ay, _), (bx, by, _) = (rotate(frame, point) for point in swung.line)
    cx, cy, _ = rotate(frame, apply(state.placed[swung.far], centre_of(state, swung.far)))
    length = hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / length * FAR, (by - ay) / length * FAR
    nx, ny = (-uy, ux) if (cx - ax) * -uy + (cy - ay) * ux > 0 else (uy, -ux)

    def half(k: float) -> Polygon:
        return clockwise(
            ((ax - ux, ay - uy), (ax + ux, ay + uy), (ax + ux + k * nx, ay + uy + k * ny), (ax - ux + k * nx, ay - uy + k * ny))
        )

    return half(1.0), half(-1.0)


def plane_point(state: State, stack: Stack) -> Vector:
    return apply(state.placed[stack.order[0]], centre_of(state, stack.order[0]))


def same_plane(state: State, a: Stack, b: Stack) -> bool:
    if abs(dot(a.normal, b.normal)) < 1 - 1e-9:
        return False
    return abs(dot(minus(plane_point(state, a), plane_point(state, b)), b.normal)) < SAME_PLANE


def merged(still: Stack, move: Stack, over: bool) -> Stack:
    landing = move.order if dot(still.normal, move.normal) > 0 else tuple(reversed(move.order))
    return Stack(still.normal, still.order + landing if over else landing + still.order)


def landed(after: State, stack: Stack, move: set[PanelKey], over: bool, swung: Swing) -> Stack:
    """What reaches past the line comes to lie the other way round: over where the moving side went under."""
    _, past_it = sides_of(after, stack, swung)
    if past_it is None:
        return stack
    still = set(stack.order) - move
    low, high = (still, move) if over else (move, still)
    turned = set(coverings(after, stack, low, high, past_it))
    return Stack(stack.normal, resorted(after, stack, turned)) if turned else stack


def resorted(state: State, stack: Stack, turned: set[tuple[PanelKey, PanelKey]]) -> tuple[PanelKey, ...]:
    """The order with these pairs the other way round; all others that cover each other as they were. Raises FoldRefused."""
    everyone = set(stack.order)
    below: dict[PanelKey, set[PanelKey]] = {panel: set() for panel in stack.order}
    for low, high in coverings(state, stack, everyone, everyone, None):
        first, second = (high, low) if (low, high) in turned else (low, high)
        below[second].add(first)
    order: list[PanelKey] = []
    left = list(stack.order)
    while left:
        free = next((panel for panel in left if below[panel] <= set(order)), None)
        if free is None:
            raise FoldRefused(
                f"{called(left[0])} would have to lie both over and under the same paper",
                "make it short enough to end before the fold line, or fold it later",
            )
        order.append(free)
        left.remove(free)
    return tuple(order)


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
