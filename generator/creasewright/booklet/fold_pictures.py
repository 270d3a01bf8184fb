"""Pictures of folds: the lines, what moves, and the way it goes."""

from math import dist

from msgspec.structs import replace

from creasewright.blanks.blank import ScorePiece
from creasewright.booklet.bent_pictures import ear_path
from creasewright.booklet.diagrams.plan_facets import flat_order, lies_flat, plan_facets, seen_spot, view_of
from creasewright.booklet.diagrams.scene import (
    Dimension,
    FoldArrow,
    Named,
    PlanScene,
    SpaceScene,
    Spot,
)
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.diagrams.visible_lines import spans
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.space_pictures import space_closing, space_folding
from creasewright.booklet.step_views import StepPicture, as_it_lies, flat_middle, said, side_up
from creasewright.folding.fold_scores import area_of, piece_of
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.edges import edge_middle
from creasewright.geometry.rigid_transform import same_place
from creasewright.joining.compass import box, faces_maker
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import Ruler

MOST_ARROWS = 4
MOST_LINES = 6
"""Of a step whose arrows are drawn."""
MOST_NAMES = 10
"""Panels: more names than this would hide the picture."""
SAME = 0.05
FAR = 0.75
"""Of a flap's depth: where its arrow begins."""


def folding(run: StepRun, parts: ShownParts) -> StepPicture:
    body = run.before.body_of(run.parts[0])
    after = run.after.body_of(run.parts[0])
    if run.after.curved != run.before.curved:
        ears = [key for key in run.after.curved if run.after.curved[key] != run.before.curved.get(key)]
        path = ear_path(run.after, after, ears)
        return StepPicture(None, SpaceScene(space_facets(run.after, after, parts), (path,) if path else ()), ("", ""))
    if not lies_flat(run.before, body) or not lies_flat(run.after, after) or any(1 < abs(a) < 179 for a in run.targets.values()):
        stands = not lies_flat(run.after, after) or lies_flat(run.before, body)
        return space_folding(run, after, parts) if stands else space_closing(run, body, parts)
    moving = moving_panels(run)
    facets = plan_facets(run.before, body, parts, targets=run.targets, moving=frozenset(moving))
    movers = {panel: moving[panel] for panel in seen_once(run.before, body, list(moving))}
    arrows = tuple(fold_arrow(run, body, panel, key) for panel, key in one_a_line(run, movers).items())[:MOST_ARROWS]
    folds = len({(run.before.blanks[part].name, name) for part, name in run.targets})
    dims = fold_dimensions(run, body, movers, parts.worked.ruler) if len(movers) <= 2 and folds <= 4 else ()
    every = seen_once(run.before, body, flat_order(run.before, body))
    named = (every if len(every) <= MOST_NAMES else []) if folds > 4 else list(movers)[:2] if len(movers) <= 2 else []
    told = seen_once(run.before, body, named)
    names = tuple(Named(parts.panel_name(panel[1]), seen_corners(run.before, panel, body.view)) for panel in told)
    scene = PlanScene(facets, fold_arrows=arrows if len(lines_of(run)) <= MOST_LINES else (), dimensions=dims, names=names)
    return StepPicture(scene, None, side_up(run.before, facets, run.parts))


def seen_once(state: State, body: Body, panels: list[PanelKey]) -> list[PanelKey]:
    """Of panels of one name that lie on each other (leaves in a pile) only the first: one arrow and one name stand for all."""
    found: dict[tuple[object, ...], PanelKey] = {}
    for panel in panels:
        lies = box([seen_corners(state, panel, body.view)])
        found.setdefault((panel[1], *(round(value, 1) for value in lies)), panel)
    return list(found.values())


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


def lines_of(run: StepRun) -> set[tuple[str, str]]:
    """The scores that fold, whole lines counted once."""
    return {(key[0], piece_of(run.before, key).score) for key in run.targets}


def one_a_line(run: StepRun, movers: dict[PanelKey, tuple[str, str]]) -> dict[PanelKey, tuple[str, str]]:
    """Of the panels that one score moves, the largest; in the order given."""
    best: dict[tuple[str, str], PanelKey] = {}
    for panel, key in movers.items():
        line = (key[0], piece_of(run.before, key).score)
        if line not in best or area_of(run.before, panel) > area_of(run.before, best[line]):
            best[line] = panel
    return {panel: movers[panel] for panel in best.values()}


def fold_arrow(run: StepRun, body: Body, panel: PanelKey, key: tuple[str, str]) -> FoldArrow:
    """From three quarters of the flap's depth to where that place lands."""
    flat = far_spot(run.before, panel, key)
    start = seen_spot(view_of(run.before, panel, body.view), flat)
    end = seen_spot(view_of(run.after, panel, body.view), flat)
    front = faces_maker(front_normal(run.before.placed[panel]), body)
    kind = "front" if (run.targets[key] > 0) == front else "behind"
    return FoldArrow(start, end, kind)


def far_spot(state: State, panel: PanelKey, key: tuple[str, str]) -> Spot:
    """In the panel's flat frame: at three quarters of its depth from the score, in the middle of its breadth there."""
    piece = piece_of(state, key)
    if piece.arc is not None:
        mx, my = flat_middle(state, panel)
        foot = foot_on(piece, (mx, my))
        return (foot[0] + (mx - foot[0]) * 1.5, foot[1] + (my - foot[1]) * 1.5)
    (ax, ay), (bx, by) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
    size = dist((ax, ay), (bx, by))
    ux, uy = (bx - ax) / size, (by - ay) / size
    offs = [(x - ax, y - ay) for x, y in state.blanks[panel[0]].panel(panel[1]).polygon]
    ring = [(x * ux + y * uy, y * ux - x * uy) for x, y in offs]
    level = FAR * max((off for _, off in ring), key=abs)
    left, right = max(spans((ring,), level), key=lambda span: round(span[1] - span[0], 3))
    along = (left + right) / 2
    return ax + along * ux - level * uy, ay + along * uy + level * ux


def foot_on(piece: ScorePiece, spot: Spot) -> Spot:
    """The foot of a place on a score; of a curved one its middle."""
    if piece.arc is not None:
        x, y = edge_middle(piece.arc)
        return float(x), float(y)
    (ax, ay), (bx, by) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
    t = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)
    return ax + (bx - ax) * t, ay + (by - ay) * t


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
        arrows = [fold_arrow(run, body, panel, movers[panel]) for panel in seen_once(run.before, body, list(movers))]
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
    if piece.arc is not None:
        panel = min(((key[0], name) for name in (piece.first, piece.second)), key=lambda p: state.blanks[p[0]].panel(p[1]).area)
    flat = far_spot(state, panel, key)
    foot = foot_on(piece, flat)
    to_view = view_of(state, panel, body.view)
    mirror = (2 * foot[0] - flat[0], 2 * foot[1] - flat[1])
    return FoldArrow(seen_spot(to_view, flat), seen_spot(to_view, mirror), "crease")
