"""A flap that is folded in under or between layers that lie there already, instead of on top of them."""

from msgspec.structs import replace

from creasewright.folding.fold_once import is_still, motion_of
from creasewright.folding.layer_solver import Rules
from creasewright.folding.panel_graph import links
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey, Stack, State
from creasewright.joining.bodies import stack_of, up_is_later
from creasewright.joining.refused import JoinRefused


def tucked(before: State, after: State, part: str, relation: str, beside: tuple[PanelKey, ...]) -> State:
    """`after`, in which the flap of `part` has just been folded, with its panels at the layer named.

    `under`: directly beneath the lowest of `beside`; `between` or `into`: directly on the lower of two.
    Raises JoinRefused where a fold closes the way there.
    """
    body = after.body_of(part)
    flap = [key for key in after.placed if key[0] in body.parts and not is_still(motion_of(before, after.placed, key))]
    if not flap:
        return after
    stack = stack_of(body, flap[0])
    missing = [key for key in beside if key not in stack.order]
    if missing:
        raise JoinRefused(f"{called(missing[0])} does not lie where {called(flap[0])} is tucked in", "fold it there first")
    from_table = stack.order if up_is_later(stack, body) else stack.order[::-1]
    rest = [key for key in from_table if key not in flap]
    places = sorted(rest.index(key) for key in beside)
    index = places[0] if relation == "under" else places[0] + 1
    order = (*rest[:index], *(key for key in from_table if key in flap), *rest[index:])
    spliced = Stack(stack.normal, order if up_is_later(stack, body) else order[::-1])
    if not Rules(after, list(links(after, body.parts)), spliced).allows(list(spliced.order)):
        raise JoinRefused(
            f"{called(flap[0])} cannot be tucked {relation} {called(beside[0])}: a fold closes the way there",
            "tuck it in on an open side, or fold what closes the way later",
        )
    stacks = tuple(spliced if other is stack else other for other in body.stacks)
    return replace(after, bodies=tuple(replace(body, stacks=stacks) if other is body else other for other in after.bodies))
