"""Pictures of standing things: one orthographic view for the whole pack, hidden lines removed exactly.

The scene's frame is x right, y towards the maker, z down into the table, model mm. The picture is in mm on the page, its
origin at the head-left of its box. Shaded faces name their colour with a factor, `paper 1 front*0.93` (see `shade`).
"""

from collections.abc import Iterable
from itertools import chain

from creasewright.booklet.diagrams.boxes import Box, box_of, path_lines, words_box
from creasewright.booklet.diagrams.face_view import coarsened, spread_stacks
from creasewright.booklet.diagrams.fold_arrow import fold_arrow
from creasewright.booklet.diagrams.picture_style import NORMAL, POINT, PictureStyle
from creasewright.booklet.diagrams.ribbon import band_facets, bow, bow_place, ribbon_facets, sized_bow
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scales import SCALES, Scale, scale_named
from creasewright.booklet.diagrams.scene import Affine, Facet3, Picture, SpaceScene, Spot3
from creasewright.booklet.diagrams.seen_solid import CROWDED, INNER, SeenSolid, seen_solid, solid_items
from creasewright.booklet.diagrams.slide_arrow import block_corners, slide_arrow
from creasewright.booklet.diagrams.space_dimension import drawn_dimensions
from creasewright.booklet.diagrams.space_glue import glue_items
from creasewright.booklet.diagrams.space_motifs import times
from creasewright.booklet.diagrams.space_paths import page_paths
from creasewright.booklet.diagrams.space_slides import slide_spans
from creasewright.booklet.diagrams.space_tags import tag_items
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at, space_view
from creasewright.booklet.drawing import Group, Item, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

TURN, LOOK_DOWN = -38.0, 33.0
"""Degrees: the view of every step."""
RIM = 0.5
"""mm between the ink and the edge of the picture's box."""
LAYER_GAP = 0.3
"""mm on the page between layers that lie on each other in one plane, so that both edges read."""
BOW_SHARE = 0.7
"""A bow is at most this wide, as a share of the picture."""
BOW_ON_STRETCH = 0.72
"""And as a share of the stretch of ribbon it sits on."""


def draw_space(
    scene: SpaceScene,
    width: float,
    height: float,
    *,
    scale: str | None = None,
    ruler: TextRuler | None = None,
    style: PictureStyle = NORMAL,
    side_up: str = "",
) -> Picture:
    """The scene in a box `width` wide and no higher than `height` (mm on the page), in the middle of the width.

    `scale` as printed (`1:4`); None takes the largest of the pack's
    scales that fits, with its measures and arrows.
    Dimensions need a `ruler`. Raises ValueError for a scene with no facets.
    """
    if scene.dimensions and ruler is None:
        raise ValueError("dimensions need a ruler")
    if not scene.facets:
        raise ValueError("a picture in space needs at least one facet")
    view = space_view(side_turn(scene), LOOK_DOWN)
    name, factor = scale_named(scale) if scale else _largest_fitting(scene, view, (width, height), ruler, style)
    to_page: Affine = (factor, 0.0, 0.0, factor, 0.0, 0.0)
    seen = seen_solid(all_facets(scene, factor), view, CROWDED * style.weight / factor)
    taken = Room(width, height)
    paths = page_paths(scene, view, factor)
    for path in paths:
        taken.take_line(path)
    slides = slide_spans(scene.slides, seen, view, to_page)
    for start, end in slides:
        taken.take_line((start, end))
        taken.take_line(block_corners(start, end))
    glue = glue_items(scene.glue, seen, view, to_page, style)
    for item in glue:
        _take(item, taken)
    tags = tag_items(seen, to_page, taken, ruler, style) if ruler and not scene.ties else ()
    solid = (*solid_items(seen, view, to_page, factor, taken, style), *glue)
    folds = (item for path in paths for item in fold_arrow("front", path, "WHITE", style))
    arrows = (*folds, *(slide_arrow(*span, style) for span in slides))
    bows = drawn_bows(scene, seen, view, to_page, BOW_SHARE * width, style)
    for item in (*solid, *bows, *arrows):
        _take(item, taken)
    solid = (*solid, *tags)
    measures = drawn_dimensions(scene.dimensions, view, to_page, taken, ruler, style) if ruler else ()
    outer = _extent((*solid, *bows, *arrows, *measures), ruler).grown(RIM)
    group = Group((*solid, *bows, *arrows, *measures), (width - outer.width) / 2 - outer.x0, -outer.y0, role="axonometric")
    return Picture((group,), width, outer.height, name, side_up)


def side_turn(scene: SpaceScene) -> float:
    return TURN if scene.from_left else -TURN


def largest_scale(
    scene: SpaceScene,
    width: float,
    height: float,
    *,
    ruler: TextRuler | None = None,
) -> Scale:
    """The largest of the pack's scales at which the scene fits the box, with its measures where there is a `ruler`."""
    return _largest_fitting(scene, space_view(side_turn(scene), LOOK_DOWN), (width, height), ruler, NORMAL)


def _largest_fitting(
    scene: SpaceScene,
    view: SpaceView,
    box: tuple[float, float],
    ruler: TextRuler | None,
    style: PictureStyle,
) -> Scale:
    """The first scale at which the outline and its measures fit the box; beyond the pack's scales, by fives."""
    spots = [seen_at(view, spot) for spot in _spots(scene)]
    further = (scale_named(f"1:{10 + 5 * k}") for k in range(1, 400))
    for name, factor in chain(SCALES, further):
        ways = (spot for path in page_paths(scene, view, factor) for spot in path)
        outer = box_of(chain(((x * factor, y * factor) for x, y in spots), ways))
        room = Room(*box)
        room.ink(outer)
        if ruler and scene.dimensions:
            for facet in scene.facets:
                ring = [(x * factor, y * factor) for x, y in (seen_at(view, spot) for spot in facet.polygon)]
                room.take_line((*ring, ring[0]))
            drawn_dimensions(scene.dimensions, view, (factor, 0.0, 0.0, factor, 0.0, 0.0), room, ruler, style)
        whole = room.extent or outer
        if whole.width + 2 * RIM <= box[0] and whole.height + 2 * RIM <= box[1]:
            return name, factor
    raise ValueError("no scale down to 1:2000 makes the scene fit its box")


def all_facets(scene: SpaceScene, scale: float) -> tuple[Facet3, ...]:
    """Paper, its curves as fine as `scale` (page mm for a model mm) shows and its stacks spread; and the ribbons round it."""
    ribbons = tuple(
        facet for k, tie in enumerate(scene.ties) for facet in ribbon_facets(tie, scene.tie_width, str(k))
    )
    bands = tuple(facet for k, band in enumerate(scene.bands) for facet in band_facets(band, str(k)))
    paper = (coarsened(facet, scale) for facet in scene.facets)
    return (*spread_stacks(paper, LAYER_GAP / scale), *bands, *ribbons)


def drawn_bows(
    scene: SpaceScene, seen: SeenSolid, view: SpaceView, to_page: Affine, room: float, style: PictureStyle
) -> tuple[Item, ...]:
    """The bow of each tie whose outside is seen; `room` mm is the most a bow may be wide."""
    items: tuple[Item, ...] = ()
    for k, _ in enumerate(scene.ties):
        place = bow_place(seen.faces, seen.regions, view, str(k))
        if place is not None:
            frame, stretch = place
            enough = min(room, BOW_ON_STRETCH * stretch * to_page[0])
            items += bow(sized_bow(times(to_page, frame), enough), INNER * style.weight)
    return items


def _extent(items: Iterable[Item], ruler: TextRuler | None) -> Box:
    """Of shapes, with half of their pens, and of words."""
    outer: Box | None = None
    for item in items:
        box = None
        if isinstance(item, Shape):
            half = item.pen.width * POINT / 2 if item.pen else 0.0
            box = box_of(spot for line in path_lines(item.path) for spot in line).grown(half)
        elif isinstance(item, Words) and ruler:
            box = words_box(item, ruler)
        if box:
            outer = outer.with_box(box) if outer else box
    if outer is None:
        raise ValueError("a picture with nothing in it")
    return outer


def _take(item: Item, taken: Room) -> None:
    """No measure may be set over its lines."""
    if isinstance(item, Shape) and item.pen:
        for line in path_lines(item.path):
            taken.take_line(line)


def _spots(scene: SpaceScene) -> list[Spot3]:
    lines = (*(facet.polygon for facet in scene.facets), *scene.ties, *(band.line for band in scene.bands))
    return [spot for line in lines for spot in line]
