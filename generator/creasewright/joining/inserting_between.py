"""An insert between two stiff faces that stand opposite each other: a page block in its case, a notebook between boards.

The room is what the two inner faces leave between them: as deep as they are apart (calipers of all that lies on them taken off),
as wide and high as they share, and as far as a wall that stands between them (the spine). Against such a wall the insert lies;
elsewhere it is centred.
"""

from itertools import pairwise

from msgspec.structs import replace

from creasewright.folding.heights import anchor, foam_between, heights, level_with, thickness
from creasewright.folding.overlaps import boxes_meet
from creasewright.folding.refused import called
from creasewright.folding.state import Body, GlueArea, InsertFit, PanelKey, Stack, State, front_normal
from creasewright.geometry.loops import holds
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Rigid, apply, compose, rotate, transposed
from creasewright.joining.bodies import bonded, moved, stack_of
from creasewright.joining.compass import SIDES, Box, box, faces_maker, polygon_in_view
from creasewright.joining.inserting import along_axis
from creasewright.joining.refused import JoinRefused

LEVEL = 0.999
"""A stack whose normal is this much along the view's depth lies flat before the maker."""


def between_faces(
    state: State, thing: Body, part: str, faces: tuple[PanelKey, PanelKey], least: float, step: int, material: str = ""
) -> State:
    """The insert in its place, and its fit noted; with a `material`, glued all over to both faces. Raises JoinRefused where the faces
    do not stand opposite each other."""
    body = state.body_of(faces[0][0])
    upper, lower = facing_pair(state, body, faces)
    panel = (part, state.blanks[part].panels[0].name)
    thick = state.thick[part] or 0.0
    mine = box([polygon_in_view(state, thing, panel)])
    width, height = mine[2] - mine[0], mine[3] - mine[1]
    room, closed = room_between(state, body, upper, lower)
    x, out_x = along_axis(room[0], room[2], width, "left" in closed, "right" in closed, None)
    y, out_y = along_axis(room[1], room[3], height, "head" in closed, "tail" in closed, None)
    region = (x, y, x + width, y + height)
    top = inner_face(state, body, stack_of(body, upper), region, True)
    bottom = inner_face(state, body, stack_of(body, lower), region, False)
    level = rotate(thing.view, state.placed[panel].shift)[2]
    in_view = Rigid(thing.view, (x - mine[0], y - mine[1], (top + bottom) / 2 - level))
    state = moved(state, thing, compose(Rigid(transposed(body.view), (0.0, 0.0, 0.0)), in_view))
    state = together(state, body, state.body_of(part))
    fit = InsertFit(
        part, "", width, height, thick, room[2] - room[0], room[3] - room[1],
        room[2] - room[0] + out_x - width, room[3] - room[1] + out_y - height, max(out_x, out_y), least, step,
        tuple(way for way, out in (("wide", out_x), ("high", out_y)) if out > 0), bottom - top, bottom - top - thick,
    )  # fmt: skip
    bond = bonded(state, faces[0], panel, "insert", "", 0.0, step)
    state = replace(state, bonds=(*state.bonds, bond), fits=(*state.fits, fit))
    return replace(state, glue=(*state.glue, *glued_faces(state, panel, upper, lower, material, step))) if material else state


def glued_faces(
    state: State, panel: PanelKey, upper: PanelKey, lower: PanelKey, material: str, step: int
) -> tuple[GlueArea, GlueArea]:
    """On the upper side of the insert and on the lower one, all over."""
    front_up = faces_maker(front_normal(state.placed[panel]), state.body_of(panel[0]))
    polygon = state.blanks[panel[0]].panel(panel[1]).polygon
    sides = ("front", "back") if front_up else ("back", "front")
    over, under = (
        GlueArea(panel, onto, side, polygon, material, 0.0, 0.0, 0.0, step) for onto, side in zip((upper, lower), sides, strict=True)
    )
    return over, under


def together(state: State, body: Body, thing: Body) -> State:
    """One body of two; the insert lies in a plane of its own."""
    one = Body(body.parts | thing.parts, (*body.stacks, *thing.stacks), body.view)
    return replace(state, bodies=(*(other for other in state.bodies if other is not body and other is not thing), one))


def facing_pair(state: State, body: Body, faces: tuple[PanelKey, PanelKey]) -> tuple[PanelKey, PanelKey]:
    """The upper and the lower of the two, both level before the maker. Raises JoinRefused."""
    if any(abs(rotate(body.view, stack_of(body, face).normal)[2]) < LEVEL for face in faces):
        raise JoinRefused(
            f"{called(faces[0])} and {called(faces[1])} do not face each other, lying flat before you",
            f"fold them until they are parallel, and lay one of them flat: `lay: {called(faces[0])}`",
        )
    first, second = (box([polygon_in_view(state, body, face)]) for face in faces)
    if not boxes_meet(first, second):
        raise JoinRefused(f"{called(faces[0])} and {called(faces[1])} do not lie over each other", "fold them to face each other")
    upper, lower = sorted(faces, key=lambda face: depth_of(state, body, face))
    return upper, lower


def room_between(state: State, body: Body, upper: PanelKey, lower: PanelKey) -> tuple[Box, frozenset[str]]:
    """The room as seen from above, and the sides at which a wall stands."""
    a, b = (box([polygon_in_view(state, body, face)]) for face in (upper, lower))
    shared = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    heights_apart = depth_of(state, body, upper), depth_of(state, body, lower)
    walls = {side: wall for side in SIDES if (wall := wall_at(state, body, side, shared, *heights_apart)) is not None}
    left, head, right, tail = (
        walls.get(side, value) for side, value in zip(("left", "head", "right", "tail"), shared, strict=True)
    )
    return (left, head, right, tail), frozenset(walls)


def depth_of(state: State, body: Body, panel: PanelKey) -> float:
    """How deep a panel's mid-plane lies in the view."""
    return rotate(body.view, apply(state.placed[panel], (0.0, 0.0, 0.0)))[2]


def inner_face(state: State, body: Body, stack: Stack, region: Box, downwards: bool) -> float:
    """The depth of the innermost face over a region: from the sheet that hangs on another plane inwards, all that a ray meets there."""
    base = anchor(state, body, stack)
    sheet = level_with(state, base, stack)
    later = (rotate(body.view, stack.normal)[2] > 0) == downwards
    place = stack.order.index(base)
    inside = [key for k, key in enumerate(stack.order) if (k > place) == later and key not in sheet]
    layers = [(polygon_in_view(state, body, key), thickness(state, key)) for key in inside]
    for pair, gap in foam_between(state, {*inside, *sheet}).items():
        layers.append((polygon_in_view(state, body, next(key for key in pair if key in inside or key == base)), gap))
    inwards = thickness(state, base) / 2 + thickest(layers, region)
    return depth_of(state, body, base) + (inwards if downwards else -inwards)


def thickest(layers: list[tuple[Polygon, float]], region: Box) -> float:
    """The greatest sum of thicknesses that a ray meets within a region, mm: sampled between all corners of the layers."""
    best = 0.0
    for x in spots([p[0] for polygon, _ in layers for p in polygon], region[0], region[2]):
        column = [(polygon, thick) for polygon, thick in layers if min(p[0] for p in polygon) < x < max(p[0] for p in polygon)]
        if sum(thick for _, thick in column) <= best:
            continue
        for y in spots([p[1] for polygon, _ in column for p in polygon], region[1], region[3]):
            best = max(best, sum(thick for polygon, thick in column if holds(polygon, x, y)))
    return best


def spots(values: list[float], low: float, high: float) -> list[float]:
    marks = [low, *sorted({round(v, 3) for v in values if low < v < high}), high]
    return [(a + b) / 2 for a, b in pairwise(marks) if b - a > 0.01]


def wall_at(state: State, body: Body, side: str, shared: Box, top: float, bottom: float) -> float | None:
    """Where the inner face of a wall stands at a side of the room: a panel upright in the view, beyond the middle of the shared part."""
    axis = 0 if side in ("left", "right") else 1
    outward = -1.0 if side in ("left", "head") else 1.0
    middle = (shared[axis] + shared[axis + 2]) / 2
    found = []
    for stack in body.stacks:
        normal = rotate(body.view, stack.normal)
        if abs(normal[axis]) < LEVEL:
            continue
        for key, (low, high) in heights(state, body, stack).items():
            spots = [
                rotate(body.view, apply(state.placed[key], (*corner, 0.0))) for corner in state.blanks[key[0]].panel(key[1]).polygon
            ]
            across = box([tuple((spot[1 - axis], spot[2]) for spot in spots)])
            room = (shared[1 - axis], top, shared[3 - axis], bottom)
            inner = min((spots[0][axis] + normal[axis] * h for h in (low, high)), key=lambda v: outward * v)
            if boxes_meet(across, room) and outward * (inner - middle) > 0:
                found.append(inner)
    return min(found, key=lambda v: outward * v) if found else None
