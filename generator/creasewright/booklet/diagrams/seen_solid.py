"""A solid thing as one view shows it: what is seen of its faces and edges in mm of the model, then their shapes on the page."""

from collections.abc import Iterable

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.edge_strokes import Stroke, strokes_of
from creasewright.booklet.diagrams.face_view import Face, faces_of
from creasewright.booklet.diagrams.hidden_surface import Region, visible_regions
from creasewright.booklet.diagrams.line_code import line_shape, too_short
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Facet3, Spot
from creasewright.booklet.diagrams.space_edges import VisibleEdge, visible_edges
from creasewright.booklet.diagrams.space_motifs import motif_of_face, moved
from creasewright.booklet.diagrams.space_view import SpaceView
from creasewright.booklet.drawing import Item, Path, Pen, Shape
from creasewright.geometry.clip import union

SILHOUETTE, INNER = 1.15, 0.65
"""pt"""
BLEED = 0.3
"""pt"""
RUNS_ON = frozenset({"bend", "none"})
"""Kinds of edges that no line is drawn on."""
CROWDED = 0.55
"""mm on the page: an inner line of the normal weight that runs closer beside another would fill the gap with ink."""


class SeenSolid(Struct, frozen=True):
    faces: tuple[Face, ...]
    regions: tuple[Region, ...]
    """Of each face, what is seen."""
    edges: tuple[VisibleEdge, ...]
    strokes: tuple[Stroke, ...]


def seen_solid(facets: Iterable[Facet3], view: SpaceView, crowded: float = 0.0, least: float = 0.0) -> SeenSolid:
    """`crowded` and `least`, mm of the model: see `strokes_of`."""
    faces = faces_of(facets, view)
    regions = visible_regions(faces)
    showing = tuple(bool(region) or not face.outline for face, region in zip(faces, regions, strict=True))
    edges = visible_edges(faces, showing, view)
    return SeenSolid(faces, regions, edges, strokes_of(edges, faces, crowded, least))


def solid_items(
    seen: SeenSolid, view: SpaceView, to_page: Affine, scale: float, taken: Room, style: PictureStyle
) -> tuple[Item, ...]:
    """Fills, then prints, then lines; `to_page` enlarges by `scale`, `taken` is kept free of prints."""
    motifs = (
        motif_of_face(face, region, view, to_page, scale, taken, style)
        for face, region in zip(seen.faces, seen.regions, strict=True)
    )
    strokes = (stroke_shape(stroke, to_page, style) for stroke in seen.strokes)
    return (*fills(seen, to_page), *filter(None, motifs), *filter(None, strokes))


def fills(seen: SeenSolid, to_page: Affine) -> tuple[Shape, ...]:
    """What is seen of each face in its tone. Faces of one tone are one shape, so that no seam shows where they meet; the strips of
    a bent sheet or ribbon, each of its own tone, run into each other a little."""
    by_colour: dict[str, Region] = {}
    bent: set[str] = set()
    for face, region in zip(seen.faces, seen.regions, strict=True):
        if region:
            by_colour.setdefault(face.colour, []).extend(region)
            if RUNS_ON.intersection(face.facet.edge_kinds):
                bent.add(face.colour)
    return tuple(
        Shape(_closed(union(rings), to_page), Pen(colour, BLEED) if colour in bent else None, colour, role="faces")
        for colour, rings in by_colour.items()
    )


def stroke_shape(stroke: Stroke, to_page: Affine, style: PictureStyle) -> Shape | None:
    places = tuple(moved(to_page, place) for place in stroke.places)
    if stroke.style not in ("silhouette", "inner") and not too_short(stroke.style, places):
        return line_shape(stroke.style, places, style)
    width = SILHOUETTE if stroke.style == "silhouette" else INNER
    return Shape(_line(places), Pen("INK", width * style.weight), role=f"edge {stroke.style}")


def _line(places: tuple[Spot, ...]) -> Path:
    closed = len(places) > 3 and abs(places[0][0] - places[-1][0]) + abs(places[0][1] - places[-1][1]) < 0.02
    return polyline(places[:-1], closed=True) if closed else polyline(places)


def _closed(rings: Region, to_page: Affine) -> Path:
    return tuple(command for ring in rings for command in polyline([moved(to_page, spot) for spot in ring], closed=True))
