"""Pictures of steps on standing things: folds with the way each part goes, adhesive before it closes, parts that come to their place.

Every picture is in the one view of the pack. Places are in the body's view: x right, y towards the maker, z down into the table.
"""

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet3, GlueMark3, Landing3, SlideArrow3, SpaceScene, Spot, Spot3
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.on_the_way import eye_of, fold_paths, turning
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture
from creasewright.folding.fold_scores import Targets, fold_scores
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, GlueArea, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import apply, compose, dot, inverse, rotate
from creasewright.joining.bodies import stack_of
from creasewright.joining.run_step import StepRun

AJAR = 0.4
"""Of its angle: how far a wall that is about to be glued still stands open."""
CLEAR = 0.3
"""What comes down is held above the work by this share of its height, and at least `LEAST_CLEAR` mm."""
LEAST_CLEAR = 12.0
NEARER = 0.7
"""What comes from the side is held away by this share of its smaller side."""


def space_folding(run: StepRun, after: Body, parts: ShownParts) -> StepPicture:
    """The work part of the way, what folds in this step dashed, and the way of each rim from there on; or, where the paper has to give
    way for it, as it stands after the step."""
    turns = turning(run.before, run.after, after, run.targets)
    half = turns.part_way() if turns is not None else None
    if half is not None and turns is not None:
        facets = space_facets(half.state, half.body, parts, rising(run), eye_of(True))
        return StepPicture(None, SpaceScene(facets, turns.ways(half.step)), ("", ""), part_way=True)
    return StepPicture(None, SpaceScene(space_facets(run.after, after, parts), turns.ways(0) if turns is not None else ()), ("", ""))


def rising(run: StepRun) -> Targets:
    """The scores that fold farther in this step, not those that open."""
    return {key: angle for key, angle in run.targets.items() if abs(angle) > abs(run.before.angles.get(key, 0.0))}


def space_closing(run: StepRun, before: Body, parts: ShownParts) -> StepPicture:
    """What stands is folded flat: shown standing, with the way it goes."""
    facets = space_facets(run.before, before, parts)
    return StepPicture(None, SpaceScene(facets, fold_paths(run.before, run.after, before, run.targets)), ("", ""))


# --- adhesive ---------------------------------------------------------------------------------------------------------


def space_gluing(run: StepRun, new: tuple[GlueArea, ...], parts: ShownParts) -> StepPicture:
    """What is glued to something that stands: a wall still a little open, the adhesive on the tabs, and the way it closes."""
    state, closing = before_closing(run, new)
    body = state.body_of(run.parts[0])
    facets = space_facets(state, body, parts)
    paths = fold_paths(state, run.before, body, closing) if closing else ()
    marks = tuple(glue_mark3(state, body, area, area.panel) for area in new)
    return StepPicture(None, SpaceScene(facets, paths, glue=marks), ("", ""), part_way=bool(paths))


def before_closing(run: StepRun, new: tuple[GlueArea, ...]) -> tuple[State, Targets]:
    """The state before the step with the walls that get the tabs folded open part of the way; with them, if need be, all that stands."""
    walls = {area.onto for area in new} | {area.panel for area in new}
    for wanted in ({area.onto for area in new}, {area.panel for area in new}, walls):
        closing = standing_scores(run.before, wanted)
        try:
            if closing:
                return fold_scores(run.before, {key: angle * AJAR for key, angle in closing.items()}), closing
        except FoldRefused:
            continue
    return run.before, {}


def standing_scores(state: State, panels: set[PanelKey]) -> Targets:
    """The scores that these panels stand on or hang by, with their angles; those to other parts that only hang on them are left out."""
    found: Targets = {}
    for panel in panels:
        blank = state.blanks[panel[0]]
        own = [piece for piece in blank.pieces if panel[1] in (piece.first, piece.second)]
        named = [piece for piece in own if piece.score == panel[1]]
        for piece in named or own:
            angle = state.angles.get((panel[0], piece.name), 0.0)
            if abs(angle) > 20:
                found[panel[0], piece.name] = angle
    return found


def glue_mark3(state: State, body: Body, area: GlueArea, on: PanelKey, from_left: bool = True) -> GlueMark3:
    """The adhesive on the panel that carries it, or on the one it goes onto: on the side of it that meets the other."""
    from_carrier = compose(inverse(state.placed[on]), state.placed[area.panel])
    x0, y0 = state.blanks[on[0]].panel(on[1]).polygon[0]
    spots: list[Spot] = []
    for x, y in area.polygon:
        p = apply(from_carrier, (x, y, 0.0))
        spots.append((p[0] - x0, p[1] - y0))
    front_meets = area.side == "front"
    if on != area.panel:
        same_way = dot(front_normal(state.placed[area.panel]), front_normal(state.placed[on])) > 0
        front_meets = front_meets != same_way
    front_seen = dot(rotate(body.view, front_normal(state.placed[on])), eye_of(from_left)) > 0
    return GlueMark3(*on, tuple(spots), front_meets != front_seen)


# --- a part on its way ------------------------------------------------------------------------------------------------


def space_laying(run: StepRun, thing: frozenset[str], new: tuple[GlueArea, ...], parts: ShownParts) -> StepPicture:
    """A part held before its place on a standing thing, the way it goes, and the adhesive where that is seen."""
    body = run.after.body_of(run.parts[0])
    facets = space_facets(run.after, body, parts)
    coming = [facet for facet in facets if facet.part in thing]
    still = [facet for facet in facets if facet.part not in thing]
    shift = way_off(run, body, coming, still)
    held = tuple(shifted(facet, shift) for facet in coming)
    left = dot(shift, eye_of(True)) > 0 or dot(shift, eye_of(False)) <= 0
    marks = tuple(glue_mark3(run.after, body, area, area.onto if area.panel[0] in thing else area.panel, left) for area in new)
    scene = SpaceScene((*still, *held), glue=marks, slides=(slide_to_place(run, body, thing, coming, shift),), from_left=left)
    return StepPicture(None, scene, ("", ""))


def way_off(run: StepRun, body: Body, coming: list[Facet3], still: list[Facet3]) -> Spot3:
    """From its place back to where it is held: straight up, clear of the rim; away from an upright panel that it goes onto."""
    bonds = run.new_bonds
    landing = next((bond for bond in bonds if bond.first[0] not in {facet.part for facet in coming}), None)
    (x0, x1), (y0, y1), (z0, z1) = extent_of(coming)
    if landing is not None and run.after.coverings == run.before.coverings:
        home = stack_of(run.after.body_of(landing.first[0]), landing.first)
        normal = rotate(body.view, home.normal)
        if abs(normal[2]) < 0.7:
            sign = 1.0 if home.order.index(landing.second) > home.order.index(landing.first) else -1.0
            far = NEARER * min(size for size in (x1 - x0, y1 - y0, z1 - z0) if size > 1.0)
            return normal[0] * sign * far, normal[1] * sign * far, normal[2] * sign * far
    top = extent_of(still)[2][0]
    return 0.0, 0.0, min(0.0, top - z1 - max(LEAST_CLEAR, CLEAR * (z1 - z0)))


def slide_to_place(run: StepRun, body: Body, thing: frozenset[str], coming: list[Facet3], shift: Spot3) -> SlideArrow3:
    """From the middle of what comes, at its lower side where it comes down; with the places where it is joined on."""
    (x0, x1), (y0, y1), (z0, z1) = extent_of(coming)
    at = ((x0 + x1) / 2, (y0 + y1) / 2, z1 if shift[2] else (z0 + z1) / 2)
    ends = [way for bond in run.new_bonds for way in ((bond.first, bond.second), (bond.second, bond.first))]
    places = tuple(Landing3(*onto, corners_of(run.after, body, own)) for onto, own in ends if own[0] in thing and onto[0] not in thing)
    return SlideArrow3((at[0] + shift[0], at[1] + shift[1], at[2] + shift[2]), at, thing, places)


def corners_of(state: State, body: Body, panel: PanelKey) -> tuple[Spot3, ...]:
    """In the view."""
    shape = state.blanks[panel[0]].panel(panel[1]).polygon
    return tuple(rotate(body.view, apply(state.placed[panel], (x, y, 0.0))) for x, y in shape)


def extent_of(facets: list[Facet3]) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    spots = [spot for facet in facets for spot in facet.polygon]
    x, y, z = ((min(s[axis] for s in spots), max(s[axis] for s in spots)) for axis in range(3))
    return x, y, z


def shifted(facet: Facet3, by: Spot3) -> Facet3:
    return replace(facet, polygon=tuple((x + by[0], y + by[1], z + by[2]) for x, y, z in facet.polygon))
