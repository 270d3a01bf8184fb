"""The turn of one side of the work about a line, and which panels stand in its way.

A point p of a plane with normal n that turns about the axis w through a moves along n with the speed (w x (p - a)) n, which is
linear in p: the plane falls in two halves, one that rises along its normal and one that sinks. That holds for panels on both sides
of the line, and for those that stand upright on it.
"""

from msgspec import Struct

from creasewright.folding.overlaps import coverings, flat_frame
from creasewright.folding.pair_orders import sorted_by
from creasewright.folding.panel_graph import Link
from creasewright.folding.refused import FoldRefused, called
from creasewright.folding.state import PanelKey, Stack, State
from creasewright.folding.transforms import Placed, across
from creasewright.geometry.clip import clockwise
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector, apply, compose, cross, dot, minus, norm, rotate

FAR = 1e5
"""mm, beyond any sheet."""
SLIDES = 1e-6
"""Planes that rise by less than this for each mm slide in themselves."""


class Swing(Struct, frozen=True):
    """A turn by the right-hand rule about `axis` (a unit vector) through the point `on`; both in the world, where they stay."""

    axis: Vector
    on: Vector

    def rise(self, point: Vector, normal: Vector) -> float:
        """How fast a point moves along a normal, mm for each radian."""
        return dot(cross(self.axis, minus(point, self.on)), normal)

    def halves(self, point: Vector, normal: Vector) -> tuple[Polygon, Polygon] | None:
        """The half of the plane through `point` that rises along `normal` and the half that sinks, in `flat_frame(normal)`.

        None where the plane slides in itself.
        """
        uphill = cross(normal, self.axis)
        steep = norm(uphill)
        if steep < SLIDES:
            return None
        frame = flat_frame(normal)
        height = dot(minus(self.on, point), normal)
        foot = (self.on[0] - height * normal[0], self.on[1] - height * normal[1], self.on[2] - height * normal[2])
        x, y, _ = rotate(frame, foot)
        gx, gy, _ = rotate(frame, uphill)
        gx, gy = gx / steep * FAR, gy / steep * FAR

        def half(k: float) -> Polygon:
            return clockwise(
                ((x - gy, y + gx), (x + gy, y - gx), (x + gy + k * gx, y - gx + k * gy), (x - gy + k * gx, y + gx + k * gy))
            )

        return half(1.0), half(-1.0)


def swing_of(state: State, hinges: list[Link], moving: set[PanelKey], targets: dict[tuple[str, str], float]) -> Swing:
    """How the moving side turns about the first of the hinges that it hangs on."""
    link = next(link for link in hinges if (link.first in moving) != (link.second in moving))
    assert link.piece is not None and link.piece_key is not None
    far = link.first if link.first in moving else link.second
    near = link.other(far)
    now, then = state.angles.get(link.piece_key, 0.0), targets[link.piece_key]
    quarter = across(state, far[0], link.piece, near[1], now + (then - now) / 4)
    start, end = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
    on, beyond = apply(state.placed[near], start), apply(state.placed[near], end)
    along = minus(beyond, on)
    size = norm(along)
    axis = (along[0] / size, along[1] / size, along[2] / size)
    middle = centre_of(state, far)
    here, there = apply(state.placed[far], middle), apply(compose(state.placed[near], quarter), middle)
    if dot(cross(axis, minus(here, on)), minus(there, here)) < 0:
        axis = (-axis[0], -axis[1], -axis[2])
    return Swing(axis, on)


def centre_of(state: State, panel: PanelKey) -> Vector:
    polygon = state.blanks[panel[0]].panel(panel[1]).polygon
    n = len(polygon)
    return (sum(x for x, _ in polygon) / n, sum(y for _, y in polygon) / n, 0.0)


def middle_of(state: State, placed: Placed, panels: set[PanelKey]) -> Vector:
    spots = [apply(placed[panel], centre_of(state, panel)) for panel in sorted(panels)]
    n = len(spots)
    return (sum(p[0] for p in spots) / n, sum(p[1] for p in spots) / n, sum(p[2] for p in spots) / n)


def refuse_if_trapped(state: State, stack: Stack, still: set[PanelKey], move: set[PanelKey], swung: Swing) -> None:
    """A panel that swings up must have nothing staying above it, one that swings down nothing below. Raises FoldRefused.

    What reaches past the line on the other side of it goes the other way, so it must not meet what stays there either.
    """
    middle = middle_of(state, state.placed, move)
    halves = swung.halves(middle, stack.normal)
    if halves is None:
        return
    mostly_up = swung.rise(middle, stack.normal) > 0
    for up, within in ((mostly_up, halves[not mostly_up]), (not mostly_up, halves[mostly_up])):
        low, high = (move, still) if up else (still, move)
        for below, above in coverings(state, stack, low, high, within):
            held, by = (below, above) if up else (above, below)
            raise trapped(held, by) if up == mostly_up else creased(held, by)


def trapped(held: PanelKey, by: PanelKey) -> FoldRefused:
    return FoldRefused(
        f"{called(held)} cannot swing that way: {called(by)} lies over it and stays",
        "fold it the other way, or fold it before that piece is laid on",
    )


def creased(held: PanelKey, by: PanelKey) -> FoldRefused:
    return FoldRefused(
        f"the fold creases {called(held)}, which has no score there: it reaches past the fold line over {called(by)}",
        "make it short enough to end before that line, or give it a score there",
    )


def landed(after: State, home: Stack, move: Stack, swung: Swing) -> Stack:
    """The moving panels of one plane laid on what stays there: over it where they came down on it, under it where they came up.

    Raises FoldRefused where one would have to lie both over and under the same paper.
    """
    moving = set(move.order)
    middle = middle_of(after, after.placed, moving)
    over = swung.rise(middle, home.normal) < 0
    landing = move.order if dot(home.normal, move.normal) > 0 else tuple(reversed(move.order))
    stack = Stack(home.normal, home.order + landing if over else landing + home.order)
    halves = swung.halves(middle, home.normal)
    if halves is None:
        return stack
    still = set(home.order)
    low, high = (still, moving) if over else (moving, still)
    turned = set(coverings(after, stack, low, high, halves[0] if over else halves[1]))
    return Stack(stack.normal, resorted(after, stack, turned)) if turned else stack


def resorted(state: State, stack: Stack, turned: set[tuple[PanelKey, PanelKey]]) -> tuple[PanelKey, ...]:
    """The order with these pairs the other way round; all others that cover each other as they were. Raises FoldRefused."""
    everyone = set(stack.order)
    below = [
        (high, low) if (low, high) in turned else (low, high) for low, high in coverings(state, stack, everyone, everyone, None)
    ]
    order = sorted_by(stack.order, below)
    if order is None:
        raise FoldRefused(
            f"{called(stack.order[0])} would have to lie both over and under the same paper",
            "make it short enough to end before the fold line, or fold it later",
        )
    return order
