"""One join: a free part is placed and held, or what already lies together is held."""

from math import acos, degrees, hypot

from msgspec import Struct
from msgspec.structs import replace

from creasewright.folding.overlaps import COVERED
from creasewright.folding.refused import called
from creasewright.folding.state import Body, Bond, GlueArea, PanelKey, Stack, State, front_normal
from creasewright.folding.swing import centre_of
from creasewright.geometry.clip import area, difference, total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import UNIT, apply, dot, minus
from creasewright.joining.around import laid_around
from creasewright.joining.board_places import own_place, shift_to_place
from creasewright.joining.bodies import bonded, landing_index, moved, stack_of, united, up_is_later
from creasewright.joining.compass import facing
from creasewright.joining.glue_area import GlueWish, contact, glue_areas
from creasewright.joining.placing import PlaceWish, motion_by, motion_onto, source_motion
from creasewright.joining.pockets import made_pocket
from creasewright.joining.refused import JoinRefused


class JoinWish(Struct, frozen=True):
    """What a join step asks for, worked out: mm, panels, material."""

    verb: str
    parts: tuple[str, ...]
    """Part paths of the thing."""
    by: tuple[PanelKey, ...]
    """Its contact panels as named; empty: found."""
    relation: str
    onto: tuple[PanelKey, ...]
    place: PlaceWish
    glue: GlueWish | None
    kind: str
    gap: float
    makes: str | None
    step: int
    shared: bool = False
    """Several panels go onto the same ones: each need meet only some of them."""


def joined(state: State, wish: JoinWish) -> State:
    """The state after a join. Raises JoinRefused."""
    after = placed_and_held(state, wish)
    if wish.glue is not None and len(after.glue) == len(state.glue):
        raise JoinRefused(
            f"no room for adhesive between {' and '.join(wish.parts)} and what it lies on",
            "make the overlap wider, the setback smaller, or name other sides in `along:`",
        )
    return after


def placed_and_held(state: State, wish: JoinWish) -> State:
    thing = state.body_of(wish.parts[0])
    if not wish.onto:
        return held_down(state, thing, wish)
    body = state.body_of(wish.onto[0][0])
    if body is thing:
        return held_down(state, body, wish)
    return laid_on(state, thing, body, wish)


def held_down(state: State, body: Body, wish: JoinWish) -> State:
    """What already lies there is stuck to it; its place is checked, not made."""
    panels = list(wish.by) or [(wish.parts[0], panel.name) for panel in state.blanks[wish.parts[0]].panels]
    for panel in panels:
        stack = stack_of(body, panel)
        seen = facing(state, body, panel)
        below, above = touching(state, seen, panel)
        near = [*below, *above]
        onto = [key for key in near if not wish.onto or key in wish.onto]
        missing = [key for key in wish.onto if key not in near and not (wish.shared and onto)]
        if not wish.onto and below and above:
            raise JoinRefused(
                f"{called(panel)} lies between {called(below[-1])} and {called(above[0])}", "say with `onto:` which of them it is stuck to"
            )
        if missing or not onto:
            other = called(missing[0]) if missing else "anything"
            raise JoinRefused(
                f"{called(panel)} does not lie against {other}{how_far_off(state, body, panel, wish.onto)}",
                "fold it there first, or name the panel that it does lie on" + (": " + called(near[0]) if near else ""),
            )
        state = stuck(state, seen, panel, onto, lies_over(stack, seen, onto[0], panel), wish)
    return state


TOUCHES = 0.005
NEARLY = 10.0
"""mm and degrees within which a panel was meant to lie on another."""


def how_far_off(state: State, body: Body, panel: PanelKey, onto: tuple[PanelKey, ...]) -> str:
    """In words, the gap in mm and degrees to the panel it was meant to lie on, where one is near; else empty."""
    mine = front_normal(state.placed[panel])
    middle = apply(state.placed[panel], centre_of(state, panel))
    best: tuple[float, float, PanelKey] | None = None
    for other in onto or [key for stack in body.stacks for key in stack.order if key != panel]:
        normal = front_normal(state.placed[other])
        turned = degrees(acos(min(1.0, abs(dot(mine, normal)))))
        away = abs(dot(minus(middle, apply(state.placed[other], centre_of(state, other))), normal))
        apart = hypot(*minus(middle, apply(state.placed[other], centre_of(state, other))))
        near = turned < NEARLY and away < NEARLY and apart < reach(state, panel) + reach(state, other)
        if near and (best is None or (away, turned) < best[:2]):
            best = (away, turned, other)
    if best is None or max(best[:2]) < TOUCHES:
        return ""
    return f" ({best[0]:.2f} mm and {best[1]:.2f}° off {called(best[2])})"


def reach(state: State, panel: PanelKey) -> float:
    x, y, _ = centre_of(state, panel)
    return max(hypot(px - x, py - y) for px, py in state.blanks[panel[0]].panel(panel[1]).polygon)


def lies_over(stack: Stack, body: Body, other: PanelKey, panel: PanelKey) -> bool:
    """Whether `other` lies on the side of `panel` that faces the maker."""
    return (stack.order.index(other) > stack.order.index(panel)) == up_is_later(stack, body)


def touching(state: State, body: Body, panel: PanelKey) -> tuple[list[PanelKey], list[PanelKey]]:
    """Panels that lie directly against this one over some area, before it and after it in the stack, the hinge's own panel among them."""
    stack = stack_of(body, panel)
    place = stack.order.index(panel)
    shares = {other: contact(state, body, panel, other) for other in stack.order if other != panel}
    found: dict[int, list[PanelKey]] = {-1: [], 1: []}
    for direction in (-1, 1):
        hidden: list[Polygon] = []
        k = place + direction
        while 0 <= k < len(stack.order):
            other = stack.order[k]
            pieces = shares[other]
            if pieces and open_share(pieces, hidden) > COVERED:
                found[direction].append(other)
            hidden.extend(pieces)
            k += direction
    return found[-1][::-1], found[1]


def open_share(pieces: list[Polygon], hidden: list[Polygon]) -> float:
    """mm² of a contact that no nearer panel covers."""
    return total_area(difference(pieces, hidden) if hidden else pieces)


def stuck(state: State, body: Body, panel: PanelKey, onto: list[PanelKey], up: bool, wish: JoinWish) -> State:
    """Bonds, adhesive and the pocket of a panel on what it lies against."""
    bonds: list[Bond] = []
    areas: list[GlueArea] = []
    for other in onto:
        bonds.append(bonded(state, other, panel, wish.kind, wish.glue.material if wish.glue else "", wish.gap, wish.step))
    if wish.glue is not None:
        areas = glue_areas(state, body, panel, onto, up, wish.glue)
    pockets = dict(state.pockets)
    if wish.makes is not None:
        along = wish.glue.along if wish.glue else ()
        pockets[wish.makes] = made_pocket(state, body, wish.makes, panel, onto, areas, along, wish.step)
    return replace(state, bonds=(*state.bonds, *bonds), glue=(*state.glue, *areas), pockets=pockets)


def laid_on(state: State, thing: Body, body: Body, wish: JoinWish) -> State:
    """A free part goes to its place, between the layers it belongs to."""
    if wish.relation == "around":
        return laid_around(state, thing, body, wish.parts, wish.onto, wish.place, wish.step)
    own = own_place(state, wish.parts[0], wish.onto) if goes_by_itself(wish) else None
    if own is not None:
        wish = replace(wish, onto=((own[0], own[1].panel),))
    seen = facing(state, body, wish.onto[0])
    source = source_motion(state, wish.parts[0], wish.onto[0][0]) if goes_by_itself(wish) else None
    by = list(wish.by) or contact_panels(state, thing, wish)
    if own is not None:
        shift = shift_to_place(state, thing, wish.parts[0], seen, *own)
        motion = motion_by(state, thing, by, UNIT, seen, list(wish.onto), shift)
    else:
        motion = source if source is not None else motion_onto(state, thing, by, seen, list(wish.onto), wish.place)
    state = moved(state, thing, motion)
    thing = state.body_of(wish.parts[0])
    home = stack_of(body, wish.onto[0])
    towards_maker = wish.relation != "under"
    later = towards_maker == up_is_later(home, seen)
    pairs = contact_pairs(state, seen, thing, by, wish)
    coming = stack_of(thing, by[0])
    if wish.relation in ("between", "into"):
        places = sorted(home.order.index(key) for key in wish.onto if key in home.order)
        index = places[0] + 1
    else:
        view = Body(thing.parts, thing.stacks, seen.view)
        strange = next((other for _, other in pairs if other not in home.order), None)
        if strange is not None:
            raise JoinRefused(
                f"{called(by[0])} lies against {called(strange)}, which is not in one plane with {called(wish.onto[0])}",
                "make the sizes such that it touches only what it is joined onto, or say with `onto:` what that is",
            )
        under = [key for key in wish.onto if key in home.order and any(contact(state, view, panel, key) for panel in by)]
        index = landing_index(state, home, list(dict.fromkeys([*(other for _, other in pairs), *under])), coming, later)
    state = united(state, body, thing, by[0], index, wish.onto[0])
    one = replace(state.body_of(wish.parts[0]), view=seen.view)
    for panel, other in pairs:
        state = stuck(state, one, panel, [other], lies_over(stack_of(one, panel), one, other, panel), wish)
    return state


def goes_by_itself(wish: JoinWish) -> bool:
    """Nothing says where it goes: a board of a cover and a piece made like other panels know it themselves."""
    return not wish.by and not wish.place.pairs and not wish.place.centre


def contact_panels(state: State, thing: Body, wish: JoinWish) -> list[PanelKey]:
    keys = [key for stack in thing.stacks for key in stack.order]
    named = [key for key in keys if key[0] in wish.parts]
    if len(named) == 1:  # what was stuck to it before does not count
        return named
    if len(keys) == 1 or (len(wish.parts) == 1 and state.blanks[wish.parts[0]].source is not None):
        return keys
    if len(wish.parts) == 1 and same_all_over(state, wish.parts[0], wish.onto):
        return keys
    raise JoinRefused(
        f"{' and '.join(sorted(thing.parts))} has {len(keys)} panels that could touch",
        "say which one with `by:`, for example `by: " + called(keys[0]) + "`",
    )


def same_all_over(state: State, part: str, onto: tuple[PanelKey, ...]) -> bool:
    """A piece laid on all panels of another that is cut as the same blank: leaf on leaf."""
    under = state.blanks[onto[0][0]]
    return under.name == state.blanks[part].name and len({key for key in onto if key[0] == onto[0][0]}) == len(under.panels)


def contact_pairs(state: State, body: Body, thing: Body, by: list[PanelKey], wish: JoinWish) -> list[tuple[PanelKey, PanelKey]]:
    """Each contact panel with the target that it covers most, a lone one with all that it covers. Raises JoinRefused for a miss."""
    view = Body(thing.parts, thing.stacks, body.view)
    pairs = []
    targets = wish.onto if wish.relation not in ("between", "into") else wish.onto[:1]
    for panel in by:
        shares = [(sum(abs(area(p)) for p in contact(state, view, panel, other)), other) for other in targets]
        taken = shares if len(by) == 1 else [max(shares, key=lambda share: share[0])]
        pairs += [(panel, other) for share, other in taken if share > COVERED]
    if not pairs:
        raise JoinRefused(f"{called(by[0])} misses {called(wish.onto[0])} altogether", "check the lines in `meet:`")
    return pairs
