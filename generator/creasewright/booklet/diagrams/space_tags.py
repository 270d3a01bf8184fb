"""The letters of pieces in a picture in space: each once, on what is seen of its largest face."""

from creasewright.booklet.diagrams.boxes import box_of
from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.label_places import inside
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine
from creasewright.booklet.diagrams.seen_solid import SeenSolid
from creasewright.booklet.diagrams.space_motifs import moved
from creasewright.booklet.drawing import Item
from creasewright.booklet.text_ruler import TextRuler
from creasewright.geometry.clip import total_area

TRIES = 3
"""Of a piece's faces, the largest first, on which its letter is tried."""


def tag_items(seen: SeenSolid, to_page: Affine, taken: Room, ruler: TextRuler, style: PictureStyle) -> tuple[Item, ...]:
    """Only where two pieces or more are seen, for one alone needs no telling apart; `taken` is kept clear and filled."""
    faces: dict[str, list[Region]] = {}
    for face, region in zip(seen.faces, seen.regions, strict=True):
        if face.facet.letter and region:
            faces.setdefault(face.facet.letter, []).append(region)
    if len(faces) < 2:
        return ()
    lines = Room(taken.width, taken.height)
    lines.lines, lines.boxes = list(taken.lines), list(taken.boxes)
    for stroke in seen.strokes:
        lines.take_line([moved(to_page, place) for place in stroke.places])
    lines.extent = None
    items: list[Item] = []
    side = tag_side(style)
    for letter, regions in sorted(faces.items()):
        for region in sorted(regions, key=lambda one: -total_area(one))[:TRIES]:
            rings = [tuple(moved(to_page, spot) for spot in ring) for ring in region]
            box = inside(rings, side, side, box_of(rings[0]).middle, lines)
            if box:
                items += piece_tag(letter, box.middle, ruler, style)
                lines.take_box(box)
                taken.take_box(box)
                break
    return tuple(items)
