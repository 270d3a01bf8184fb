"""Scores that turn at the same time, in space or in a ring: the way there, what is in the way, and the layers at the end.

The angles run evenly from what they are to what they shall be; where panels form a ring they are corrected so that every loop
closes (`loop_motion`). What lies on what is settled by the motion itself: of two panels that lie in one plane at the start, the
upper one must leave upwards; of two that come to lie in one plane, the one that comes from above lies on top.
"""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import combinations

from msgspec.structs import replace

from creasewright.folding.collisions import first_crossing, swept_through
from creasewright.folding.fold_once import locked, loop_refused, motion_of
from creasewright.folding.layer_solver import solved_order
from creasewright.folding.loop_motion import Angles, Linkage, axis_of
from creasewright.folding.overlaps import COVERED, box_of, boxes_meet, flat_frame, overlap, seen_polygon
from creasewright.folding.pair_orders import sorted_by
from creasewright.folding.panel_graph import Link, links, neighbours
from creasewright.folding.refused import FoldRefused, called
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.folding.swing import centre_of, creased, middle_of, trapped
from creasewright.folding.transforms import Placed, spread
from creasewright.geometry.clip import area, intersection
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Matrix, Vector, apply, dot, inverse, minus, rotate, transposed

Targets = dict[PieceKey, float]
Pair = tuple[PanelKey, PanelKey]
JUST = 0.002
"""Share of the way at which the beginning and the end of a motion are judged."""
SAMPLES = 12
SAME_PLANE = 1e-3
TIE = 1e-7
"""mm"""


class Motion:
    """Panels on their way while scores turn to their targets."""

    def __init__(self, state: State, body: Body, root: PanelKey, targets: Targets, ends_only: bool, course: list[Angles]) -> None:
        self.state, self.root, self.targets, self.ends_only, self.course = state, root, targets, ends_only, course
        self.links = list(links(state, body.parts))
        self.around = neighbours(self.links, frozenset(targets))
        self.linkage = Linkage(state, root, self.links, list(targets), list(targets))
        self.party = self.linkage.party
        self.solved: tuple[float, Angles] = (0.0, state.angles)

    def hinges(self) -> list[Link]:
        return [link for link in self.links if link.piece_key in self.targets]

    def at(self, share: float) -> Placed:
        """Where the panels are at a share of the way. Raises FoldRefused where paper would have to bend."""
        angles = self.guess(share)
        if self.linkage.loops and not self.course:
            # on from the place solved last, by what the even way adds
            last, there = self.solved
            angles = {key: there.get(key, 0.0) + angle - self.guess(last).get(key, 0.0) for key, angle in angles.items()}
        if self.linkage.loops and not self.ends_only:
            closed = self.linkage.closed(angles)
            if closed is None:
                raise FoldRefused(
                    f"these scores cannot turn together while every panel stays flat (about {share * 100:.0f} % of the way)",
                    "fold fewer of them in this step, add the scores that are missing, or write `bending: yes` if the paper gives way",
                )
            angles = closed
            self.solved = (share, angles)
        return self.linkage.placed(angles)

    def guess(self, share: float) -> Angles:
        """The angles at a share of the way: evenly between what they are and shall be, or between two places of the known course."""
        now, then = self.state.angles, {**self.state.angles, **self.targets}
        if self.course:
            place = min(int(share * (len(self.course) - 1)), len(self.course) - 2)
            now, then = self.course[place], self.course[place + 1]
            share = share * (len(self.course) - 1) - place
        return {key: now.get(key, 0.0) + (to - now.get(key, 0.0)) * share for key, to in then.items()}

    def apart(self, a: PanelKey, b: PanelKey) -> bool:
        return self.party[a] != self.party[b]


def fold_together(
    state: State, body: Body, root: PanelKey, targets: Targets, ends_only: bool = False, course: list[Angles] | None = None
) -> State:
    """The state after the scores have turned at once. Raises FoldRefused where something locks them or is in the way.

    `ends_only`: the way between is not looked at, only whether the end can be. `course`: the angles on the way, where known.
    """
    motion = Motion(state, body, root, targets, ends_only, course or [])
    for hinge in motion.hinges():
        if not motion.apart(hinge.first, hinge.second):
            raise locked(motion.around, hinge)
    angles = {**state.angles, **targets}
    placed, faults = spread(state, root, motion.links, angles)
    if faults:
        raise loop_refused(max(faults, key=lambda fault: fault.gap_mm))
    after = replace(state, placed={**state.placed, **placed}, angles=angles, creased=state.creased | frozenset(targets))
    if not ends_only:
        leave_freely(motion, body)
        go_freely(motion, after)
    end_apart(motion, after)
    stacks = tuple(layered(motion, after, body, stack) for stack in plane_groups(state, after, body))
    return replace(after, bodies=tuple(replace(body, stacks=stacks) if b is body else b for b in state.bodies))


# --- what is in the way -----------------------------------------------------------------------------------------------


def leave_freely(motion: Motion, body: Body) -> None:
    """Of two panels in one plane that part, the upper one must leave upwards. Raises FoldRefused."""
    state = motion.state
    soon: Placed | None = None
    for stack in body.stacks:
        for low, high, region in covering_pairs(state, stack.order, stack.normal):
            if not motion.apart(low, high):
                continue
            soon = soon if soon is not None else motion.at(JUST)
            opening = openings(state.placed, soon, low, high, region(), stack.normal)
            held, by = (high, low) if motion.party[low] == motion.party[motion.root] else (low, high)
            way = way_of(opening)
            if way == "both":
                raise creased(held, by)
            if way == "under":
                raise trapped(held, by)


def go_freely(motion: Motion, after: State) -> None:
    """Nothing passes through anything on the way. Raises FoldRefused."""
    pairs = moving_pairs(motion)
    found = swept(motion)
    if found is not None:
        raise passes(*found)
    if not any_space(motion, after):
        return
    for step in range(1, SAMPLES):
        crossing = first_crossing(motion.state, motion.at(step / SAMPLES), pairs)
        if crossing is not None:
            raise passes(crossing[0], crossing[1])


def any_space(motion: Motion, after: State) -> bool:
    """Whether more than two parties move, or some panel stands away from the plane that the root lies in."""
    return len(set(motion.party.values())) > 2 or any(
        abs(dot(normal_of(placed[key].turn), normal_of(placed[motion.root].turn))) < 1 - 1e-9
        for placed in (motion.state.placed, after.placed)
        for key in motion.party
    )


def normal_of(turn: tuple[float, ...]) -> Vector:
    return (turn[2], turn[5], turn[8])


def moving_pairs(motion: Motion) -> list[Pair]:
    """Pairs of different parties that no score joins."""
    joined = {frozenset((link.first, link.second)) for link in motion.links}
    return [
        (a, b) for a, b in combinations(motion.party, 2) if motion.apart(a, b) and frozenset((a, b)) not in joined
    ]  # fmt: skip


def swept(motion: Motion) -> Pair | None:
    """What hangs on the side that stays turns about a line that rests: told exactly."""
    home = motion.party[motion.root]
    if motion.linkage.loops:
        return None
    still = [key for key, party in motion.party.items() if party == home]
    for link in motion.hinges():
        if (motion.party[link.first] == home) == (motion.party[link.second] == home):
            continue
        near = link.first if motion.party[link.first] == home else link.second
        far = link.other(near)
        axis, on = axis_of(motion.state, motion.state.placed, link, near)
        assert link.piece_key is not None
        turn = motion.targets[link.piece_key] - motion.state.angles.get(link.piece_key, 0.0)
        moving = [key for key, party in motion.party.items() if party == motion.party[far]]
        found = swept_through(motion.state, motion.state.placed, moving, still, axis, on, turn)
        if found is not None:
            return found
    return None


def end_apart(motion: Motion, after: State) -> None:
    crossing = first_crossing(after, after.placed, moving_pairs(motion))
    if crossing is not None:
        a, b, length = crossing
        raise FoldRefused(
            f"{called(a)} would end inside {called(b)}: they cross along {length:.1f} mm",
            "make one of them narrower, or cut its corner back",
        )


def passes(a: PanelKey, b: PanelKey) -> FoldRefused:
    return FoldRefused(
        f"{called(a)} would have to pass through {called(b)}",
        "fold that one first or later, or the other way",
    )


# --- layers -----------------------------------------------------------------------------------------------------------


def plane_groups(state: State, after: State, body: Body) -> list[Stack]:
    """Panels by plane after the move, each group with a normal, in the order of before. Planes where something stayed come first."""
    groups: list[Stack] = []
    spots: list[Vector] = []
    for stack in body.stacks:
        for panel in stack.order:
            normal = rotate(motion_of(state, after.placed, panel).turn, stack.normal)
            point = apply(after.placed[panel], centre_of(after, panel))
            for number, group in enumerate(groups):
                same_way = abs(dot(normal, group.normal)) > 1 - 1e-9
                if same_way and abs(dot(minus(point, spots[number]), group.normal)) < SAME_PLANE:
                    groups[number] = Stack(group.normal, (*group.order, panel))
                    break
            else:
                groups.append(Stack(normal, (panel,)))
                spots.append(point)
    return sorted(groups, key=lambda group: all(state.placed[key] != after.placed[key] for key in group.order))


def layered(motion: Motion, after: State, body: Body, group: Stack) -> Stack:
    """The panels of one plane from low to high, as the motion has laid them."""
    if len(group.order) == 1:
        return group
    kept, came = below_pairs(motion, after, body, group)
    order = sorted_by(group.order, [*kept, *came])
    if not any(folded_flat(link, after, group) for link in motion.links):
        if order is None:
            names = ", ".join(sorted(name for _, name in group.order))
            raise FoldRefused(f"{names} would each have to lie over the other", "fold one of them before the others")
        return Stack(group.normal, order)
    start = Stack(group.normal, order if order is not None else group.order)
    for fixed in ([*kept, *came], kept) if order is not None else (kept,):
        solved = solved_order(after, motion.links, start, tuple(fixed))
        if solved is not None:
            return Stack(group.normal, solved)
    names = ", ".join(sorted(name for _, name in group.order))
    raise FoldRefused(
        f"no order of layers lets {names} lie flat with these folds", "check which of the folds are mountain and which valley"
    )


def folded_flat(link: Link, after: State, group: Stack) -> bool:
    if link.piece_key is None or abs(after.angles.get(link.piece_key, 0.0)) <= 90:
        return False
    return link.first in group.order and link.second in group.order


def below_pairs(motion: Motion, after: State, body: Body, group: Stack) -> tuple[list[Pair], list[Pair]]:
    """(lower, upper) for panels that cover each other: those that kept their places, and those that came together."""
    was = {key: (number, place) for number, stack in enumerate(body.stacks) for place, key in enumerate(stack.order)}
    old_normal = {number: stack.normal for number, stack in enumerate(body.stacks)}
    kept: list[Pair] = []
    came: list[Pair] = []
    just: Placed | None = None
    for a, b, region in covering_pairs(after, group.order, group.normal):
        together = was[a][0] == was[b][0]
        if not motion.apart(a, b) and together:
            turned = rotate(motion_of(motion.state, after.placed, a).turn, old_normal[was[a][0]])
            first = (was[a][1] < was[b][1]) == (dot(turned, group.normal) > 0)
            kept.append((a, b) if first else (b, a))
            continue
        if motion.ends_only:
            continue
        just = just if just is not None else motion.at(1 - JUST)
        way = way_of(openings(after.placed, just, a, b, region(), group.normal))
        if way == "both":
            raise creased(a, b)
        if way:
            came.append((a, b) if way == "over" else (b, a))
        elif not together:
            came.append(inner_first(after, group, a, b))
    return kept, came


def inner_first(after: State, group: Stack, a: PanelKey, b: PanelKey) -> Pair:
    """Of two panels that slide together the smaller goes inside, to the side where the rest of the work is."""
    small, large = sorted((a, b), key=lambda key: (after.blanks[key[0]].panel(key[1]).area, key))
    here = apply(after.placed[large], centre_of(after, large))
    body = after.body_of(a[0])
    middle = middle_of(after, after.placed, {key for stack in body.stacks for key in stack.order})
    inside_above = dot(minus(middle, here), group.normal) > 0
    return (large, small) if inside_above else (small, large)


def covering_pairs(
    state: State, order: tuple[PanelKey, ...], normal: Vector
) -> Iterator[tuple[PanelKey, PanelKey, Callable[[], list[Vector]]]]:
    """Each panel with each later one that shares more than a sliver with it; asked for, the corners of what they share, in the world."""
    if len(order) < 2:
        return
    frame = flat_frame(normal)
    shapes = {key: seen_polygon(state, key, frame) for key in order}
    boxes = {key: box_of(shape) for key, shape in shapes.items()}
    back = transposed(frame)
    for number, a in enumerate(order):
        level = rotate(frame, apply(state.placed[a], centre_of(state, a)))[2]
        for b in order[number + 1 :]:
            if boxes_meet(boxes[a], boxes[b]) and overlap(shapes[a], shapes[b]):
                yield a, b, partial(shared_corners, shapes[a], shapes[b], level, back)


def shared_corners(a: Polygon, b: Polygon, level: float, back: Matrix) -> list[Vector]:
    """Of what two shapes at one level of their plane share; `back` turns them to the world."""
    pieces = [piece for piece in intersection([a], [b]) if abs(area(piece)) > COVERED / 10]
    return [rotate(back, (x, y, level)) for piece in pieces for x, y in piece]


def openings(here: Placed, there: Placed, a: PanelKey, b: PanelKey, region: list[Vector], normal: Vector) -> list[float]:
    """How far b is above a (along a's normal) at each of these points, when both have moved from `here` to `there`."""
    back_a, back_b = inverse(here[a]), inverse(here[b])
    up = rotate(there[a].turn, rotate(back_a.turn, normal))
    return [dot(minus(apply(there[b], apply(back_b, p)), apply(there[a], apply(back_a, p))), up) for p in region]


def way_of(values: list[float]) -> str:
    """`over`, `under`, `both`, or empty where they do not part."""
    most = max((abs(v) for v in values), default=0.0)
    if most < TIE:
        return ""
    up, down = max(values) > 0.02 * most, min(values) < -0.02 * most
    return "both" if up and down else "over" if up else "under"
