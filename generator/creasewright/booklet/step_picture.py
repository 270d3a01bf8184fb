"""The picture of a step, computed from the states before and after it: what lies there, what moves, where glue goes, what it measures."""

from math import atan2, degrees

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.plan_facets import facet_of, flat_order, lies_flat, plan_facets, seen_spot, view_of
from creasewright.booklet.diagrams.scene import (
    Action,
    Dimension,
    Facet,
    FoldArrow,
    GlueMark,
    Named,
    PlanScene,
    Polygon2,
    SlideArrow,
    SpaceScene,
    Spot,
    Spot3,
)
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.shown_parts import ShownParts
from creasewright.folding.fold_once import FoldRefused
from creasewright.folding.fold_scores import Targets, fold_scores, piece_of
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.panel_graph import links
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, GlueArea, PanelKey, State, front_normal
from creasewright.folding.transforms import spread
from creasewright.geometry.clip import area as polygon_area
from creasewright.geometry.clip import clockwise as clockwise_polygon
from creasewright.geometry.clip import difference
from creasewright.geometry.rigid_transform import LIKE_A_PAGE, Matrix, apply, minus, norm, rotate, same_place, times
from creasewright.joining.compass import box
from creasewright.joining.girth import hull, section
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import Ruler, as_set, mark_in_words

MOST_ARROWS = 4
SAME = 0.05


class StepPicture(Struct, frozen=True):
    """One of `plan` and `space` is given."""

    plan: PlanScene | None
    space: SpaceScene | None
    up: tuple[str, str]
    """Paper name and side (`front`, `back`) that are up, of the panel that shows most; empty for a standing thing."""
    marks: tuple[Action, ...] = ()
    """Beside the step's number."""
    flipped: bool = False
    """Shown turned over, because what the step does is on the other side; it is turned back after it."""


def said(mm: float, ruler: Ruler) -> str:
    return as_set(mark_in_words(mm, ruler).text)


def step_picture(run: StepRun, parts: ShownParts) -> StepPicture:
    """Raises nothing: a step that could not be made is shown as it lay before it."""
    action = run.written.action
    if run.refused is not None:
        return as_it_lies(run.before, run.parts[:1] or tuple(run.before.blanks)[:1], parts)
    if isinstance(action, design.Fold):
        return folding(run, parts)
    if isinstance(action, design.Unfold | design.Crease):
        return creasing(run, parts)
    if isinstance(action, design.Lay | design.TurnOver | design.Turn):
        return turning(run, parts)
    if isinstance(action, design.Join):
        return joining(run, parts)
    if isinstance(action, design.Insert):
        return inserting(run, parts)
    if isinstance(action, design.Tie):
        return tying(run, parts)
    if isinstance(action, design.Make):
        return making(run, parts)
    return as_it_lies(run.after, run.parts or tuple(run.after.blanks)[:1], parts)


# --- views ------------------------------------------------------------------------------------------------------------


def as_it_lies(state: State, paths: tuple[str, ...], parts: ShownParts) -> StepPicture:
    if not paths:
        return StepPicture(PlanScene(()), None, ("", ""))
    body = state.body_of(paths[0])
    if not lies_flat(state, body):
        return StepPicture(None, SpaceScene(space_facets(state, body, parts)), ("", ""))
    facets = plan_facets(state, body, parts)
    return StepPicture(PlanScene(facets), None, side_up(state, facets))


def side_up(state: State, facets: tuple[Facet, ...], focus: tuple[str, ...] = ()) -> tuple[str, str]:
    """The paper and side of the largest panel that lies there, of the parts in `focus` if they are among them."""
    lying = [facet for facet in facets if facet.letter and not facet.lifted]
    shown = [facet for facet in lying if facet.part in focus] or lying
    if not shown:
        return ("", "")
    best = max(shown, key=lambda facet: round(state.blanks[facet.part].panel(facet.panel).area, 1))
    return (state.blanks[best.part].paper, best.side)


# --- folds ------------------------------------------------------------------------------------------------------------


def folding(run: StepRun, parts: ShownParts) -> StepPicture:
    body = run.before.body_of(run.parts[0])
    after = run.after.body_of(run.parts[0])
    if not lies_flat(run.before, body) or any(1 < abs(a) < 179 for a in run.targets.values()):
        path = swing_path(run, after)
        return StepPicture(None, SpaceScene(space_facets(run.after, after, parts), (path,) if path else ()), ("", ""))
    movers = moving_panels(run)
    facets = plan_facets(run.before, body, parts, targets=run.targets, moving=frozenset(movers))
    arrows = tuple(fold_arrow(run, body, panel, key) for panel, key in movers.items())[:MOST_ARROWS]
    dims = fold_dimensions(run, body, movers, parts.worked.ruler) if len(movers) <= 2 and len(run.targets) <= 4 else ()
    named = flat_order(run.before, body) if len(run.targets) > 4 else list(movers)[:2] if len(movers) <= 2 else []
    names = tuple(Named(panel[1], seen_corners(run.before, panel, body.view)) for panel in named)
    scene = PlanScene(facets, fold_arrows=arrows if len(run.targets) <= 6 else (), dimensions=dims, names=names)
    return StepPicture(scene, None, side_up(run.before, facets, run.parts))


def moving_panels(run: StepRun) -> dict[PanelKey, tuple[str, str]]:
    """Panels beside a score of this step that end elsewhere, each with that score; copies that go along are left out."""
    found: dict[PanelKey, tuple[str, str]] = {}
    for key in run.targets:
        if run.after.blanks[key[0]].source is not None:
            continue
        piece = piece_of(run.before, key)
        ends = [(key[0], piece.first), (key[0], piece.second)]
        gone = [end for end in ends if not same_place(run.before.placed[end], run.after.placed[end])]
        if len(gone) == 1:
            found[gone[0]] = key
    return found


def middle_of(polygon: Polygon2) -> Spot:
    b = box([polygon])
    return (b[0] + b[2]) / 2, (b[1] + b[3]) / 2


def flat_middle(state: State, panel: PanelKey) -> Spot:
    return middle_of(state.blanks[panel[0]].panel(panel[1]).polygon)


def fold_arrow(run: StepRun, body: Body, panel: PanelKey, key: tuple[str, str]) -> FoldArrow:
    """From three quarters of the flap's depth to where that place lands."""
    flat = far_spot(run.before, panel, key)
    start = seen_spot(view_of(run.before, panel, body.view), flat)
    end = seen_spot(view_of(run.after, panel, body.view), flat)
    front = rotate(body.view, front_normal(run.before.placed[panel]))[2] < 0
    kind = "front" if (run.targets[key] > 0) == front else "behind"
    return FoldArrow(start, end, kind)


def far_spot(state: State, panel: PanelKey, key: tuple[str, str]) -> Spot:
    """In the panel's flat frame: half as far again from the score as the panel's middle."""
    piece = piece_of(state, key)
    (ax, ay), (bx, by) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
    mx, my = flat_middle(state, panel)
    t = ((mx - ax) * (bx - ax) + (my - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)
    foot = (ax + (bx - ax) * t, ay + (by - ay) * t)
    return (foot[0] + (mx - foot[0]) * 1.5, foot[1] + (my - foot[1]) * 1.5)


def swing_path(run: StepRun, body: Body) -> tuple[Spot3, ...]:
    """The way of the panel that goes farthest, all scores turning together, as seen in the view after the step."""
    moved_keys = [
        key for key, placed in run.after.placed.items() if key[0] in body.parts and not same_place(run.before.placed[key], placed)
    ]
    still = [key for key in run.after.placed if key[0] in body.parts and key not in moved_keys]
    if not moved_keys or not still:
        return ()

    def gone(key: PanelKey) -> float:
        spot = (*flat_middle(run.after, key), 0.0)
        return norm(minus(apply(run.after.placed[key], spot), apply(run.before.placed[key], spot)))

    far = max(moved_keys, key=gone)
    all_links = list(links(run.after, body.parts))
    path = []
    for k in range(13):
        angles = {**run.before.angles}
        for key, angle in run.targets.items():
            start = run.before.angles.get(key, 0.0)
            angles[key] = start + (angle - start) * k / 12
        placed, _ = spread(run.after, still[0], all_links, angles)
        path.append(rotate(body.view, apply(placed[far], (*flat_middle(run.after, far), 0.0))))
    return tuple(path)


def fold_dimensions(run: StepRun, body: Body, movers: dict[PanelKey, tuple[str, str]], ruler: Ruler) -> tuple[Dimension, ...]:
    """How deep the flap is, from its score, where that runs straight up or across."""
    found = []
    for panel, key in movers.items():
        piece = piece_of(run.before, key)
        to_view = view_of(run.before, panel, body.view)
        a, b = (seen_spot(to_view, (float(p.x), float(p.y))) for p in (piece.start, piece.end))
        x0, y0, x1, y1 = box([seen_corners(run.before, panel, body.view)])
        if abs(a[0] - b[0]) < SAME:
            found.append(Dimension((x0, y1), (x1, y1), said(x1 - x0, ruler), "tail"))
        elif abs(a[1] - b[1]) < SAME:
            found.append(Dimension((x1, y0), (x1, y1), said(y1 - y0, ruler), "right"))
    return tuple(found[:2])


def creasing(run: StepRun, parts: ShownParts) -> StepPicture:
    """Fold and open: the arrow runs both ways. An unfolding is shown as it lay before."""
    body = run.before.body_of(run.parts[0])
    if not lies_flat(run.before, body):
        return as_it_lies(run.after, run.parts, parts)
    if isinstance(run.written.action, design.Unfold):
        movers = moving_panels(run)
        facets = plan_facets(run.before, body, parts, moving=frozenset(movers))
        arrows = [fold_arrow(run, body, panel, key) for panel, key in movers.items()]
        opened = tuple(replace(arrow, kind="open") for arrow in arrows[:MOST_ARROWS])
        return StepPicture(PlanScene(facets, fold_arrows=opened), None, side_up(run.before, facets, run.parts))
    facets = plan_facets(run.before, body, parts, targets=run.targets)
    scores: dict[str, FoldArrow] = {}
    for key in run.targets:
        piece = piece_of(run.before, key)
        if piece.score not in scores:
            scores[piece.score] = crease_arrow(run.before, body, key)
    return StepPicture(PlanScene(facets, fold_arrows=tuple(scores.values())[:MOST_ARROWS]), None, side_up(run.before, facets, run.parts))


def crease_arrow(state: State, body: Body, key: tuple[str, str]) -> FoldArrow:
    piece = piece_of(state, key)
    panel = (key[0], piece.first)
    flat = far_spot(state, panel, key)
    (ax, ay), (bx, by) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
    t = ((flat[0] - ax) * (bx - ax) + (flat[1] - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)
    foot = (ax + (bx - ax) * t, ay + (by - ay) * t)
    to_view = view_of(state, panel, body.view)
    mirror = (2 * foot[0] - flat[0], 2 * foot[1] - flat[1])
    return FoldArrow(seen_spot(to_view, flat), seen_spot(to_view, mirror), "crease")


# --- turning ----------------------------------------------------------------------------------------------------------


def turning(run: StepRun, parts: ShownParts) -> StepPicture:
    """The work as it lies now. What is laid there for the first time was not turned by the reader, so it bears no marks."""
    before = run.before.body_of(run.parts[0]) if run.parts[0] in run.before.blanks else None
    after = run.after.body_of(run.parts[0])
    picture = as_it_lies(run.after, run.parts, parts)
    fresh = before is None or (len(before.parts) == 1 and not run.before.creased and isinstance(run.written.action, design.Lay))
    marks = () if fresh else turn_marks(before.view if before is not None else None, after.view)
    if picture.plan is not None:
        named = panel_names(run.after, after) if len(after.parts) == 1 else edge_names(picture.plan.facets)
        picture = replace(picture, plan=replace(picture.plan, names=named))
    return replace(picture, marks=marks)


def panel_names(state: State, body: Body) -> tuple[Named, ...]:
    keys = flat_order(state, body)
    return tuple(Named(key[1], seen_corners(state, key, body.view)) for key in keys) if 1 < len(keys) <= 10 else ()


def turn_marks(before: Matrix | None, after: Matrix) -> tuple[Action, ...]:
    """What the hand did between two views: over like a page, and round by an angle."""
    start = before if before is not None else (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)
    change = times(after, (start[0], start[3], start[6], start[1], start[4], start[7], start[2], start[5], start[8]))
    if abs(change[8]) < 0.9:
        return ()
    marks = []
    if change[8] < 0:
        marks.append(Action("turn over page"))
        change = times(change, LIKE_A_PAGE)
    angle = round(clockwise(change))
    if angle % 360:
        left = angle % 360 > 180
        marks.append(Action("turn left" if left else "turn", f"{360 - angle % 360 if left else angle % 360}°"))
    return tuple(marks)


def clockwise(turn: Matrix) -> float:
    return degrees(atan2(turn[3], turn[0]))


def edge_names(facets: tuple[Facet, ...]) -> tuple[Named, ...]:
    x0, y0, x1, y1 = box([facet.polygon for facet in facets])
    outline = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return (Named("top", outline, "head"), Named("bottom", outline, "tail"))


# --- joins ------------------------------------------------------------------------------------------------------------


def new_glue(run: StepRun) -> tuple[GlueArea, ...]:
    return run.after.glue[len(run.before.glue) :]


def joining(run: StepRun, parts: ShownParts) -> StepPicture:
    first = run.parts[0]
    action = run.written.action
    assert isinstance(action, design.Join)
    before = run.before.body_of(first)
    targets = [area.onto[0] for area in new_glue(run)] or [b.first[0] for b in run.after.bonds[len(run.before.bonds) :]]
    if targets and targets[0] in before.parts and targets[0] in run.before.blanks:
        return holding(run, parts)
    return laying_on(run, parts, run.before.body_of(targets[0]) if targets else before)


def holding(run: StepRun, parts: ShownParts) -> StepPicture:
    """A flap that is already folded: shown open, the adhesive on it, and the way it closes again."""
    body = run.before.body_of(run.parts[0])
    opened = opened_flaps(run, body)
    if opened is None or not lies_flat(run.before, body):
        facets = plan_facets(run.before, body, parts)
        glue = tuple(glue_mark(run.after, body, area, area.panel, hidden=True) for area in new_glue(run))
        return StepPicture(PlanScene(facets, glue=glue), None, side_up(run.before, facets, run.parts))
    state, closing = opened
    view = state.body_of(run.parts[0])
    flipped = not any(shows(state, view, area) for area in new_glue(run))
    if flipped:
        view = replace(view, view=times(LIKE_A_PAGE, view.view))
    facets = plan_facets(state, view, parts, targets=closing, moving=frozenset(run.panels))
    glue = tuple(glue_mark(state, view, area, area.panel, hidden=not shows(state, view, area)) for area in new_glue(run))
    again = replace(run, before=state, after=run.before, targets=closing)
    arrows = tuple(fold_arrow(again, view, panel, key) for panel, key in moving_panels(again).items())[:2]
    dims = glue_dimensions(state, view, new_glue(run)[:1], parts.worked.ruler)
    scene = PlanScene(facets, glue=glue, fold_arrows=arrows, dimensions=dims)
    marks = (Action("turn over page"),) if flipped else ()
    return StepPicture(scene, None, side_up(state, facets, run.parts), marks, flipped)


def opened_flaps(run: StepRun, body: Body) -> tuple[State, Targets] | None:
    """The state with the glued panels folded open at their own scores, and the angles that close them again."""
    closing: Targets = {}
    for panel in run.panels:
        for piece in run.before.blanks[panel[0]].pieces:
            key = (panel[0], piece.name)
            if panel[1] in (piece.first, piece.second) and abs(run.before.angles.get(key, 0.0)) > 179:
                closing[key] = run.before.angles[key]
    if not closing:
        return None
    try:
        return fold_scores(run.before, dict.fromkeys(closing, 0.0)), closing
    except FoldRefused:
        return None


def shows(state: State, body: Body, area: GlueArea) -> bool:
    """Whether the side that carries the adhesive is up."""
    front = rotate(body.view, front_normal(state.placed[area.panel]))[2] < 0
    return front == (area.side == "front")


def glue_mark(state: State, body: Body, area: GlueArea, panel: PanelKey, hidden: bool, shift: Spot = (0.0, 0.0)) -> GlueMark:
    to_view = view_of(state, panel, body.view, shift)
    return GlueMark(tuple(seen_spot(to_view, spot) for spot in area.polygon), hidden)


def glue_dimensions(state: State, body: Body, areas: tuple[GlueArea, ...], ruler: Ruler) -> tuple[Dimension, ...]:
    """The width of a strip and how far it stands back from the nearest edge, where it runs straight up or across."""
    for area in areas:
        if not area.width:
            continue
        gx0, gy0, gx1, gy1 = box([glue_mark(state, body, area, area.panel, False).polygon])
        x0, y0, x1, y1 = box([seen_corners(state, area.panel, body.view)])
        shape = glue_mark(state, body, area, area.panel, False).polygon
        if abs(polygon_area(shape)) < 0.8 * (gx1 - gx0) * (gy1 - gy0):
            continue
        width, back = said(area.width, ruler), said(area.setback, ruler)
        if gx1 - gx0 > gy1 - gy0:
            x = (gx0 + gx1) / 2
            edge, near, far = (y1, gy1, gy0) if y1 - gy1 < gy0 - y0 else (y0, gy0, gy1)
            return (Dimension((x, far), (x, near), width, "inside"), Dimension((x, near), (x, edge), back, "inside"))
        y = (gy0 + gy1) / 2
        edge, near, far = (x1, gx1, gx0) if x1 - gx1 < gx0 - x0 else (x0, gx0, gx1)
        return (Dimension((far, y), (near, y), width, "inside"), Dimension((near, y), (edge, y), back, "inside"))
    return ()


def laying_on(run: StepRun, parts: ShownParts, target: Body) -> StepPicture:
    """A part on its way to its place: held beside it, with the way it goes, where it lands and where the glue is."""
    after = run.after.body_of(run.parts[0])
    thing = frozenset(part for part in after.parts if part not in target.parts)
    if not lies_flat(run.after, after):
        return as_it_lies(run.after, run.parts, parts)
    still = tuple(
        facet_of(run.after, after, key, parts, {}, False, False, (0.0, 0.0))
        for key in flat_order(run.after, after) if key[0] not in thing
    )  # fmt: skip
    keys = [key for key in flat_order(run.after, after) if key[0] in thing]
    landed = [seen_corners(run.after, key, after.view) for key in keys]
    shift = way_in(landed, [facet.polygon for facet in still])
    lifted = tuple(facet_of(run.after, after, key, parts, {}, True, True, shift) for key in keys)
    above = [clockwise_polygon(facet.polygon) for facet in lifted]
    glue = tuple(
        GlueMark(piece)
        for area in new_glue(run)
        for piece in difference([clockwise_polygon(glue_mark(run.after, after, area, area.panel, False).polygon)], above)
        if polygon_area(piece) > 2.0
    )
    spot = middle_of(landed[-1])
    slides = (SlideArrow((spot[0] + shift[0], spot[1] + shift[1]), spot),)
    touching = [bond.second for bond in run.after.bonds[len(run.before.bonds) :]]
    contact = tuple(seen_corners(run.after, key, after.view) for key in keys if key in touching)
    dims = place_dimensions(run, after, parts.worked.ruler, contact)
    scene = PlanScene((*still, *lifted), glue=glue, slides=slides, landing=contact, dimensions=dims)
    return StepPicture(scene, None, side_up(run.after, still))


def way_in(landed: list[Polygon2], still: list[Polygon2]) -> Spot:
    """Aside, away from the middle of what stays: far enough that most of the landing place is seen."""
    x0, y0, x1, y1 = box(landed)
    sx0, _, sx1, _ = box(still)
    dx = (x0 + x1) / 2 - (sx0 + sx1) / 2
    side = 1.0 if dx >= -1.0 else -1.0
    return (side * 0.6 * (x1 - x0), -0.45 * (y1 - y0))


def place_dimensions(run: StepRun, body: Body, ruler: Ruler, contact: tuple[Polygon2, ...]) -> tuple[Dimension, ...]:
    """How far in from the target's edges the part lies, where that is not nothing."""
    bonds = run.after.bonds[len(run.before.bonds) :]
    if not bonds or not contact:
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


def inserting(run: StepRun, parts: ShownParts) -> StepPicture:
    """The insert outside the opening, on its way in: above the work, or behind it where its pocket is behind."""
    body = run.after.body_of(run.parts[0])
    order = flat_order(run.after, body)
    keys = [key for key in order if key[0] in run.parts]
    landed = [seen_corners(run.after, key, body.view) for key in keys]
    shift = out_of_mouth(run, body, landed)
    behind = goes_behind(run)
    facets = {
        key: facet_of(run.after, body, key, parts, {}, key in keys, key in keys and not behind, shift if key in keys else (0.0, 0.0))
        for key in order
    }
    drawn = order if behind else [key for key in order if key not in keys] + keys
    spot = middle_of(landed[0])
    share = 0.55 if behind else 0.0
    end = (spot[0] + shift[0] * share, spot[1] + shift[1] * share)
    names = tuple(
        Named(parts.name(key[0]), moved_polygon(place, shift)) for key, place in zip(keys, landed, strict=True) if not parts.letter(key[0])
    )
    scene = PlanScene(
        tuple(facets[key] for key in drawn),
        slides=(SlideArrow((spot[0] + shift[0], spot[1] + shift[1]), end),),
        landing=tuple(landed),
        names=names,
    )
    still = tuple(facets[key] for key in order if key not in keys)
    return StepPicture(scene, None, side_up(run.after, still))


def goes_behind(run: StepRun) -> bool:
    """Whether the insert lies under the panel behind its pocket, as the maker sees it."""
    if len(run.after.fits) == len(run.before.fits):
        return False
    pocket = run.after.pockets.get(run.after.fits[-1].pocket)
    if pocket is None:
        return False
    order = flat_order(run.after, run.after.body_of(run.parts[0]))
    thing = next((k for k, key in enumerate(order) if key[0] == run.parts[0]), 0)
    return pocket.back in order and thing < order.index(pocket.back)


def moved_polygon(polygon: Polygon2, shift: Spot) -> Polygon2:
    return tuple((x + shift[0], y + shift[1]) for x, y in polygon)


def out_of_mouth(run: StepRun, body: Body, landed: list[Polygon2]) -> Spot:
    """The way out of the pocket's open side, as seen now; upwards first, where it is open there."""
    x0, y0, x1, y1 = box(landed)
    fit = run.after.fits[-1] if len(run.after.fits) > len(run.before.fits) else None
    pocket = run.after.pockets.get(fit.pocket) if fit is not None else None
    if pocket is None:
        return (0.0, -0.6 * (y1 - y0))
    placed = run.after.placed[pocket.back]
    ways = {"right": pocket.rightwards, "tail": pocket.tailwards}
    ways |= {"left": (-pocket.rightwards[0], -pocket.rightwards[1]), "head": (-pocket.tailwards[0], -pocket.tailwards[1])}
    seen = []
    for side in pocket.open:
        v = rotate(body.view, rotate(placed.turn, (*ways[side], 0.0)))
        seen.append((v[0], v[1]))
    best = min(seen, key=lambda v: (round(v[1], 2), -abs(v[0]))) if seen else (0.0, -1.0)
    return (best[0] * 0.75 * (x1 - x0), best[1] * 0.75 * (y1 - y0))


# --- the rest ---------------------------------------------------------------------------------------------------------


def tying(run: StepRun, parts: ShownParts) -> StepPicture:
    """The closed thing with its ribbon."""
    body = run.after.body_of(run.parts[0])
    closure = run.after.closures[-1]
    line = tie_line(run.after, body, closure.across, closure.at)
    width = parts.worked.materials[closure.material].width if closure.material in parts.worked.materials else 0.0
    scene = SpaceScene(space_facets(run.after, body, parts), ties=(line,), tie_width=width)
    return StepPicture(None, scene, ("", ""))


def tie_line(state: State, body: Body, across_: str, at: float) -> tuple[tuple[float, float, float], ...]:
    """The closed line that a ribbon takes round the thing, a hair outside, in the view."""
    low, _ = extents(state, body)
    start = low[1] if across_ == "width" else low[0]
    outline = hull(section(state, body, across_, start + at))
    grown = [outside(spot, outline) for spot in outline]
    if across_ == "width":
        return tuple((x, start + at, z) for x, z in grown)
    return tuple((start + at, y, z) for y, z in grown)


def outside(spot: Spot, outline: list[Spot]) -> Spot:
    mx = sum(x for x, _ in outline) / len(outline)
    mz = sum(z for _, z in outline) / len(outline)
    return (spot[0] + (0.3 if spot[0] > mx else -0.3), spot[1] + (0.3 if spot[1] > mz else -0.3))


def making(run: StepRun, parts: ShownParts) -> StepPicture:
    """Flat pieces before the operation's result matters: the first of them, flat, front up; the others by their letters."""
    picture = as_it_lies(run.after, run.parts[:1], parts)
    letters = tuple(dict.fromkeys(parts.letter(part) for part in run.parts[1:]))
    own = parts.letter(run.parts[0]) if run.parts else ""
    others = [letter for letter in letters if letter and letter != own]
    if picture.plan is not None and run.written.action.verb == "cut":  # type: ignore[union-attr]
        edges = [edge for facet in picture.plan.facets for edge in facet.edges if edge.kind == "slit"]
        names = tuple(Named("cut here", line_box(edge.start, edge.end)) for edge in edges[:1])
        picture = replace(picture, plan=replace(picture.plan, names=names))
    if picture.plan is not None and others:
        picture = replace(picture, plan=replace(picture.plan, actions=(Action("repeat", " ".join(others)),)))
    return picture


def line_box(a: Spot, b: Spot) -> Polygon2:
    """A narrow box about a line, for a name that belongs to it."""
    x0, y0, x1, y1 = min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])
    return ((x0 - 0.5, y0 - 0.5), (x1 + 0.5, y0 - 0.5), (x1 + 0.5, y1 + 0.5), (x0 - 0.5, y1 + 0.5))
