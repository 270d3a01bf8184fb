"""Scores of other parts that lie on a moving line turn with it: nested leaves, a liner, a seam."""

from creasewright.folding.fold_once import SAME_PLANE
from creasewright.folding.panel_graph import Link, links
from creasewright.folding.state import Body, PanelKey, PieceKey, State, front_normal
from creasewright.geometry.rigid_transform import Vector, apply, dot, minus, norm

Targets = dict[PieceKey, float]


def carried_along(state: State, body: Body, targets: Targets) -> Targets:
    """`targets`, and with them the score pieces on the same lines that are at the same angle, turned the same way in space.

    Those are the pieces of other parts, and of the same part those whose two panels are stuck to the two that turn (a seam, a rim).
    """
    found = dict(targets)
    stuck = {frozenset((bond.first, bond.second)) for bond in state.bonds}
    moving_parts = {key[0] for key in targets}
    table = {link.piece_key: link for link in links(state, body.parts) if link.piece_key is not None}
    stuck_panels = {panel for pair in stuck for panel in pair}
    others = {
        key: link
        for key, link in table.items()
        if key[0] not in moving_parts or (link.first in stuck_panels and link.second in stuck_panels)
    }
    if not others:
        return found
    led: set[PieceKey] = set()
    for key in sorted(targets, key=lambda key: -larger_side(state, table[key])):
        lead, angle = table[key], found[key]
        line = ends_of(state, lead)
        facing = front_normal(state.placed[lead.first])
        led.add(key)
        for other, link in others.items():
            if other in led:
                continue
            if other[0] in moving_parts and not stuck_along(lead, link, stuck):
                continue
            turned = dot(facing, front_normal(state.placed[link.first])) < 0
            if other[0] not in moving_parts and state.angles.get(other, 0.0) != state.angles.get(key, 0.0):
                continue
            if on_line(line, ends_of(state, link)):
                found[other] = -angle if turned else angle
                led.add(other)
    return found


def larger_side(state: State, link: Link) -> float:
    """mm² of the larger of the two panels beside a score."""
    return max(state.blanks[key[0]].panel(key[1]).area for key in (link.first, link.second))


def stuck_along(lead: Link, link: Link, stuck: set[frozenset[PanelKey]]) -> bool:
    """Whether each panel of `link` is stuck to one panel of `lead`."""
    pairs = ((lead.first, link.first), (lead.second, link.second)), ((lead.first, link.second), (lead.second, link.first))
    return any(all(frozenset(pair) in stuck for pair in way) for way in pairs)


def ends_of(state: State, link: Link) -> tuple[Vector, Vector]:
    assert link.piece is not None
    a, b = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
    return apply(state.placed[link.first], a), apply(state.placed[link.first], b)


def on_line(line: tuple[Vector, Vector], other: tuple[Vector, Vector]) -> bool:
    """The second piece lies on the line of the first, and they overlap along it."""
    origin, along = line[0], minus(line[1], line[0])
    length = norm(along)
    unit = (along[0] / length, along[1] / length, along[2] / length)
    places = []
    for point in other:
        away = minus(point, origin)
        k = dot(away, unit)
        off = (away[0] - k * unit[0], away[1] - k * unit[1], away[2] - k * unit[2])
        if norm(off) > SAME_PLANE * 20:
            return False
        places.append(k)
    return min(max(places), length) - max(min(places), 0.0) > 0.5
