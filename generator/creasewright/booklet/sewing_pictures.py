"""Pictures of sewing: the open work with its holes numbered from the head, and the way of the thread."""

from itertools import pairwise

from msgspec.structs import replace

from creasewright.booklet.diagrams.plan_facets import seen_spot, view_of
from creasewright.booklet.diagrams.scene import Prick, Spot, Stitch
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.state import Sewing
from creasewright.joining.run_step import StepRun


def sewing_picture(run: StepRun, parts: ShownParts) -> StepPicture:
    sewing = run.after.sewings[-1]
    picture = as_it_lies(run.after, (sewing.line[0],), parts)
    if picture.plan is None:
        return picture
    spots = holes_in_view(run, sewing)
    pricks = tuple(Prick(spot, str(number)) for number, spot in enumerate(spots, start=1))
    outside_first = sewing.begins == "inside"
    stitches = tuple(
        Stitch(spots[a - 1], spots[b - 1], hidden=(number % 2 == 0) == outside_first)
        for number, (a, b) in enumerate(pairwise(sewing.order))
    )
    return replace(picture, plan=replace(picture.plan, pricks=pricks, stitches=stitches))


def holes_in_view(run: StepRun, sewing: Sewing) -> list[Spot]:
    part, _ = sewing.line
    panel = (part, piece_of(run.after, sewing.line).first)
    to_view = view_of(run.after, panel, run.after.body_of(part).view)
    return [seen_spot(to_view, spot) for other, spot in sewing.pricks if other == part]
