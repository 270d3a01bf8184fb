"""Pockets: the space between two panels that folds and glue close on some sides."""

from math import hypot

from creasewright.folding.panel_graph import links
from creasewright.folding.state import Body, GlueArea, PanelKey, Pocket, State, front_normal
from creasewright.geometry.rigid_transform import apply, dot, inverse, rotate, transposed
from creasewright.joining.compass import SIDES, Box, box, faces_maker, polygon_in_view, side_value

NEAR = 1.0
"""A fold within this many mm of a side of the contact closes that side."""
FLAT = 0.5
"""A side of a pocket that is so much foreshortened is seen edge-on."""


def made_pocket(
    state: State,
    body: Body,
    name: str,
    front: PanelKey,
    onto: list[PanelKey],
    areas: list[GlueArea],
    along: tuple[str, ...],
    step: int,
) -> Pocket:
    """The pocket that gluing `front` onto `onto` has made; `areas` are where that adhesive went.

    The panel behind is the one from which both the flap and what it is glued to are folded; else what it is glued to.
    """
    back = back_of(state, body, front, onto)
    direct = back in onto
    contact_box = box([polygon_in_view(state, body, front)])
    back_box = box([polygon_in_view(state, body, back)])
    whole = box([polygon_in_view(state, body, front), polygon_in_view(state, body, back)])
    space = overlap_box(contact_box, back_box) if direct else back_box
    limits: dict[str, float] = {}
    for side in SIDES:
        if folded_at(state, body, front, back, side, side_value(space, side)):
            limits[side] = side_value(space, side)
        elif direct and closes(along, areas, side):
            limits[side] = glue_limit(state, body, areas, side, side_value(space, side))
        elif not direct and closes(along, areas, side) and not open_at(state, body, back, side, back_box):
            limits[side] = side_value(space, side)
    edges = [limits.get(side, side_value(whole, side)) for side in ("left", "head", "right", "tail")]
    spots = (edges[0], edges[1]), (edges[0] + 1, edges[1]), (edges[0], edges[1] + 1)
    corner, right, tail = (into_panel(state, body, back, spot) for spot in spots)
    closed = tuple(side for side in SIDES if side in limits)
    return Pocket(
        name=name,
        front=front,
        back=back,
        closing=tuple(dict.fromkeys([front, *(p for p in onto if p != back)])),
        closed=closed,
        open=tuple(side for side in SIDES if side not in closed),
        corner=corner,
        rightwards=(right[0] - corner[0], right[1] - corner[1]),
        tailwards=(tail[0] - corner[0], tail[1] - corner[1]),
        room_width=edges[2] - edges[0],
        room_height=edges[3] - edges[1],
        step=step,
    )


def into_panel(state: State, body: Body, panel: PanelKey, spot: tuple[float, float]) -> tuple[float, float]:
    """A spot of the view, in the panel's own flat frame."""
    level = rotate(body.view, state.placed[panel].shift)[2]
    flat = apply(inverse(state.placed[panel]), rotate(transposed(body.view), (spot[0], spot[1], level)))
    return flat[0], flat[1]


def overlap_box(a: Box, b: Box) -> Box:
    return max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])


def hinge_panels(state: State, body: Body, panel: PanelKey) -> set[PanelKey]:
    return {
        link.other(panel) for link in links(state, body.parts) if link.piece is not None and panel in (link.first, link.second)
    }


def back_of(state: State, body: Body, front: PanelKey, onto: list[PanelKey]) -> PanelKey:
    behind = hinge_panels(state, body, front)
    for panel in onto:
        if panel in behind:
            return panel
    for panel in onto:
        shared = behind & hinge_panels(state, body, panel)
        if shared:
            return min(shared)
    return onto[0]


def folds_at(state: State, body: Body, panels: set[PanelKey], side: str, value: float) -> list[float]:
    """Angles of the score pieces on these panels that lie along a side."""
    found = []
    for link in links(state, body.parts):
        if link.piece is None or link.piece_key is None or not {link.first, link.second} & panels:
            continue
        spots = [(float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end)]
        ends = [rotate(body.view, apply(state.placed[link.first], spot)) for spot in spots]
        axis = 0 if side in ("left", "right") else 1
        if all(abs(end[axis] - value) < NEAR for end in ends):
            found.append(state.angles.get(link.piece_key, 0.0))
    return found


def folded_at(state: State, body: Body, front: PanelKey, back: PanelKey, side: str, value: float) -> bool:
    return any(abs(angle) > 170 for angle in folds_at(state, body, {front, back}, side, value))


def open_at(state: State, body: Body, back: PanelKey, side: str, back_box: Box) -> bool:
    """A side of the back panel where a flap still stands open, or where no paper goes round."""
    return not any(abs(a) > 170 for a in folds_at(state, body, {back}, side, side_value(back_box, side)))


def closes(along: tuple[str, ...], areas: list[GlueArea], side: str) -> bool:
    return bool(areas) and (not along or side in along or "free edges" in along)


def glue_limit(state: State, body: Body, areas: list[GlueArea], side: str, edge: float) -> float:
    """How far the adhesive along a side reaches into the space."""
    reach = edge
    for area in areas:
        for x, y in area.polygon:
            seen = rotate(body.view, apply(state.placed[area.panel], (x, y, 0.0)))
            value = seen[0] if side in ("left", "right") else seen[1]
            if abs(value - edge) <= area.setback + area.width + 0.01:
                reach = max(reach, value) if side in ("left", "head") else min(reach, value)
    return reach


MIRRORED = {"left": "right", "right": "left"}


def open_as_seen(state: State, pocket: Pocket) -> tuple[str, ...]:
    """The open sides as one sees them who looks at the pocket's flap, head up."""
    body = state.body_of(pocket.back[0])
    stack = next(s for s in body.stacks if pocket.back in s.order)
    if pocket.front not in stack.order:
        return pocket.open
    front_up = dot(front_normal(state.placed[pocket.back]), stack.normal) > 0
    flap_later = stack.order.index(pocket.front) > stack.order.index(pocket.back)
    on_front = flap_later == front_up
    (rx, ry), (tx, ty) = pocket.rightwards, pocket.tailwards
    front_was_seen = rx * ty - ry * tx > 0
    return pocket.open if on_front == front_was_seen else tuple(MIRRORED.get(side, side) for side in pocket.open)


def open_in_view(state: State, body: Body, pocket: Pocket) -> tuple[str, ...]:
    """The open sides as they lie in the view of a body, which may show the flap or the other side; edge-on, as seen at the flap."""
    placed = state.placed[pocket.back]
    axes = []
    for along in (pocket.rightwards, pocket.tailwards):
        (x, y, _), (x0, y0, _) = (rotate(body.view, apply(placed, (*spot, 0.0))) for spot in (along, (0.0, 0.0)))
        axes.append((x - x0, y - y0))
    if any(hypot(*axis) < FLAT for axis in axes):
        return open_as_seen(state, pocket)
    signs = {"left": (0, -1), "right": (0, 1), "head": (1, -1), "tail": (1, 1)}

    def seen(side: str) -> str:
        axis, sign = signs[side]
        x, y = (sign * value for value in axes[axis])
        if abs(x) > abs(y):
            return "right" if x > 0 else "left"
        return "tail" if y > 0 else "head"

    found = {seen(side) for side in pocket.open}
    return tuple(side for side in SIDES if side in found)


def flap_underneath(state: State, body: Body, pocket: Pocket) -> bool:
    """Whether the pocket lies behind, as a body's view shows it: its flap is farther from the maker than the panel it lies on."""
    stack = next((s for s in body.stacks if pocket.back in s.order), None)
    if stack is None or pocket.front not in stack.order:
        return False
    later = stack.order.index(pocket.front) > stack.order.index(pocket.back)
    return later != faces_maker(stack.normal, body)
