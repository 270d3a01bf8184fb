"""Pictures of joins: where the adhesive goes, where a part comes from and where it lands."""

from itertools import pairwise

from msgspec.structs import replace

from creasewright.booklet.diagrams.plan_facets import facet_of, flat_order, lies_flat, plan_facets, seen_spot, view_of
from creasewright.booklet.diagrams.scene import (
    Action,
    Dimension,
    GlueMark,
    PlanScene,
    Polygon2,
    SlideArrow,
    Spot,
)
from creasewright.booklet.fold_pictures import fold_arrow, moving_panels
from creasewright.booklet.glue_measures import glue_dimensions
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.space_pictures import space_gluing, space_laying
from creasewright.booklet.step_views import StepPicture, middle_of, said, side_up
from creasewright.folding.fold_scores import Targets, fold_scores
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, GlueArea, PanelKey, State, front_normal
from creasewright.geometry.clip import area as polygon_area
from creasewright.geometry.clip import clockwise as clockwise_polygon
from creasewright.geometry.clip import difference
from creasewright.geometry.deepest import deepest_place
from creasewright.geometry.loops import holds
from creasewright.geometry.offset import inset
from creasewright.geometry.rigid_transform import LIKE_A_PAGE, rotate, times
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import box, faces_maker
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import Ruler

SAME = 0.05


def new_glue(run: StepRun) -> tuple[GlueArea, ...]:
    return run.after.glue[len(run.before.glue) :]


CUT_FROM_SHEET = ("foam", "tape")
"""Kinds of material of which what covers a panel all over is one piece with square corners."""


def shown_glue(run: StepRun, parts: ShownParts) -> tuple[GlueArea, ...]:
    """As a maker lays it: a piece cut from a sheet has its own corners where the panel's are round, if the panel holds them."""
    return tuple(as_cut(run.after, area, parts) for area in new_glue(run))


def as_cut(state: State, glue: GlueArea, parts: ShownParts) -> GlueArea:
    facts = parts.worked.materials.get(glue.material)
    if glue.width or facts is None or facts.kind not in CUT_FROM_SHEET:
        return glue
    x0, y0, x1, y1 = box([glue.polygon])
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    panel = state.blanks[glue.panel[0]].panel(glue.panel[1]).polygon
    return replace(glue, polygon=corners) if all(holds(panel, x, y) for x, y in corners) else glue


def joining(run: StepRun, parts: ShownParts) -> StepPicture:
    first = run.parts[0]
    action = run.written.action
    assert isinstance(action, design.Join)
    before = run.before.body_of(first)
    targets = [area.onto[0] for area in new_glue(run)] or [b.first[0] for b in run.new_bonds]
    if targets and targets[0] in before.parts and targets[0] in run.before.blanks:
        return holding(run, parts)
    return laying_on(run, parts, run.before.body_of(targets[0]) if targets else before)


def holding(run: StepRun, parts: ShownParts) -> StepPicture:
    """A flap that is already folded: shown open, the adhesive on it, and the way it closes again."""
    body = run.before.body_of(run.parts[0])
    if any(abs(rotate(body.view, stack_of(body, panel).normal)[2]) < 0.999 for panel in run.panels) or not lies_flat(run.before, body):
        return space_gluing(run, shown_glue(run, parts), parts)
    opened = opened_flaps(run, body)
    if opened is None:
        facets = plan_facets(run.before, body, parts)
        glue = tuple(glue_mark(run.after, body, area, area.panel, hidden=True) for area in shown_glue(run, parts))
        return StepPicture(PlanScene(facets, glue=glue), None, side_up(run.before, facets, run.parts))
    state, closing = opened
    view = state.body_of(run.parts[0])
    flipped = not any(shows(state, view, area) for area in new_glue(run))
    if flipped:
        view = replace(view, view=times(LIKE_A_PAGE, view.view))
    facets = plan_facets(state, view, parts, targets=closing, moving=frozenset(run.panels))
    glue = tuple(glue_mark(state, view, area, area.panel, hidden=not shows(state, view, area)) for area in shown_glue(run, parts))
    again = replace(run, before=state, after=run.before, targets=closing)
    arrows = tuple(fold_arrow(again, view, panel, key) for panel, key in moving_panels(again).items())[:2]
    dims = glue_measures(state, view, new_glue(run), (), parts.worked.ruler)
    scene = PlanScene(facets, glue=glue, fold_arrows=arrows, dimensions=dims)
    marks = (Action("turn over page"),) if flipped else ()
    return StepPicture(scene, None, side_up(state, facets, run.parts), marks, flipped)


def opened_flaps(run: StepRun, body: Body) -> tuple[State, Targets] | None:
    """The state with the glued panels folded open, and the angles that close them again.

    They open at their own scores, else at a score of what they are glued to, whole lines at a time.
    """
    for closing in ways_to_open(run):
        try:
            return fold_scores(run.before, dict.fromkeys(closing, 0.0)), closing
        except FoldRefused:
            continue
    return None


def ways_to_open(run: StepRun) -> list[Targets]:
    own = shut_scores(run.before, run.panels)
    lines: dict[tuple[str, str], Targets] = {}
    for (part, name), angle in shut_scores(run.before, tuple(dict.fromkeys(area.onto for area in new_glue(run)))).items():
        score = next(piece.score for piece in run.before.blanks[part].pieces if piece.name == name)
        whole = [(part, piece.name) for piece in run.before.blanks[part].pieces if piece.score == score]
        lines.setdefault((part, score), {key: run.before.angles[key] for key in whole if abs(run.before.angles.get(key, 0.0)) > SHUT})
        lines[part, score][part, name] = angle
    return [way for way in (own, *lines.values()) if way]


SHUT = 179
"""Degrees: a fold at least so far closed lies flat."""


def shut_scores(state: State, panels: tuple[PanelKey, ...]) -> Targets:
    """Closed folds beside these panels, with their angles."""
    return {
        (panel[0], piece.name): state.angles[panel[0], piece.name]
        for panel in panels
        for piece in state.blanks[panel[0]].pieces
        if panel[1] in (piece.first, piece.second) and abs(state.angles.get((panel[0], piece.name), 0.0)) > SHUT
    }


def shows(state: State, body: Body, area: GlueArea) -> bool:
    """Whether the side that carries the adhesive is up."""
    front = faces_maker(front_normal(state.placed[area.panel]), body)
    return front == (area.side == "front")


def glue_mark(state: State, body: Body, area: GlueArea, panel: PanelKey, hidden: bool, shift: Spot = (0.0, 0.0)) -> GlueMark:
    to_view = view_of(state, panel, body.view, shift)
    return GlueMark(tuple(seen_spot(to_view, spot) for spot in area.polygon), hidden)


def glue_measures(
    state: State, body: Body, areas: tuple[GlueArea, ...], place: tuple[Polygon2, ...], ruler: Ruler, above: tuple[Polygon2, ...] = ()
) -> tuple[Dimension, ...]:
    """Of the first area whose edges run beside those of the place, else of the panel that carries it."""
    for area in areas:
        edges = place or (seen_corners(state, area.panel, body.view),)
        glue = glue_mark(state, body, area, area.panel, hidden=False).polygon
        if area.setback and (found := glue_dimensions(glue, edges, area.width, area.setback, ruler, above)):
            return found
    return ()


def laying_on(run: StepRun, parts: ShownParts, target: Body) -> StepPicture:
    """A part on its way to its place: held beside it, with the way it goes, where it lands and where the glue is."""
    after = run.after.body_of(run.parts[0])
    thing = frozenset(part for part in after.parts if part not in target.parts)
    if not lies_flat(run.after, after):
        return space_laying(run, thing, shown_glue(run, parts), parts)
    still = tuple(
        facet_of(run.after, after, key, parts, {}, False, False, (0.0, 0.0))
        for key in flat_order(run.after, after) if key[0] not in thing
    )  # fmt: skip
    keys = [key for key in flat_order(run.after, after) if key[0] in thing]
    landed = [seen_corners(run.after, key, after.view) for key in keys]
    touching = [bond.second for bond in run.new_bonds]
    contact = tuple(seen_corners(run.after, key, after.view) for key in keys if key in touching)
    work = [clockwise_polygon(facet.polygon) for facet in still]
    shift, seen = way_in(landed, work, contact or tuple(landed))
    lifted = tuple(facet_of(run.after, after, key, parts, {}, True, True, shift) for key in keys)
    above = [clockwise_polygon(facet.polygon) for facet in lifted]
    glue = tuple(
        GlueMark(piece)
        for area in shown_glue(run, parts)
        for piece in difference([clockwise_polygon(glue_mark(run.after, after, area, area.panel, False).polygon)], above)
        if polygon_area(piece) > 2.0
    )
    spot = middle_of(landed[-1])
    slides = (SlideArrow((spot[0] + shift[0], spot[1] + shift[1]), spot, tuple(seen), tuple(work)),)
    ruler = parts.worked.ruler
    places = (*place_dimensions(run, after, ruler, contact), *board_dimensions(run, after, ruler, contact, from_right=shift[0] > 0))
    dims = (*places, *glue_measures(run.after, after, new_glue(run), contact, ruler, tuple(above)))
    scene = PlanScene((*still, *lifted), glue=glue, slides=slides, landing=contact, dimensions=dims)
    return StepPicture(scene, None, side_up(run.after, still))


ASIDE, UP = 0.6, 0.45
"""How far a part is held off its place, in its widths and heights."""
FARTHER = (1.0, 1.25, 1.5, 1.75)
"""So many times as far where that hides the place: at the last it is clear of it."""
OPEN = 0.08
"""A place is seen well enough with room for a round of this radius, as a share of the size of the picture, or of half the radius that it
has room for itself."""


def way_in(landed: list[Polygon2], still: list[Polygon2], place: tuple[Polygon2, ...]) -> tuple[Spot, list[Polygon2]]:
    """From where a part will lie to where it is held: aside, away from the middle of what stays, so far that the `place` where it goes
    on is seen well; and what is seen of that."""
    x0, y0, x1, y1 = box(landed)
    sx0, sy0, sx1, sy1 = box(still)
    side = 1.0 if (x0 + x1) / 2 - (sx0 + sx1) / 2 >= -1.0 else -1.0
    places = [clockwise_polygon(polygon) for polygon in place]
    _, most = deepest_place(places)
    for farther in FARTHER:
        dx, dy = side * ASIDE * farther * (x1 - x0), -UP * farther * (y1 - y0)
        seen = difference(places, [clockwise_polygon(tuple((x + dx, y + dy) for x, y in polygon)) for polygon in landed])
        size = max(max(sx1, x1 + dx) - min(sx0, x0 + dx), max(sy1, y1) - min(sy0, y0 + dy))
        if any(inset(polygon, min(OPEN * size, most / 2)) for polygon in seen):
            break
    return (dx, dy), seen


def place_dimensions(run: StepRun, body: Body, ruler: Ruler, contact: tuple[Polygon2, ...]) -> tuple[Dimension, ...]:
    """How far in from the target's edges the part lies, where that is not nothing. A cover has no edges there, only lines that nobody
    presses: see `board_dimensions`."""
    bonds = run.new_bonds
    if not bonds or not contact or any(run.after.blanks[bond.first[0]].wrap is not None for bond in bonds):
        return ()
    tx0, ty0, tx1, _ = box([seen_corners(run.after, bond.first, body.view) for bond in bonds])
    x0, y0, x1, y1 = box(list(contact))
    found = []
    if SAME < tx1 - x1 < x1 - x0:
        found.append(Dimension((x1, y1), (tx1, y1), said(tx1 - x1, ruler), "tail"))
    elif SAME < x0 - tx0 < x1 - x0:
        found.append(Dimension((tx0, y1), (x0, y1), said(x0 - tx0, ruler), "tail"))
    shaped = any(run.after.blanks[part].source is not None for part in run.parts)
    if not shaped and SAME < y0 - ty0 < y1 - y0:
        found.append(Dimension((x0, ty0), (x0, y0), said(y0 - ty0, ruler), "left"))
    return tuple(found)


def board_dimensions(
    run: StepRun, body: Body, ruler: Ruler, contact: tuple[Polygon2, ...], from_right: bool
) -> tuple[Dimension, ...]:
    """Of boards on their cover: how far from its edge, on the side that they do not come over, and from one another if that is one
    distance."""
    new = run.new_bonds
    cover = next((bond.first[0] for bond in new if run.after.blanks[bond.first[0]].wrap is not None), None)
    if cover is None or not contact:
        return ()
    cx0, _, cx1, _ = box([seen_corners(run.after, (cover, panel.name), body.view) for panel in run.after.blanks[cover].panels])
    boards = sorted(box([polygon]) for polygon in contact)
    x0, _, _, y1 = boards[0] if from_right else boards[-1]
    x1 = boards[-1][2]
    rim = ((cx0, y1), (x0, y1)) if from_right else ((x1, y1), (cx1, y1))
    found = [Dimension(*rim, said(rim[1][0] - rim[0][0], ruler), "tail")]
    gaps = [(left[2], right[0]) for left, right in pairwise(boards)]
    if gaps and len({round(high - low, 2) for low, high in gaps}) == 1:
        low, high = gaps[0] if from_right else gaps[-1]
        found.append(Dimension((low, y1), (high, y1), said(high - low, ruler), "tail"))
    return tuple(found)
