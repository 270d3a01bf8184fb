"""Inserts: in a pocket, between two panels that lie on each other, between two stiff faces that stand apart."""

from collections.abc import Iterator

from creasewright.folding.heights import anchor
from creasewright.folding.references import RefFault, panels_named
from creasewright.folding.state import Body, InsertFit, PanelKey, State
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.hands.carried import Carried, Slopes, added
from creasewright.hands.clearance import Clearance, Making, bounds, named, own_size, worst_span
from creasewright.hands.fitted import branch_words, fitted_size
from creasewright.hands.seen_lines import SeenLine, between_panels
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import box, polygon_in_view
from creasewright.joining.inserting import room_in_view
from creasewright.joining.inserting_between import LEVEL, facing_pair, room_between
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

WALL = 8.0
"""mm: the inner face of a wall lies no farther than this from the middle of its sheet."""


def insert_rooms(making: Making) -> Iterator[Clearance]:
    for _, run in making.original_runs():
        for fit in run.after.fits[len(run.before.fits) :]:
            yield from of_one(making, run, fit)


def of_one(making: Making, run: StepRun, fit: InsertFit) -> Iterator[Clearance]:
    for axis, way, spare in ((0, "wide", fit.spare_width), (1, "high", fit.spare_height)):
        if way not in fit.stands_out:
            slopes, worse = room_of(making, run, fit, axis)
            size, said = size_of(making, run.before, fit.part, axis, fit.width if axis == 0 else fit.height)
            yield made(run, fit, way, Carried(spare, added(slopes, size, -1.0)), "; ".join(filter(None, (worse, said))))
    if fit.room_depth is not None and fit.spare_depth is not None:
        yield made(run, fit, "thick", Carried(fit.spare_depth, depth_of_room(making, run)), "")


def size_of(making: Making, state: State, part: str, axis: int, size: float) -> tuple[Slopes, str]:
    """Of the insert across an axis of the view, as it is cut, to its measures or to fit; and which branches of its formula were taken."""
    blank = state.blanks[part]
    way = "width" if abs(float(blank.width) - size) < 0.01 and (axis == 0 or float(blank.height) != size) else "height"
    fitted = fitted_size(making, state, part, way)
    return (fitted, branch_words(making, state, part, way)) if fitted is not None else (own_size(making, state, part, axis), "")


def made(run: StepRun, fit: InsertFit, way: str, room: Carried, worse: str) -> Clearance:
    name = named(fit.part)
    bought = not run.before.blanks[fit.part].paper
    larger = f"{named(fit.pocket)} {{more}} larger" if fit.pocket else f"the room for {name} {{more}} larger"
    size = {"wide": "narrower", "high": "less high", "thick": "thinner"}[way]
    remedy = f"make {larger}" if bought or way == "thick" else f"make {name} {{more}} {size}, or {larger}"
    other = named(fit.pocket) if fit.pocket else ""
    return Clearance("insert", name, other, way, run.written.where, room, remedy, fit.part, run.number, worse)


def room_of(making: Making, run: StepRun, fit: InsertFit, axis: int) -> tuple[Slopes, str]:
    state = run.before
    pocket = state.pockets.get(fit.pocket)
    if pocket is not None:
        body = state.body_of(pocket.front[0])
        room, _ = room_in_view(state, body, pocket)
        panels = list(dict.fromkeys([pocket.back, *pocket.closing]))
        sides = [bounds(state, body, panels, axis, room[k], way) for k, way in ((axis, -1.0), (axis + 2, 1.0))]
        return worst_span(making, state, body, sides[0], sides[1], axis)
    faces = faces_of(run)
    if len(faces) < 2:
        return {}, ""
    body = state.body_of(faces[0][0])
    if fit.room_depth is None:
        room = box([polygon_in_view(state, body, faces[0])])
        faces = faces[:1]
    else:
        room, _ = room_between(state, body, *facing_pair(state, body, (faces[0], faces[1])))
    sides = [face_or_wall(state, body, faces, axis, room[k]) for k in (axis, axis + 2)]
    return worst_span(making, state, body, sides[0], sides[1], axis)


def faces_of(run: StepRun) -> list[PanelKey]:
    """The two panels that the step names with `between`."""
    action = run.written.action
    assert isinstance(action, design.Insert)
    try:
        return [panels_named(run.before, str(ref))[0] for ref in action.landing.refs]
    except (RefFault, IndexError):
        return []


def face_or_wall(state: State, body: Body, faces: list[PanelKey], axis: int, value: float) -> list[SeenLine]:
    """The sides of the faces there, or the panel that carries what stands upright there."""
    lines = bounds(state, body, faces, axis, value, 0.0)
    if lines:
        return lines
    for stack in body.stacks:
        if abs(rotate(body.view, stack.normal)[axis]) > LEVEL:
            key = anchor(state, body, stack)
            at = rotate(body.view, apply(state.placed[key], (0.0, 0.0, 0.0)))[axis]
            if abs(at - value) < WALL:
                return [SeenLine(key, at, {})]
    return []


def depth_of_room(making: Making, run: StepRun) -> Slopes:
    """Of the distance between two faces: of the panels that carry them from other planes."""
    state = run.before
    faces = faces_of(run)
    if len(faces) < 2:
        return {}
    body = state.body_of(faces[0][0])
    ends = [anchor(state, body, stack_of(body, face)) for face in faces]
    levels = [rotate(body.view, apply(state.placed[end], (0.0, 0.0, 0.0)))[2] for end in ends]
    if levels[0] > levels[1]:
        ends.reverse()
    return between_panels(state, body, making.places, ends[0], ends[1], 2)
