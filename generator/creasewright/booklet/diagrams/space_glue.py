"""Adhesive on panels in space: hatched on what is seen of the side that carries it, dotted where that side is turned away."""

from creasewright.booklet.diagrams.face_view import Face
from creasewright.booklet.diagrams.glue_hatch import glue_area
from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Affine, GlueMark3, Polygon2
from creasewright.booklet.diagrams.seen_solid import SeenSolid
from creasewright.booklet.diagrams.space_motifs import moved
from creasewright.booklet.diagrams.space_view import SpaceView, along, seen_at
from creasewright.booklet.drawing import Item
from creasewright.geometry.clip import area, clockwise, intersection

LEAST = 2.0
"""mm² on the page: less of a hatched area is not worth its ink."""


def glue_items(
    marks: tuple[GlueMark3, ...], seen: SeenSolid, view: SpaceView, to_page: Affine, style: PictureStyle
) -> tuple[Item, ...]:
    """Hatch and outline of each mark, cut to what is seen of its face; nothing where other paper hides it."""
    items: list[Item] = []
    for mark in marks:
        for face, region in zip(seen.faces, seen.regions, strict=True):
            if (face.facet.part, face.facet.panel) != (mark.part, mark.panel) or not region:
                continue
            for piece in intersection([on_page(mark, face, view)], list(region)):
                ring = tuple(moved(to_page, spot) for spot in piece)
                if area(ring) > LEAST:
                    items += behind(ring, style) if mark.hidden else glue_area([ring], style)
    return tuple(items)


def behind(ring: Polygon2, style: PictureStyle) -> list[Item]:
    """Dotted: the adhesive is on the other side of this paper."""
    line = line_shape("hidden", (*ring, ring[0]), style)
    return [line] if line is not None else []


def on_page(mark: GlueMark3, face: Face, view: SpaceView) -> Polygon2:
    """The mark where its face is drawn, mm of the model."""
    facet = face.facet
    places = (along(along(facet.polygon[0], facet.axis_x, x), facet.axis_y, y) for x, y in mark.polygon)
    return clockwise(tuple(seen_at(view, place) for place in places))

