"""Pictures of the work laid and turned: what is up now, and what the hand did to get it there."""

from math import atan2, degrees

from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.booklet.diagrams.plan_facets import flat_order
from creasewright.booklet.diagrams.scene import (
    Action,
    Facet,
    Named,
)
from creasewright.booklet.panel_groups import holds, stem
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body, State
from creasewright.geometry.rigid_transform import LIKE_A_PAGE, Matrix, times
from creasewright.joining.compass import box
from creasewright.joining.run_step import StepRun
from creasewright.reading import design


def turning(run: StepRun, parts: ShownParts) -> StepPicture:
    """The work as it lies now. What is laid there for the first time was not turned by the reader, so it bears no marks."""
    before = run.before.body_of(run.parts[0]) if run.parts[0] in run.before.blanks else None
    after = run.after.body_of(run.parts[0])
    picture = as_it_lies(run.after, run.parts, parts)
    fresh = before is None or (len(before.parts) == 1 and not run.before.creased and isinstance(run.written.action, design.Lay))
    marks = () if fresh else turn_marks(before.view if before is not None else None, after.view)
    if picture.plan is not None:
        named = panel_names(run.after, after, parts) if len(after.parts) == 1 else edge_names(picture.plan.facets)
        picture = replace(picture, plan=replace(picture.plan, names=named))
    return replace(picture, marks=marks)


MOST_NAMES = 8


def panel_names(state: State, body: Body, parts: ShownParts) -> tuple[Named, ...]:
    """Every panel by its name; where there are many, one of each kind, or each band once."""
    keys = flat_order(state, body)
    if len(keys) < 2:
        return ()
    names = {key: key[1] for key in keys}
    if len(keys) > MOST_NAMES:
        blank = state.blanks[keys[0][0]]
        names = {(keys[0][0], panel): name for panel, name in few_names(blank).items()}
    if len(names) > 2 * MOST_NAMES:
        return ()
    return tuple(Named(parts.panel_name(name), seen_corners(state, key, body.view)) for key, name in names.items())


def few_names(blank: Blank) -> dict[str, str]:
    """Panel to the name that is set on it: bands along the tallest row and the widest column, else the first of each number."""
    across = [band for band in blank.bands if band.direction == "across"]
    down = [band for band in blank.bands if band.direction == "down"]
    if across and down:
        row, column = (max(bands, key=lambda band: band.end - band.start) for bands in (down, across))
        cells = [(band.name, band, row) for band in across] + [(band.name, column, band) for band in down if band is not row]
        found = {}
        for name, one, other in cells:
            inside = [panel.name for panel in blank.panels if holds(one, panel) and holds(other, panel)]
            if len(inside) == 1:
                found[inside[0]] = name
        return found
    firsts: dict[str, str] = {}
    for panel in blank.panels:
        firsts.setdefault(stem(panel.name) or panel.name, panel.name)
    return {panel: name for name, panel in firsts.items()}


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
