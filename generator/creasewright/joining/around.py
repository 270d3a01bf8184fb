"""A lid or sleeve that goes around something: lowered over it until it rests, its inner faces against the other's outer ones."""

from msgspec.structs import replace

from creasewright.folding.fold_once import same_plane
from creasewright.folding.heights import heights
from creasewright.folding.overlaps import overlap, seen_polygon
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, Bond, CoverFit, PanelKey, State
from creasewright.folding.swing import centre_of
from creasewright.geometry.rigid_transform import UNIT, Rigid, apply, compose, inverse, rotate, transposed
from creasewright.joining.bodies import moved, spliced
from creasewright.joining.placing import PlaceWish, shift_for
from creasewright.joining.refused import JoinRefused

UPRIGHT = 0.999
"""A wall whose normal is this near an axis of the view bounds the room that way."""
TIGHT = 0.01
"""mm that a room may fall short before it is refused."""


def laid_around(
    state: State, thing: Body, body: Body, parts: tuple[str, ...], onto: tuple[PanelKey, ...], place: PlaceWish, step: int
) -> State:
    """The state with `thing`, as it lies, lowered over `body`. Raises JoinRefused where there is no room for it.

    The two rooms and the two outer sizes are noted as a CoverFit.
    """
    mine = [key for stack in thing.stacks for key in stack.order]
    theirs = [key for key in onto if key[0] in body.parts]
    if not place.pairs:
        place = PlaceWish((), True, None, place.turned)
    dx, dy = shift_for(state, thing, mine, UNIT, body, theirs, place)
    fit = fit_of(state, thing, body, parts, tuple(dict.fromkeys(key[0] for key in theirs)), step)
    refuse_tight(state, fit)
    dz = rest(state, thing, body, dx, dy)
    in_view = Rigid(thing.view, (dx, dy, dz))
    state = moved(state, thing, compose(Rigid(transposed(body.view), (0.0, 0.0, 0.0)), in_view))
    return bound(replace(state, coverings=(*state.coverings, fit)), state.body_of(parts[0]), body, mine, theirs, step)


def fit_of(state: State, thing: Body, body: Body, parts: tuple[str, ...], around: tuple[str, ...], step: int) -> CoverFit:
    low, high = extents(state, body)
    rooms = [room(state, thing, axis) for axis in (0, 1)]
    return CoverFit(parts, around, rooms[0], rooms[1], high[0] - low[0], high[1] - low[1], step)


def room(state: State, thing: Body, axis: int) -> float | None:
    """Between the inner faces of the walls that stand across one axis of the view, mm; None where one side is open."""
    low, high = extents(state, thing)
    middle = (low[axis] + high[axis]) / 2
    before: list[float] = []
    behind: list[float] = []
    for stack in thing.stacks:
        normal = rotate(thing.view, stack.normal)
        if abs(normal[axis]) < UPRIGHT:
            continue
        at = rotate(thing.view, apply(state.placed[stack.order[0]], centre_of(state, stack.order[0])))[axis]
        faces = [at + normal[axis] * h for pair in heights(state, thing, stack).values() for h in pair]
        if at < middle:
            before.append(max(faces))
        else:
            behind.append(min(faces))
    return min(behind) - max(before) if before and behind else None


def refuse_tight(state: State, fit: CoverFit) -> None:
    for way, takes, spare in (("wide", fit.width, fit.spare_width), ("high", fit.height, fit.spare_height)):
        if spare is not None and spare < -TIGHT:
            lid, thing = (" and ".join(p.split("/")[-1] for p in parts) for parts in (fit.cover, fit.around))
            raise JoinRefused(
                f"{thing} is {takes:.2f} mm {way} outside, but {lid} has {takes + spare:.2f} mm inside, {-spare:.2f} mm too little",
                f"make {lid} at least {-spare:.1f} mm larger that way; its own tabs and walls take room inside",
            )


def rest(state: State, thing: Body, body: Body, dx: float, dy: float) -> float:
    """How far the thing goes down (z of the view) until its roof lies on the top of what is under it."""
    roofs = [stack for stack in thing.stacks if abs(rotate(thing.view, stack.normal)[2]) > UPRIGHT]
    top = min(p[2] for p in extents(state, body))
    shade = [seen_polygon(state, key, body.view) for stack in body.stacks for key in stack.order]
    under: list[float] = []
    for stack in roofs:
        normal = rotate(thing.view, stack.normal)
        level = rotate(thing.view, apply(state.placed[stack.order[0]], centre_of(state, stack.order[0])))[2]
        for key, pair in heights(state, thing, stack).items():
            shape = tuple((x + dx, y + dy) for x, y in seen_polygon(state, key, thing.view))
            if any(overlap(shape, other) for other in shade):
                under.append(max(level + normal[2] * h for h in pair))
    if not under:
        low, high = extents(state, thing)
        theirs = extents(state, body)
        return (theirs[0][2] + theirs[1][2] - low[2] - high[2]) / 2
    return top - max(under)


def bound(state: State, thing: Body, body: Body, mine: list[PanelKey], theirs: list[PanelKey], step: int) -> State:
    """One body of two, the largest panels of both held to each other."""
    stacks = list(body.stacks)
    for stack in thing.stacks:
        level = next((k for k, other in enumerate(stacks) if same_plane(state, stack, other)), None)
        if level is None:
            stacks.append(stack)
        else:
            stacks[level] = spliced(stacks[level], stack, len(stacks[level].order))
    first, second = (max(keys, key=lambda key: (state.blanks[key[0]].panel(key[1]).area, key)) for keys in (theirs, mine))
    bond = Bond(first, second, compose(inverse(state.placed[first]), state.placed[second]), "place", step=step)
    one = Body(body.parts | thing.parts, tuple(stacks), body.view)
    others = tuple(other for other in state.bodies if other is not body and other is not thing)
    return replace(state, bodies=(*others, one), bonds=(*state.bonds, bond))

