"""The picture of a step, computed from the states before and after it: which kind of picture shows which kind of step."""

from creasewright.booklet.closing_pictures import making, tying
from creasewright.booklet.fold_pictures import creasing, folding
from creasewright.booklet.insert_pictures import inserting
from creasewright.booklet.join_pictures import joining
from creasewright.booklet.sewing_pictures import sewing_picture
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.solid_sides import with_side
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.booklet.turn_in_pictures import turning_in
from creasewright.booklet.turn_pictures import turning
from creasewright.joining.run_step import StepRun
from creasewright.reading import design


def step_picture(run: StepRun, parts: ShownParts) -> StepPicture:
    """Raises nothing: a step that could not be made is shown as it lay before it."""
    return with_side(drawn_step(run, parts), run.after)


def drawn_step(run: StepRun, parts: ShownParts) -> StepPicture:
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
    if isinstance(action, design.TurnIn):
        return turning_in(run, parts)
    if isinstance(action, design.Insert):
        return inserting(run, parts)
    if isinstance(action, design.Tie):
        return tying(run, parts)
    if isinstance(action, design.Sew):
        return sewing_picture(run, parts)
    if isinstance(action, design.Make):
        return making(run, parts)
    return as_it_lies(run.after, run.parts or tuple(run.after.blanks)[:1], parts)
