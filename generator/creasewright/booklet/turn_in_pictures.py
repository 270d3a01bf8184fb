"""Pictures of turning in: the cover with its boards on it, the rim hatched for adhesive, an arrow and a number for each side.

The numbers are the order in which the sides go down.
"""

from creasewright.booklet.diagrams.plan_facets import lies_flat, plan_facets
from creasewright.booklet.diagrams.scene import FoldArrow, Named, PlanScene
from creasewright.booklet.fold_pictures import fold_arrow
from creasewright.booklet.join_pictures import glue_mark, new_glue
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, as_it_lies, side_up
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body, PanelKey
from creasewright.joining.run_step import StepRun
from creasewright.joining.turning_in import SIDES


def turning_in(run: StepRun, parts: ShownParts) -> StepPicture:
    body = run.before.body_of(run.parts[0])
    if not lies_flat(run.before, body):
        return as_it_lies(run.after, run.parts, parts)
    facets = plan_facets(run.before, body, parts, targets=run.targets, moving=frozenset(run.panels))
    widest = [widest_of_side(run, side) for side in SIDES]
    scene = PlanScene(
        facets,
        glue=tuple(glue_mark(run.before, body, area, area.panel, hidden=False) for area in new_glue(run)),
        fold_arrows=tuple(arrow for panel in widest for arrow in arrow_of(run, body, panel)),
        names=tuple(Named(str(number), seen_corners(run.before, panel, body.view)) for number, panel in enumerate(widest, 1)),
    )
    return StepPicture(scene, None, side_up(run.before, facets, run.parts))


def widest_of_side(run: StepRun, side: str) -> PanelKey:
    mine = [panel for panel in run.panels if panel[0] == run.parts[0] and panel[1].startswith(f"{side} turn-in")]
    return max(mine, key=lambda panel: round(run.before.blanks[panel[0]].panel(panel[1]).area, 1))


def arrow_of(run: StepRun, body: Body, panel: PanelKey) -> list[FoldArrow]:
    """The arrow of a turn-in over its own score to the board."""
    for piece in run.before.blanks[panel[0]].pieces:
        key = (panel[0], piece.name)
        boards = {place.panel for wrap in [run.before.blanks[panel[0]].wrap] if wrap is not None for place in wrap.boards}
        if key in run.targets and panel[1] in (piece.first, piece.second) and boards & {piece.first, piece.second}:
            return [fold_arrow(run, body, panel, key)]
    return []
