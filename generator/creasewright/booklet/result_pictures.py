"""The picture of what an assembly has become: as it lies, and where it stands with its length, width and height beside it."""

from math import dist

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Dimension3, Facet3, Spot3
from creasewright.booklet.length_words import SEEN_OFF, drawn_length
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.solid_sides import with_side
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.folding.solid_points import extents
from creasewright.folding.state import State
from creasewright.units.ruler import Ruler

AT_CORNER = 1.5
"""mm: a measure is drawn where both its ends are corners of the thing, as near as its paper is thick."""


def result_picture(state: State, paths: tuple[str, ...], parts: ShownParts) -> StepPicture:
    picture = with_side(as_it_lies(state, paths, parts), state)
    if picture.space is None:
        return picture
    low, high = extents(state, state.body_of(paths[0]))
    return replace(picture, space=replace(picture.space, dimensions=over_all(low, high, picture.space.facets, parts.worked.ruler)))


def over_all(low: Spot3, high: Spot3, facets: tuple[Facet3, ...], ruler: Ruler) -> tuple[Dimension3, ...]:
    """Along the two edges on the table that the reader sees, and up the front corner between the page's right and them."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    lines = (
        ((x0, y1, z1), (x1, y1, z1), (0.0, 1.0, 0.0), x1 - x0),
        ((x0, y0, z1), (x0, y1, z1), (-1.0, 0.0, 0.0), y1 - y0),
        ((x1, y1, z0), (x1, y1, z1), (1.0, 0.0, 0.0), z1 - z0),
    )
    corners = [spot for facet in facets for spot in facet.polygon]
    return tuple(
        Dimension3(start, end, way, drawn_length(ruler, mm, SEEN_OFF))
        for start, end, way, mm in lines
        if all(any(dist(end_, spot) < AT_CORNER for spot in corners) for end_ in (start, end))
    )
