"""The arrow of a part that comes to its place on a standing thing: to a spot where that place is seen."""

from collections.abc import Sequence
from math import dist

from creasewright.booklet.diagrams.scene import Affine, SlideArrow3, Spot
from creasewright.booklet.diagrams.seen_solid import SeenSolid
from creasewright.booklet.diagrams.slide_arrow import slide_span
from creasewright.booklet.diagrams.space_motifs import moved
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at
from creasewright.booklet.diagrams.visible_lines import crossings
from creasewright.geometry.clip import clockwise, intersection
from creasewright.geometry.deepest import deepest_place
from creasewright.geometry.rigid_transform import minus, norm

FARTHEST = 60.0
"""mm of the model: an arrow to a place that is not seen goes no farther, so that it ends inside the rim."""
COMES_OUT = 5.0
"""mm on the page that it comes out at the least from over what moves."""
LEAST_DEEP = 0.5
"""mm on the page: a place that is seen less well in is not seen."""


def slide_spans(slides: Sequence[SlideArrow3], seen: SeenSolid, view: SpaceView, to_page: Affine) -> list[tuple[Spot, Spot]]:
    """From where to where each is drawn, on the page."""
    return [_span(slide, seen, view, to_page) for slide in slides]


def _span(slide: SlideArrow3, seen: SeenSolid, view: SpaceView, to_page: Affine) -> tuple[Spot, Spot]:
    start, end = (moved(to_page, seen_at(view, spot)) for spot in (slide.start, slide.end))
    way = dist(start, end)
    spot = _seen_spot(slide, seen, view, to_page)
    if spot is not None:
        start = spot[0] - end[0] + start[0], spot[1] - end[1] + start[1]
        return slide_span(start, spot, _leaves(slide, seen, to_page, start, spot))
    leaves = _leaves(slide, seen, to_page, start, end)
    share = min(1.0, max(FARTHEST / norm(minus(slide.end, slide.start)), leaves + COMES_OUT / max(way, COMES_OUT)))
    end = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
    return slide_span(start, end, leaves / share)


def _leaves(slide: SlideArrow3, seen: SeenSolid, to_page: Affine, start: Spot, end: Spot) -> float:
    """Where on its way the arrow comes out from over what moves."""
    outlines = (face.outline for face in seen.faces if face.facet.part in slide.parts and face.outline)
    rings = (tuple(moved(to_page, spot) for spot in outline) for outline in outlines)
    return max((at for ring in rings for at in crossings(start, end, ring)), default=0.5)


def _seen_spot(slide: SlideArrow3, seen: SeenSolid, view: SpaceView, to_page: Affine) -> Spot | None:
    """On the page: well inside of what is seen of one of its places."""
    best, deep = (0.0, 0.0), LEAST_DEEP / to_page[0]
    for place in slide.places:
        outline = clockwise(tuple(seen_at(view, spot) for spot in place.polygon))
        for face, region in zip(seen.faces, seen.regions, strict=True):
            if (face.facet.part, face.facet.panel) == (place.part, place.panel):
                showing = intersection([outline], list(region))
                spot, here = deepest_place(showing) if showing else (best, 0.0)
                best, deep = (spot, here) if here > deep else (best, deep)
    return moved(to_page, best) if deep > LEAST_DEEP / to_page[0] else None
