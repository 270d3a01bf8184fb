"""Templates to numbered pages: the fewest tiles, small ones together; with what the record and the read-back need of
each tile."""

from collections.abc import Callable

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.drawing import Bookmark, Form, Page
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.bound import by_area
from creasewright.booklet.tiling.check_square import ROOM, SIDE
from creasewright.booklet.tiling.diagonal import diagonal_of
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.grid import tile_over_pages
from creasewright.booklet.tiling.hosting import host_small
from creasewright.booklet.tiling.in_the_middle import in_the_middle
from creasewright.booklet.tiling.inner_point import area_and_centroid
from creasewright.booklet.tiling.long_measure import (
    LongMeasure,
    PlannedMeasure,
    label_box,
    label_boxes,
    long_measures,
    measure_part,
    measure_words,
    measures_beside,
    shifted,
)
from creasewright.booklet.tiling.placing import Cell, DrawnLines, Layout, NearJoin, Placed, drawn_lines, placed_on
from creasewright.booklet.tiling.share import fits_one_window, share_pages
from creasewright.booklet.tiling.spots import points_to_page_mm
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.template_form import form_of
from creasewright.booklet.tiling.tile_page import Setting, shift_to_page, tile_page
from creasewright.booklet.tiling.tile_text import template_title
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize, Window, window_of
from creasewright.geometry.plane_transform import Affine, shift

Rectangle = tuple[float, float, float, float]
"""Left, tail, right, head in PDF points, origin lower left."""


class Tile(Struct, frozen=True):
    """One template on one page."""

    template: str
    """Its key."""
    page_index: int
    """Counted from 0 among the template pages."""
    row: int
    column: int
    """Counted from 0."""
    to_blank: Affine
    """From PDF points of the page (origin lower left, y up) to blank mm."""
    window: Rectangle
    check_square: Rectangle
    name: str
    """Of its page: `T-3`."""


class TiledTemplates(Struct, frozen=True):
    pages: tuple[Page, ...]
    forms: tuple[Form, ...]
    tiles: tuple[Tile, ...]
    near_joins: tuple[NearJoin, ...]
    """Joins that could not keep 15 mm from fine detail."""
    squares_over: tuple[str, ...]
    """Page by page, what the check square lies over: `nothing`, `scores` or `cuts`."""
    least: int = 0
    """No arrangement takes fewer pages, whatever the turns: by area and span of each template, by the area of all together."""


def layouts_of(templates: tuple[Template, ...], window: Window) -> list[Layout]:
    """Which templates go on which pages: tiled ones in their order, then the shared pages of the small ones; what is on one page stands
    in its middle."""
    small = tuple(template for template in templates if fits_one_window(template, window))
    large = [template for template in templates if template not in small]
    tiled = [tile_over_pages(template, window) for template in large]
    hosted = host_small(tiled, share_pages(small, window, ROOM, _square_test(window)), window)
    return [in_the_middle(layout, window, ROOM) if len(layout.printed) == 1 else layout for layout in hosted]


def tile_templates(
    templates: tuple[Template, ...], page: PageSize, ruler: TextRuler, words: TileWords, window: Window | None = None
) -> TiledTemplates:
    """`window`: None for the usual one of the page."""
    window = window or window_of(page)
    pages: list[Page] = []
    forms: list[Form] = []
    tiles: list[Tile] = []
    over: list[str] = []
    layouts = layouts_of(templates, window)
    for number, unnamed in enumerate(layouts, 1):
        layout = replace(unnamed, names=_names(unnamed, len(pages) + 1, words))
        form, at = form_of(f"templates {number}", layout.placed)
        forms.append(form)
        lines = drawn_lines(layout.placed)
        links = {cell: f"template page {name}" for cell, name in layout.names.items()}
        measures = _long_measures(layout, window, words, ruler)
        setting = Setting(layout, form.name, at, lines, measures, window, words, ruler, links, diagonal_of(layout))
        for cell in layout.printed:
            drawn = tile_page(setting, cell)
            square = (drawn.square.left, drawn.square.head, drawn.square.left + SIDE, drawn.square.head + SIDE)
            frame = (window.left, window.head, window.right, window.tail)
            for one in placed_on(layout, cell, window):
                to_blank = _page_to_blank(one, shift_to_page(cell, window), page)
                boxes = _in_points(frame, page), _in_points(square, page)
                tiles.append(Tile(one.template.key, len(pages), *cell, to_blank, *boxes, layout.names[cell]))
            marks = _bookmarks(layout, placed_on(layout, cell, window), cell, links, words)
            pages.append(Page(page.width, page.height, drawn.items, layout.names[cell], marks))
            over.append(drawn.square.over)
    near = tuple(join for layout in layouts for join in layout.near_joins)
    return TiledTemplates(tuple(pages), tuple(forms), tuple(tiles), near, tuple(over), least_together(layouts, window))


def least_together(layouts: list[Layout], window: Window) -> int:
    """Pages that all templates need. Tiled ones follow each other on pages of their own, so their bounds add up; what small ones
    ask for beyond the room of these is counted by area."""
    if not layouts:
        return 0
    area = sum(abs(area_and_centroid(one.template.polygon)[0]) for layout in layouts for one in layout.placed)
    return max(by_area(area, window), sum(layout.least for layout in layouts if len(layout.printed) > 1))


def _names(layout: Layout, first: int, words: TileWords) -> dict[Cell, str]:
    """The pages of a layout follow one another, the first of them numbered `first`."""
    return {cell: words.label.format(number=number) for number, cell in enumerate(layout.printed, first)}


def _bookmarks(
    layout: Layout, here: tuple[Placed, ...], cell: tuple[int, int], links: dict[tuple[int, int], str], words: TileWords
) -> tuple[Bookmark, ...]:
    """A template's title at its first page; the tiles' names below it where there are several."""
    first = cell == layout.printed[0]
    titled = (layout.placed[:1] if first else ()) + tuple(one for one in here if one != layout.placed[0])
    titles = tuple(Bookmark(f"template {one.template.key}", template_title(one.template, words), 1) for one in titled)
    tile = (Bookmark(links[cell], layout.names[cell], 2),) if len(layout.printed) > 1 else ()
    return titles + tile


def _page_to_blank(one: Placed, to_page: tuple[float, float], page: PageSize) -> Affine:
    blank_to_page = one.to_grid.then(shift(*to_page))
    return points_to_page_mm(page.height).then(blank_to_page.inverse())


def _in_points(box: Rectangle, page: PageSize) -> Rectangle:
    pt = 72 / 25.4
    return (box[0] * pt, (page.height - box[3]) * pt, box[2] * pt, (page.height - box[1]) * pt)


def _square_test(window: Window) -> Callable[[tuple[Placed, ...]], bool]:
    def holds_square(placed: tuple[Placed, ...]) -> bool:
        space = FreeSpace(0.0, 0.0, window.width, window.height)
        for line in drawn_lines(placed).cuts:
            space.mark_line(line)
        return space.holds_square(ROOM)

    return holds_square


def _long_measures(layout: Layout, window: Window, words: TileWords, ruler: TextRuler) -> tuple[PlannedMeasure, ...]:
    """One for each template, at the first of its places where its words can stand in the line on some page."""
    lines = drawn_lines(layout.placed)
    spaces = {cell: _marked_space(lines, shift_to_page(cell, window), window) for cell in layout.printed}
    found: list[PlannedMeasure] = []
    for one in layout.placed:
        alone = len(layout.placed) == len(layout.printed) == 1
        beside = [(measure, measure_words(measure, layout, window, words)) for measure in (measures_beside(one) if alone else ())]
        roomy = next((place for place in beside if _fits_beside(*place, spaces[layout.printed[0]], window, ruler)), None)
        if roomy is None:
            places = [(measure, measure_words(measure, layout, window, words)) for measure in long_measures(one, lines.all)]
            roomy = next((place for place in places if _has_room(place[0], " ".join(place[1]), spaces, window, ruler)), None)
        measure, parts = roomy or places[0]
        found.append(PlannedMeasure(measure, " ".join(parts), parts, one.template.key, in_words=roomy is None))
    return tuple(found)


def _fits_beside(measure: LongMeasure, parts: tuple[str, ...], space: FreeSpace, window: Window, ruler: TextRuler) -> bool:
    """Whether the line and its words are within the window, and leave the check square its room if it had any."""
    to_page = shift_to_page((0, 0), window)
    part = measure_part(measure, to_page, window)
    box = label_box(part, " ".join(parts), space, ruler, measure.beside) if part else None
    if part is None or box is None:
        return False
    left = space.copy()
    left.mark_box(box)
    for line in (part, *shifted(measure.extensions, to_page)):
        left.mark_line(line)
    return left.holds_square(ROOM) or not space.holds_square(ROOM)


def _marked_space(lines: DrawnLines, to_page: tuple[float, float], window: Window) -> FreeSpace:
    space = FreeSpace(window.left, window.head, window.right, window.tail)
    dx, dy = to_page
    for x0, y0, x1, y1 in lines.all:
        space.mark_line((x0 + dx, y0 + dy, x1 + dx, y1 + dy))
    return space


def _has_room(
    measure: LongMeasure, text: str, spaces: dict[tuple[int, int], FreeSpace], window: Window, ruler: TextRuler
) -> bool:
    for cell, space in spaces.items():
        part = measure_part(measure, shift_to_page(cell, window), window)
        if part and next(label_boxes(part, text, space, ruler), None):
            return True
    return False
