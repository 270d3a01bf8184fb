"""Pictures of ties and bands, and of operations on flat pieces."""

from itertools import pairwise
from math import dist

from msgspec.structs import replace

from creasewright.blanks.spare_parts import ROUND, TRIM, spare_parts
from creasewright.booklet.diagrams.plan_facets import fill_of, seen_spot, view_of
from creasewright.booklet.diagrams.scene import (
    Action,
    Band3,
    Dimension,
    Facet,
    FacetEdge,
    Named,
    Polygon2,
    Prick,
    SpaceScene,
    Spot,
    Stitch,
)
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, as_it_lies, said
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, Closure, State
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.compass import box
from creasewright.joining.girth import hull, section
from creasewright.joining.ribbon_path import Passage, panel_at
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import Ruler

RADIUS = "radius of corners"
"""What such a dimension is of."""
SAME = 0.05
"""mm"""


def tying(run: StepRun, parts: ShownParts) -> StepPicture:
    """The closed thing with its ribbon or its band; a ribbon through holes as it runs from hole to hole."""
    body = run.after.body_of(run.parts[0])
    closure = run.after.closures[-1]
    return threading(run, parts, closure) if closure.path else closed_picture(run.after, body, closure, parts)


def closed_picture(state: State, body: Body, closure: Closure, parts: ShownParts) -> StepPicture:
    """A thing with what goes round it."""
    if closure.band:
        facets = space_facets(state, body, parts)
        return StepPicture(None, SpaceScene(facets, bands=bands_round(state, body, parts)), ("", ""))
    line = tie_line(state, body, closure.across, closure.at)
    width = parts.worked.materials[closure.material].width if closure.material in parts.worked.materials else 0.0
    scene = SpaceScene(space_facets(state, body, parts), ties=(line,), tie_width=width)
    return StepPicture(None, scene, ("", ""))


def threading(run: StepRun, parts: ShownParts, closure: Closure) -> StepPicture:
    """A ribbon through holes: seen where it runs on this side, dotted where it runs behind."""
    picture = as_it_lies(run.after, tuple(part for part, _ in closure.path), parts)
    if picture.plan is None:
        return picture
    spots = [hole_in_view(run.after, Passage(*each)) for each in closure.path]
    pricks = tuple(Prick(spot, str(number)) for number, spot in enumerate(spots, start=1))
    stitches = tuple(Stitch(a, b, hidden=number % 2 == 0) for number, (a, b) in enumerate(pairwise(spots)))
    return replace(picture, plan=replace(picture.plan, pricks=pricks, stitches=stitches))


def hole_in_view(state: State, passage: Passage) -> Spot:
    to_view = view_of(state, panel_at(state, passage), state.body_of(passage.part).view)
    return seen_spot(to_view, passage.spot)


def bands_round(state: State, body: Body, parts: ShownParts) -> tuple[Band3, ...]:
    """Every band round a thing, its front outside."""
    found = []
    for closure in state.closures:
        if closure.band:
            paper = parts.paper(state.blanks[closure.band])
            line = tie_line(state, body, closure.across, closure.at)
            found.append(Band3(line, closure.wide, fill_of(paper, True), fill_of(paper, False)))
    return tuple(found)


def tie_line(state: State, body: Body, across_: str, at: float) -> tuple[tuple[float, float, float], ...]:
    """The closed line that a ribbon takes round the thing, a hair outside, in the view."""
    low, _ = extents(state, body)
    start = low[1] if across_ == "width" else low[0]
    outline = taut(hull(section(state, body, across_, start + at)))
    grown = [outside(spot, outline) for spot in outline]
    if across_ == "width":
        return tuple((x, start + at, z) for x, z in grown)
    return tuple((start + at, y, z) for y, z in grown)


GENTLE = 0.94
"""A bend less sharp than this cosine (20 degrees) would be seen as a kink in the ribbon."""
GIVE = 3.0
"""mm that a ribbon may stand off what it goes round, so as to run straight."""
LEAST_STRETCH = 1.0
"""mm: a shorter stretch is a corner cut off."""


def taut(outline: list[Spot]) -> list[Spot]:
    """A convex outline without its gentle bends and cut corners: the stretch that makes one, the shortest first, gives way to those
    before and after it, which meet farther out, if that is no farther than `GIVE`."""
    line = list(outline)
    while len(line) > 3:
        runs = [line[k:] + line[:k] for k in range(len(line))]
        found = next((each for run in sorted(runs, key=lambda run: dist(run[1], run[2])) if (each := without_bend(run))), None)
        if found is None:
            break
        line = found
    return line


def without_bend(line: list[Spot]) -> list[Spot] | None:
    """The outline without its second stretch; None if that makes no bend or is too far under the ribbon."""
    a, b, c, d = line[:4]
    met = meeting(a, b, c, d)
    bends = dist(b, c) < LEAST_STRETCH or gentle(a, b, c) or gentle(b, c, d)
    return [a, met, *line[3:]] if met is not None and bends and min(dist(met, b), dist(met, c)) <= GIVE else None


def gentle(a: Spot, b: Spot, c: Spot) -> bool:
    """Whether the line from a over b to c bends a little."""
    return (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) > GENTLE * dist(a, b) * dist(b, c)


def meeting(a: Spot, b: Spot, c: Spot, d: Spot) -> Spot | None:
    """Where the line from a through b meets that from d through c, both carried on; None where they run apart."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - d[0], c[1] - d[1]
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-9:
        return None
    t = ((d[0] - a[0]) * vy - (d[1] - a[1]) * vx) / turn
    s = ((d[0] - a[0]) * uy - (d[1] - a[1]) * ux) / turn
    return (a[0] + t * ux, a[1] + t * uy) if t >= 1 and s >= 1 else None


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
    action = run.written.action
    if picture.plan is not None and isinstance(action, design.Make) and action.verb == "cut":
        edges = [edge for facet in picture.plan.facets for edge in facet.edges if edge.kind == "slit"]
        names = tuple(Named("cut here", line_box(edge.start, edge.end)) for edge in edges[:1])
        picture = replace(picture, plan=replace(picture.plan, names=names))
    if picture.plan is not None and isinstance(action, design.Make) and action.at is not None:
        edge = fore_edge(picture.plan.facets[-1])
        if edge is not None:
            picture = replace(picture, plan=replace(picture.plan, names=(Named("cut here", line_box(edge.start, edge.end)),)))
    elif picture.plan is not None and isinstance(action, design.Make) and action.verb in (TRIM, ROUND):
        gone = cut_off(run.after, run.parts[0], action.verb)
        radii = radius_dimensions(gone, parts.worked.ruler) if action.verb == ROUND else ()
        picture = replace(picture, plan=replace(picture.plan, landing=gone, dimensions=radii))
    if picture.plan is not None and others:
        picture = replace(picture, plan=replace(picture.plan, actions=(Action("repeat", " ".join(others)),)))
    return picture


def fore_edge(facet: Facet) -> FacetEdge | None:
    """The free edge of a folded leaf that lies opposite its fold."""
    folds = [edge for edge in facet.edges if edge.kind == "folded"]
    free = [edge for edge in facet.edges if edge.kind == "cut"]
    if not folds or not free:
        return None

    def away(edge: FacetEdge) -> float:
        (ax, ay), (bx, by) = folds[0].start, folds[0].end
        return min(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) for x, y in (edge.start, edge.end))

    return max(free, key=away)


def cut_off(state: State, part: str, how: str) -> tuple[Polygon2, ...]:
    """What a flat piece loses at its corners, as it lies: TRIM or ROUND."""
    blank, view = state.blanks[part], state.body_of(part).view
    placed = state.placed[part, blank.panels[0].name]
    spare = [each.polygon for each in spare_parts(blank) if each.how == how]
    return tuple(tuple(rotate(view, apply(placed, (x, y, 0.0)))[:2] for x, y in polygon) for polygon in spare)


def radius_dimensions(corners: tuple[Polygon2, ...], ruler: Ruler) -> tuple[Dimension, ...]:
    """Of what rounding takes off: each radius once, at the nearest corner on the right, along its level edge from where the curve ends."""
    found: dict[str, Dimension] = {}
    for corner in sorted(corners, key=lambda each: box([each])[:1:-1], reverse=True):
        x0, y0, x1, y1 = box([corner])
        if abs((x1 - x0) - (y1 - y0)) < SAME:
            level = max((y1, y0), key=lambda edge: sum(abs(y - edge) < SAME for _, y in corner))
            text = said(x1 - x0, ruler)
            found.setdefault(text, Dimension((x0, level), (x1, level), text, "inside", RADIUS))
    return tuple(found.values())


def line_box(a: Spot, b: Spot) -> Polygon2:
    """A narrow box about a line, for a name that belongs to it."""
    x0, y0, x1, y1 = min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])
    return ((x0 - 0.5, y0 - 0.5), (x1 + 0.5, y0 - 0.5), (x1 + 0.5, y1 + 0.5), (x0 - 0.5, y1 + 0.5))
