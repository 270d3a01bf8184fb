"""Bulk: how thick the closed thing is everywhere, at its spine and at its fore edge.

Thickness is counted along a ray through every panel that lies parallel to the table: calipers, inserts, foam. It is sampled at the middle
of every cell of the grid that the panels' extents make, which is exact for panels with edges straight up and across; where edges run
aslant, points 8 mm apart are added.
"""

from itertools import pairwise

from msgspec import Struct

from creasewright.folding.heights import foam_between, thickness
from creasewright.folding.panel_graph import links
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.compass import Box, box, polygon_in_view

EDGE_ZONE = 6.0
"""The spine's and the fore edge's thickness: the greatest within this many mm of that side."""
RASTER = 8.0
FOLDED = 45.0


class Bulk(Struct, frozen=True):
    """mm. `spine` is the side it is hinged at (head, tail, left, right as seen), None where it has none."""

    greatest: float
    spine: str | None
    at_spine: float
    at_fore_edge: float
    layers_at_spine: tuple[str, ...]
    layers_at_fore_edge: tuple[str, ...]


class Layer(Struct, frozen=True):
    key: PanelKey
    polygon: Polygon
    box: Box
    thick: float


def flat_layers(state: State, body: Body) -> list[Layer]:
    """Every panel parallel to the table, with foam as layers of its own."""
    layers = []
    for stack in body.stacks:
        if abs(rotate(body.view, stack.normal)[2]) < 0.999:
            continue
        for key in stack.order:
            shape = polygon_in_view(state, body, key)
            layers.append(Layer(key, shape, box([shape]), thickness(state, key)))
        for pair, gap in foam_between(state, set(stack.order)).items():
            top = max(pair, key=stack.order.index)
            shape = polygon_in_view(state, body, top)
            layers.append(Layer((top[0], "foam"), shape, box([shape]), gap))
    return layers


def holds(polygon: Polygon, x: float, y: float) -> bool:
    """Point in polygon by crossings."""
    inside = False
    ax, ay = polygon[-1]
    for bx, by in polygon:
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
        ax, ay = bx, by
    return inside


def middles(values: set[float], low: float, high: float, slanted: bool) -> list[float]:
    ordered = [low, *sorted(v for v in values if low < v < high), high]
    marks = [(a + b) / 2 for a, b in pairwise(ordered) if b - a > 0.05]
    if slanted:
        count = int((high - low) / RASTER)
        marks += [low + (k + 0.5) * (high - low) / (count or 1) for k in range(count)]
    return marks


def is_slanted(polygon: Polygon) -> bool:
    """Whether a long edge runs neither up nor across (the short chords of a rounded corner do not count)."""
    return any(
        abs(bx - ax) > 3 and abs(by - ay) > 3 for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    )


def greatest_in(layers: list[Layer], zone: Box) -> tuple[float, tuple[str, ...]]:
    """The greatest thickness in a zone, and what lies there from the list of layers."""
    near = [la for la in layers if la.box[0] < zone[2] and zone[0] < la.box[2] and la.box[1] < zone[3] and zone[1] < la.box[3]]
    slanted = any(is_slanted(la.polygon) for la in near)
    xs = {round(v, 3) for la in near for v in (la.box[0], la.box[2])} | notched(near, 0)
    ys = {round(v, 3) for la in near for v in (la.box[1], la.box[3])} | notched(near, 1)
    plain = [is_plain(la) for la in near]
    rows = middles(ys, zone[1], zone[3], slanted)
    best = 0.0
    what: tuple[str, ...] = ()
    for x in middles(xs, zone[0], zone[2], slanted):
        column = [(la, square) for la, square in zip(near, plain, strict=True) if la.box[0] < x < la.box[2]]
        if sum(la.thick for la, _ in column) <= best + 1e-9:
            continue
        for y in rows:
            within = [(la, square) for la, square in column if la.box[1] < y < la.box[3]]
            if sum(la.thick for la, _ in within) <= best + 1e-9:
                continue
            here = [la for la, square in within if square or holds(la.polygon, x, y)]
            total = sum(la.thick for la in here)
            if total > best + 1e-9:
                best, what = total, tuple(" of ".join([la.key[1], *reversed(la.key[0].split("/"))]) for la in here)
    return best, what


def notched(layers: list[Layer], axis: int) -> set[float]:
    """Where the corners of panels with a few straight edges stand: their boxes alone do not tell a notch."""
    return {round(spot[axis], 3) for la in layers if 4 < len(la.polygon) <= 16 for spot in la.polygon}


def is_plain(layer: Layer) -> bool:
    """A rectangle straight up and across, which its box tells whole."""
    return len(layer.polygon) == 4 and not is_slanted(layer.polygon)


def spine_side(state: State, body: Body, whole: Box, front: PanelKey | None) -> str | None:
    """The hinged side of the closed thing.

    Where panels stand upright on the table it is their side; else the side at which the front's own folds lie, unless the opposite side
    has as many folds. A thing whose front is folded on all four sides (an envelope) has no spine.
    """
    counts = dict.fromkeys(("left", "right", "head", "tail"), 0.0)
    own = dict.fromkeys(counts, 0.0)
    upright = dict.fromkeys(counts, 0.0)
    family = carriers(state, body, front) if front is not None else set()
    for link in links(state, body.parts):
        if link.piece is None or link.piece_key is None or abs(state.angles.get(link.piece_key, 0.0)) < FOLDED:
            continue
        ends = [
            rotate(body.view, apply(state.placed[link.first], (float(p.x), float(p.y), 0.0)))
            for p in (link.piece.start, link.piece.end)
        ]
        side = side_at(ends, whole)
        if side is None:
            continue
        counts[side] += 1
        own[side] += 1 if family & {link.first, link.second} else 0
        if abs(state.angles[link.piece_key]) < 170:
            upright[side] += 1
    for table in (upright, own):
        if any(table.values()) and not all(table.values()):
            side = max(table, key=lambda s: (table[s], counts[s]))
            opposite = {"left": "right", "right": "left", "head": "tail", "tail": "head"}[side]
            if table is upright or counts[side] > counts[opposite] or own[opposite] == 0:
                return side
            return None
    return None


def side_at(ends: list[tuple[float, float, float]], whole: Box) -> str | None:
    for side, axis, value in (("left", 0, whole[0]), ("right", 0, whole[2]), ("head", 1, whole[1]), ("tail", 1, whole[3])):
        if all(abs(end[axis] - value) < 1.5 for end in ends):
            return side
    return None


def carriers(state: State, body: Body, front: PanelKey) -> set[PanelKey]:
    """The front panel and the panels it is joined to face to face."""
    family = {front}
    grown = True
    while grown:
        grown = False
        for bond in state.bonds:
            if bond.kind == "glue" and (bond.first in family) != (bond.second in family):
                family |= {bond.first, bond.second}
                grown = True
    return family


def bulk(state: State, body: Body, front: PanelKey | None) -> Bulk:
    layers = flat_layers(state, body)
    if not layers:
        return Bulk(0.0, None, 0.0, 0.0, (), ())
    whole = box([la.polygon for la in layers])
    greatest, _ = greatest_in(layers, whole)
    spine = spine_side(state, body, whole, front)
    if spine is None:
        return Bulk(greatest, None, greatest, greatest, (), ())
    opposite = {"left": "right", "right": "left", "head": "tail", "tail": "head"}[spine]
    at_spine, there = greatest_in(layers, zone_at(whole, spine))
    at_edge, far = greatest_in(layers, zone_at(whole, opposite))
    return Bulk(greatest, spine, at_spine, at_edge, there, far)


def zone_at(whole: Box, side: str) -> Box:
    x0, y0, x1, y1 = whole
    return {
        "left": (x0, y0, min(x1, x0 + EDGE_ZONE), y1),
        "right": (max(x0, x1 - EDGE_ZONE), y0, x1, y1),
        "head": (x0, y0, x1, min(y1, y0 + EDGE_ZONE)),
        "tail": (x0, max(y0, y1 - EDGE_ZONE), x1, y1),
    }[side]
