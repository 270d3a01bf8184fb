"""Inserts: a card, a photo, a packet goes into a pocket or between panels; its fit is measured."""

from msgspec import Struct
from msgspec.structs import replace

from creasewright.folding.state import Body, InsertFit, PanelKey, Pocket, State
from creasewright.geometry.rigid_transform import Rigid, Vector, apply, compose, dot, rotate, transposed
from creasewright.joining.bodies import bonded, moved, stack_of, united
from creasewright.joining.compass import Box, box, polygon_in_view
from creasewright.joining.refused import JoinRefused


class InsertWish(Struct, frozen=True):
    part: str
    pocket: Pocket | None
    between: tuple[PanelKey, PanelKey] | None
    shows: float | None
    least: float
    step: int


def inserted(state: State, wish: InsertWish) -> State:
    """The state with the insert in its place; how it fits is noted, good or bad. Raises JoinRefused."""
    thing = state.body_of(wish.part)
    if len(thing.parts) > 1 or len(state.blanks[wish.part].panels) > 1:
        raise JoinRefused(f"{wish.part} has more than one panel", "insert a flat piece, or place it with `place:`")
    if wish.pocket is None:
        return between_panels(state, thing, wish)
    return into_pocket(state, thing, wish, wish.pocket)


def room_in_view(state: State, body: Body, pocket: Pocket) -> tuple[Box, dict[str, str]]:
    """The pocket's box as the work lies now, and what each of its sides is now."""
    placed = state.placed[pocket.back]

    def turned(flat: tuple[float, float]) -> Vector:
        return rotate(body.view, rotate(placed.turn, (flat[0], flat[1], 0.0)))

    right, tail = turned(pocket.rightwards), turned(pocket.tailwards)
    start = rotate(body.view, apply(placed, (*pocket.corner, 0.0)))
    spots = [
        (start[0] + right[0] * w + tail[0] * h, start[1] + right[1] * w + tail[1] * h)
        for w in (0.0, pocket.room_width)
        for h in (0.0, pocket.room_height)
    ]
    now = box([tuple(spots)])
    directions = {"left": (-1.0, 0.0, 0.0), "right": (1.0, 0.0, 0.0), "head": (0.0, -1.0, 0.0), "tail": (0.0, 1.0, 0.0)}
    sides = {"right": right, "tail": tail, "left": opposite(right), "head": opposite(tail)}
    return now, {side: max(directions, key=lambda d: dot(directions[d], v)) for side, v in sides.items()}


def opposite(v: Vector) -> Vector:
    return (-v[0], -v[1], -v[2])


def along_axis(
    low: float, high: float, size: float, low_closed: bool, high_closed: bool, shows: float | None
) -> tuple[float, float]:
    """Where an insert of `size` begins between two limits, and how far it stands out of the open one.

    Closed on one side it lies against that side; with `shows` it stands that far out of the open one.
    """
    if low_closed == high_closed:
        return (low + high - size) / 2, 0.0 if low_closed else max(0.0, size - (high - low))
    if shows is not None:
        return (low - shows if high_closed else high + shows - size), shows
    return (high - size if high_closed else low), max(0.0, size - (high - low))


def into_pocket(state: State, thing: Body, wish: InsertWish, pocket: Pocket) -> State:
    body = state.body_of(pocket.front[0])
    room, became = room_in_view(state, body, pocket)
    closed = {became[side] for side in pocket.closed}
    panel = (wish.part, state.blanks[wish.part].panels[0].name)
    mine = box([polygon_in_view(state, thing, panel)])
    width, height = mine[2] - mine[0], mine[3] - mine[1]
    upwards = ("head" in closed) != ("tail" in closed)
    x, out_x = along_axis(room[0], room[2], width, "left" in closed, "right" in closed, None if upwards else wish.shows)
    y, out_y = along_axis(room[1], room[3], height, "head" in closed, "tail" in closed, wish.shows if upwards else None)
    state = laid_at(state, thing, body, panel, (x - mine[0], y - mine[1]), pocket.back)
    state = between_layers(state, wish, panel, pocket)
    thick = state.thick[wish.part] or 0.0
    spare_w = (room[2] - room[0]) + out_x - width - (thick if {"left", "right"} <= closed else 0.0)
    spare_h = (room[3] - room[1]) + out_y - height - (thick if {"head", "tail"} <= closed else 0.0)
    ways = tuple(way for way, out in (("wide", out_x), ("high", out_y)) if out > 0)
    fit = InsertFit(
        wish.part, pocket.name, width, height, thick, room[2] - room[0], room[3] - room[1],
        spare_w, spare_h, max(out_x, out_y), wish.least, wish.step, ways,
    )  # fmt: skip
    return replace(state, fits=(*state.fits, fit))


def laid_at(state: State, thing: Body, body: Body, panel: PanelKey, shift: tuple[float, float], target: PanelKey) -> State:
    """The thing's body moved so that it lies in the target's plane, shifted as seen in the view."""
    mine = rotate(thing.view, state.placed[panel].shift)[2]
    theirs = rotate(body.view, state.placed[target].shift)[2]
    in_view = Rigid(thing.view, (shift[0], shift[1], theirs - mine))
    return moved(state, thing, compose(Rigid(transposed(body.view), (0.0, 0.0, 0.0)), in_view))


def between_layers(state: State, wish: InsertWish, panel: PanelKey, pocket: Pocket) -> State:
    """Next to the nearest of the panels that close the pocket, on the side of its back panel."""
    body, thing = state.body_of(pocket.back[0]), state.body_of(wish.part)
    order = stack_of(body, pocket.back).order
    if pocket.front not in order:
        raise JoinRefused(f"{pocket.name} stands open here", "fold it flat before something goes in")
    back, front = order.index(pocket.back), order.index(pocket.front)
    walls = [order.index(key) for key in pocket.closing if key in order]
    index = min(w for w in walls if w > back) if front > back else max(w for w in walls if w < back) + 1
    state = united(state, body, thing, panel, index, pocket.back)
    bond = bonded(state, pocket.back, panel, "insert", "", 0.0, wish.step)
    return replace(state, bonds=(*state.bonds, bond))


def between_panels(state: State, thing: Body, wish: InsertWish) -> State:
    """Between two panels that lie on each other: centred on the first."""
    assert wish.between is not None
    low, high = wish.between
    body = state.body_of(low[0])
    stack = stack_of(body, low)
    if high not in stack.order:
        raise JoinRefused("the two panels do not lie on each other", "fold them together first")
    panel = (wish.part, state.blanks[wish.part].panels[0].name)
    mine, space = box([polygon_in_view(state, thing, panel)]), box([polygon_in_view(state, body, low)])
    shift = ((space[0] + space[2] - mine[0] - mine[2]) / 2, (space[1] + space[3] - mine[1] - mine[3]) / 2)
    state = laid_at(state, thing, body, panel, shift, low)
    body, thing = state.body_of(low[0]), state.body_of(wish.part)
    places = sorted((stack.order.index(low), stack.order.index(high)))
    index = places[0] + 1 if stack.order.index(low) == places[0] else places[1]
    state = united(state, body, thing, panel, index, low)
    width, height = mine[2] - mine[0], mine[3] - mine[1]
    fit = InsertFit(
        wish.part, "", width, height, state.thick[wish.part] or 0.0, space[2] - space[0], space[3] - space[1],
        space[2] - space[0] - width, space[3] - space[1] - height, 0.0, wish.least, wish.step,
    )  # fmt: skip
    bond = bonded(state, low, panel, "insert", "", 0.0, wish.step)
    return replace(state, bonds=(*state.bonds, bond), fits=(*state.fits, fit))
