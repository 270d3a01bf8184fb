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
"""The share of a panel that must be uncovered for its side to name how the work lies."""


class StepPicture(Struct, frozen=True):
    """One of `plan` and `space` is given."""

    plan: PlanScene | None
    space: SpaceScene | None
    up: tuple[str, str]
    """Blank name and side (`front`, `back`) that are up, of the panel that shows most; empty where none is level."""
    marks: tuple[Action, ...] = ()
    """Beside the step's number."""
    flipped: bool = False
    """Shown turned over, because what the step does is on the other side; it is turned back after it."""
    inside: bool = False
    """That side is inside: walls stand all round."""


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
    """The blank and side of the largest panel that is seen, of the parts in `focus` if they are; of equal ones, the topmost."""
    lying = [facet for facet in reversed(facets) if not facet.lifted]
    polygons = [clockwise_polygon(facet.polygon) for facet in lying]

    def rank(place: int) -> tuple[bool, float]:
        facet = lying[place]
        return facet.part not in focus, -round(state.blanks[facet.part].panel(facet.panel).area, 1)

    for place in sorted((place for place, facet in enumerate(lying) if facet.letter), key=rank):
        shows = sum(polygon_area(piece) for piece in difference([polygons[place]], polygons[:place]))
        if shows >= LEAST_SEEN * polygon_area(polygons[place]):
            return (state.blanks[lying[place].part].name, lying[place].side)
    return ("", "")


def middle_of(polygon: Polygon2) -> Spot:
    b = box([polygon])
    return (b[0] + b[2]) / 2, (b[1] + b[3]) / 2


def flat_middle(state: State, panel: PanelKey) -> Spot:
    return middle_of(state.blanks[panel[0]].panel(panel[1]).polygon)
