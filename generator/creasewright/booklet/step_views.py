"""What all step pictures share: the work as it lies, the side that is up, middles and measures in words."""

from msgspec import Struct

from creasewright.booklet.diagrams.plan_facets import lies_flat, plan_facets
from creasewright.booklet.diagrams.scene import (
    Action,
    Facet,
    PlanScene,
    Polygon2,
    SpaceScene,
    Spot,
)
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.shown_parts import ShownParts
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.clip import area as polygon_area
from creasewright.geometry.clip import clockwise as clockwise_polygon
from creasewright.geometry.clip import difference
from creasewright.joining.compass import box
from creasewright.units.ruler import Ruler, as_set, mark_in_words

LEAST_SEEN = 0.02
"""The share of a piece that must be uncovered for its side to name how the work lies."""


class StepPicture(Struct, frozen=True):
    """One of `plan` and `space` is given."""

    plan: PlanScene | None
    space: SpaceScene | None
    up: tuple[str, str]
    """Blank name and side (`front`, `back`) that are up: see `side_up`, of a standing thing `solid_sides`; empty where none is told."""
    marks: tuple[Action, ...] = ()
    """Beside the step's number."""
    flipped: bool = False
    """Shown turned over, because what the step does is on the other side; it is turned back after it."""
    inside: bool = False
    """That side is inside: walls stand all round."""
    part_way: bool = False
    """Shown before the step is done: farther it goes where the arrows end."""


def said(mm: float, ruler: Ruler) -> str:
    return as_set(mark_in_words(mm, ruler).text)


def as_it_lies(state: State, paths: tuple[str, ...], parts: ShownParts) -> StepPicture:
    if not paths:
        return StepPicture(PlanScene(()), None, ("", ""))
    body = state.body_of(paths[0])
    if not lies_flat(state, body):
        return StepPicture(None, SpaceScene(space_facets(state, body, parts)), ("", ""))
    facets = plan_facets(state, body, parts)
    return StepPicture(PlanScene(facets), None, side_up(state, facets))


def side_up(state: State, facets: tuple[Facet, ...], focus: tuple[str, ...] = ()) -> tuple[str, str]:
    """The blank and side by which the lie is told, of the parts in `focus` if they are seen; empty where the eye would be misled.

    The largest piece tells it, for the others lie on it (of equal ones the topmost), and by the side of its largest panel: so one lie
    has no second name while flaps and other pieces come over it. Where most of what is seen of it is its other side, another of its
    paper may tell it, else nothing is said.
    """
    lying = [facet for facet in reversed(facets) if not facet.lifted]
    polygons = [clockwise_polygon(facet.polygon) for facet in lying]
    sizes = {part: sum(panel.area for panel in state.blanks[part].panels) for part in dict.fromkeys(f.part for f in lying if f.letter)}
    paper: str | None = None
    for part in sorted(sizes, key=lambda part: (part not in focus, -round(sizes[part], 1))):
        blank = state.blanks[part]
        own = [place for place, facet in enumerate(lying) if facet.part == part]
        seen = {place: sum(polygon_area(piece) for piece in difference([polygons[place]], polygons[:place])) for place in own}
        if sum(seen.values()) >= LEAST_SEEN * sizes[part] and paper in (None, blank.paper):
            side = max((lying[place] for place in own), key=lambda one: round(blank.panel(one.panel).area, 1)).side
            if sum(seen[place] for place in own if lying[place].side == side) > sum(seen.values()) / 2:
                return (blank.name, side)
            paper = blank.paper
    return ("", "")


def middle_of(polygon: Polygon2) -> Spot:
    b = box([polygon])
    return (b[0] + b[2]) / 2, (b[1] + b[3]) / 2


def flat_middle(state: State, panel: PanelKey) -> Spot:
    return middle_of(state.blanks[panel[0]].panel(panel[1]).polygon)
