"""Bodies put together: stacks spliced at the layer where a part lands."""

from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.folding.fold_once import same_plane
from creasewright.folding.overlaps import flat_frame, overlap, seen_polygon
from creasewright.folding.state import Body, Bond, PanelKey, Stack, State, front_normal
from creasewright.geometry.clip import clockwise, intersection
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import STILL, Matrix, Rigid, compose, dot, inverse, rotate
from creasewright.joining.compass import faces_maker


def with_part(state: State, part: str, blank: Blank, thick: float | None) -> State:
    """A new part, flat, apart, front up."""
    keys = tuple((part, panel.name) for panel in blank.panels)
    body = Body(frozenset((part,)), (Stack((0.0, 0.0, -1.0), keys),))
    return replace(
        state,
        blanks={**state.blanks, part: blank},
        thick={**state.thick, part: thick},
        placed={**state.placed, **dict.fromkeys(keys, STILL)},
        bodies=(*state.bodies, body),
    )


def turned_to(state: State, body: Body, view: Matrix) -> State:
    """The same body in another view."""
    turned = replace(body, view=view)
    sides = {**state.faced, **{part: side for part in body.parts if (side := side_before_maker(state, turned, part))}}
    faced = {part: side for part, side in sides.items() if side == "back"}
    return replace(state, bodies=tuple(turned if other is body else other for other in state.bodies), faced=faced)


def side_before_maker(state: State, body: Body, part: str) -> str:
    """The side of a flat part that the maker sees; empty where it does not lie flat."""
    fronts = [rotate(body.view, front_normal(state.placed[(part, panel.name)]))[2] for panel in state.blanks[part].panels]
    if any(abs(z - fronts[0]) > 1e-6 for z in fronts) or abs(fronts[0]) < 0.5:
        return ""
    return "front" if fronts[0] < 0 else "back"


def moved(state: State, body: Body, motion: Rigid) -> State:
    """The body's panels moved in the world (its view is then that of the body it joins)."""
    placed = {key: compose(motion, here) for key, here in state.placed.items() if key[0] in body.parts}
    stacks = tuple(Stack(rotate(motion.turn, stack.normal), stack.order) for stack in body.stacks)
    shifted = replace(body, stacks=stacks)
    return replace(
        state, placed={**state.placed, **placed}, bodies=tuple(shifted if other is body else other for other in state.bodies)
    )


def stack_of(body: Body, panel: PanelKey) -> Stack:
    return next(stack for stack in body.stacks if panel in stack.order)


def up_is_later(stack: Stack, body: Body) -> bool:
    """Whether the order of a stack runs towards the maker."""
    return faces_maker(stack.normal, body)


def landing_index(state: State, home: Stack, targets: list[PanelKey], coming: Stack, later: bool) -> int:
    """Where in `home` the stack `coming` is spliced: next to the targets on the later (or earlier) side.

    At the very end where nothing lies over the place where it touches them; else directly beside them (it slides in).
    """
    frame = flat_frame(home.normal)
    mine = [seen_polygon(state, key, frame) for key in coming.order]
    places = [home.order.index(target) for target in with_what_sticks(state, home, targets, mine, later)]
    touched = intersection([seen_polygon(state, key, frame) for key in targets], mine)
    beyond = home.order[max(places) + 1 :] if later else home.order[: min(places)]
    covered = any(overlap(seen_polygon(state, key, frame), clockwise(shape)) for key in beyond for shape in touched)
    if not covered:
        return len(home.order) if later else 0
    return max(places) + 1 if later else min(places)


def with_what_sticks(state: State, home: Stack, targets: list[PanelKey], mine: list[Polygon], later: bool) -> list[PanelKey]:
    """The targets, and the turn-ins that are glued over them where the coming piece will lie: nothing slides in under those."""
    frame = flat_frame(home.normal)
    found = list(targets)
    waiting = list(targets)
    while waiting:
        here = waiting.pop()
        for bond in state.bonds:
            if bond.kind != "glue" or here not in (bond.first, bond.second):
                continue
            other = bond.second if here == bond.first else bond.first
            if state.blanks[other[0]].wrap is None or other in found or other not in home.order:
                continue
            if (home.order.index(other) > home.order.index(here)) != later:
                continue
            if any(overlap(seen_polygon(state, other, frame), shape) for shape in mine):
                found.append(other)
                waiting.append(other)
    return found


def spliced(home: Stack, coming: Stack, index: int) -> Stack:
    order = coming.order if dot(home.normal, coming.normal) > 0 else tuple(reversed(coming.order))
    return Stack(home.normal, (*home.order[:index], *order, *home.order[index:]))


def united(state: State, body: Body, thing: Body, contact: PanelKey, index: int, target: PanelKey) -> State:
    """One body of two: the thing's contact stack spliced into the target's at `index`.

    Its other stacks are kept, or laid on where they lie in the plane of one of the target's.
    """
    home = stack_of(body, target)
    stacks = [spliced(home, stack_of(thing, contact), index) if stack is home else stack for stack in body.stacks]
    for stack in thing.stacks:
        if contact in stack.order:
            continue
        level = next((k for k, other in enumerate(stacks) if same_plane(state, stack, other)), None)
        if level is None:
            stacks.append(stack)
        else:
            stacks[level] = spliced(stacks[level], stack, len(stacks[level].order))
    one = Body(body.parts | thing.parts, tuple(stacks), body.view)
    others = tuple(other for other in state.bodies if other is not body and other is not thing)
    return replace(state, bodies=(*others, one))


def bonded(state: State, first: PanelKey, second: PanelKey, kind: str, material: str, gap: float, step: int) -> Bond:
    relative = compose(inverse(state.placed[first]), state.placed[second])
    return Bond(first, second, relative, kind, material, gap, step)
