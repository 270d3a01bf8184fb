"""Lids, sleeves and slipcases: the room between their inner faces against the outer faces of what they go round, all calipers taken off."""

from collections.abc import Iterator

from creasewright.folding.heights import anchor
from creasewright.folding.state import Body, CoverFit, PanelKey, State
from creasewright.folding.swing import centre_of
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.hands.carried import Carried, Slopes, added
from creasewright.hands.clearance import Clearance, Making
from creasewright.hands.seen_lines import SeenLine, apart, between_panels, seen_lines
from creasewright.joining.around import UPRIGHT
from creasewright.joining.run_step import StepRun


def cover_rooms(making: Making) -> Iterator[Clearance]:
    for _, run in making.original_runs():
        for fit in run.after.coverings[len(run.before.coverings) :]:
            yield from of_one(making, run, fit)


def of_one(making: Making, run: StepRun, fit: CoverFit) -> Iterator[Clearance]:
    cover, thing = (" and ".join(dict.fromkeys(path.split("/")[-1] for path in parts)) for parts in (fit.cover, fit.around))
    state = run.before
    for axis, way, spare in ((0, "wide", fit.spare_width), (1, "high", fit.spare_height)):
        if spare is None:
            continue
        inner = inside(making, state, state.body_of(fit.cover[0]), axis)
        outer = outside(making, state, state.body_of(fit.around[0]), axis)
        yield Clearance(
            "cover", cover, thing, way, run.written.where, Carried(spare, added(inner, outer, -1.0)),
            f"make {cover} {{more}} larger that way", fit.cover[0], run.number,
        )  # fmt: skip


def walls(state: State, body: Body, axis: int) -> list[tuple[float, PanelKey]]:
    """Where the walls across an axis of the view stand, and the panel that carries each, from the lowest place to the highest."""
    found = []
    for stack in body.stacks:
        if abs(rotate(body.view, stack.normal)[axis]) >= UPRIGHT:
            key = anchor(state, body, stack)
            found.append((rotate(body.view, apply(state.placed[key], centre_of(state, key)))[axis], key))
    return sorted(found)


def inside(making: Making, state: State, body: Body, axis: int) -> Slopes:
    """Between the walls that stand nearest to the middle on either side."""
    found = walls(state, body, axis)
    middle = (found[0][0] + found[-1][0]) / 2
    low = max((wall for wall in found if wall[0] < middle), default=found[0])
    high = min((wall for wall in found if wall[0] >= middle), default=found[-1])
    return between_panels(state, body, making.places, low[1], high[1], axis)


def outside(making: Making, state: State, body: Body, axis: int) -> Slopes:
    """From the outermost line or wall on one side to that on the other."""
    lines = [
        line for stack in body.stacks for key in stack.order for line in seen_lines(state, body, key, axis)
    ] + [SeenLine(key, at, {}) for at, key in walls(state, body, axis)]  # fmt: skip
    if len(lines) < 2:
        return {}
    low = min(lines, key=lambda line: (round(line.at, 2), bool(line.slopes)))
    high = max(lines, key=lambda line: (round(line.at, 2), not line.slopes))
    return apart(state, body, making.places, low, high, axis)
