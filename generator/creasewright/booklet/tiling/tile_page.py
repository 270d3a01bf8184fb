"""One template page: the head, the window with its drawing and marks, the foot. mm of the page, y down."""

from msgspec import Struct

from creasewright.booklet.drawing import FormUse, Item, Mark, Tagged
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.check_square import SIDE, SquarePlace, check_square, square_place
from creasewright.booklet.tiling.diagonal import diagonal_items, diagonal_text
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.long_measure import LongMeasure, PlannedMeasure, label_box, measure_items, measure_part, shifted
from creasewright.booklet.tiling.page_map import map_items
from creasewright.booklet.tiling.panel_labels import LabelRoom, LabelWords, labels
from creasewright.booklet.tiling.placing import Cell, DrawnLines, Layout, Segment, clipped, placed_on
from creasewright.booklet.tiling.registration import (
    Neighbours,
    comb,
    comb_places,
    corner_boxes,
    frame,
    neighbour_names,
    neighbours_of,
    strips,
)
from creasewright.booklet.tiling.spots import Spot, moved_polygon
from creasewright.booklet.tiling.template_form import box_path
from creasewright.booklet.tiling.tile_text import FootFacts, foot_words, head_words
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.plane_transform import shift as translation

BEYOND = 0.5
"""mm; how far past the window's edge the drawing may be seen where no neighbour follows, so that a line on the edge is whole."""


class Setting(Struct, frozen=True):
    """What all pages of one layout share."""

    layout: Layout
    form: str
    form_at: Spot
    """The form's head-left corner in the grid frame."""
    lines: DrawnLines
    measures: tuple[PlannedMeasure, ...]
    window: Window
    words: TileWords
    ruler: TextRuler
    links: dict[Cell, str]
    """Bookmarks of the tiles' pages."""
    diagonal: LongMeasure | None = None


class TilePage(Struct, frozen=True):
    items: tuple[Item, ...]
    square: SquarePlace


def shift_to_page(cell: Cell, window: Window) -> Spot:
    return window.left - cell[1] * window.width, window.head - cell[0] * window.height


def tile_page(setting: Setting, cell: Cell) -> TilePage:
    window, words, ruler = setting.window, setting.words, setting.ruler
    shift = shift_to_page(cell, window)
    cuts, scores = _on_page(setting.lines.cuts, shift, window), _on_page(setting.lines.scores, shift, window)
    beside = neighbours_of(cell, setting.layout.printed)
    space = FreeSpace(window.left, window.head, window.right, window.tail)
    marks = frame(window, beside.any, cuts + scores)
    if beside.any:
        for box in corner_boxes(window):
            space.mark_box(box)
    for side in ("right", "tail", "left", "head"):
        marks += _combs(setting, cell, side, beside, space)
    lines = FreeSpace(window.left, window.head, window.right, window.tail)
    for line in cuts:
        lines.mark_line(line)
        space.mark_line(line)
    over_scores = space.copy()
    for line in scores:
        lines.mark_line(line)
        space.mark_line(line)
    bare = over_scores.copy()
    measures = _measures(setting, shift, space, over_scores)
    names = neighbour_names(window, beside, setting.layout.names, space, ruler)
    crossing, unsaid = _diagonal(setting, cell, shift, space)
    square, inscribed, inside = _square_and_labels(setting, cell, shift, space, (over_scores, bare), lines)
    grey, strip_words = strips(window, beside, setting.layout.names, words)
    map_head = window.tail + window.foot + 2.1
    map_drawn, map_left = map_items(setting.layout, cell, window, window.right - 14.0, map_head, ruler, setting.links)
    foot = FootFacts(setting.layout, cell, beside, _measure_in_foot(setting), unsaid)
    figure: tuple[Item, ...] = (_form_use(setting, shift, beside), *measures, *crossing, *inside)
    items = (
        *head_words(setting.layout, cell, window, words, ruler),
        Mark((*grey, *marks)),
        Tagged("Figure", figure, alt=_alternative(setting, cell)),
        Mark((*inscribed, *names, *strip_words)),
        *foot_words(foot, window, words, ruler, map_left, setting.layout.names[cell]),
        *_map_parts(map_drawn),
    )
    return TilePage(items, square)


def _map_parts(items: list[Item]) -> list[Item]:
    return [
        Mark(tuple(item for item in items if not isinstance(item, Tagged))),
        *(item for item in items if isinstance(item, Tagged)),
    ]


def _on_page(lines: tuple[Segment, ...], shift: Spot, window: Window) -> tuple[Segment, ...]:
    dx, dy = shift
    moved = ((x0 + dx, y0 + dy, x1 + dx, y1 + dy) for x0, y0, x1, y1 in lines)
    parts = (clipped(line, window.left, window.head, window.right, window.tail) for line in moved)
    return tuple(part for part in parts if part)


def _form_use(setting: Setting, shift: Spot, beside: Neighbours) -> FormUse:
    window = setting.window
    clip = box_path(
        window.left - (0.0 if beside.left else BEYOND),
        window.head - (0.0 if beside.head else BEYOND),
        window.right + (0.0 if beside.right else BEYOND),
        window.tail + (0.0 if beside.tail else BEYOND),
    )
    return FormUse(setting.form, setting.form_at[0] + shift[0], setting.form_at[1] + shift[1], clip)


def _combs(setting: Setting, cell: Cell, side: str, beside: Neighbours, space: FreeSpace) -> list[Item]:
    """Both combs of one edge; their places are found in the join's own frame, so that both tiles agree."""
    if beside.at(side) is None:
        return []
    window = setting.window
    if side in ("left", "right"):
        x, y = (cell[1] + (side == "right")) * window.width, cell[0] * window.height
        turned = tuple((y0 - y, x0 - x, y1 - y, x1 - x) for x0, y0, x1, y1 in setting.lines.all)
        length = window.height
    else:
        x, y = cell[1] * window.width, (cell[0] + (side == "tail")) * window.height
        turned = tuple((x0 - x, y0 - y, x1 - x, y1 - y) for x0, y0, x1, y1 in setting.lines.all)
        length = window.width
    items: list[Item] = []
    for at in comb_places(length, turned):
        ticks, box = comb(window, side, at)
        items += ticks
        space.mark_box(box)
    return items


def _measures(setting: Setting, shift: Spot, space: FreeSpace, over_scores: FreeSpace) -> list[Item]:
    window = setting.window
    items: list[Item] = []
    for planned in setting.measures:
        measure, text = planned.measure, planned.text
        part = measure_part(measure, shift, window)
        if part is None or planned.in_words:
            continue
        box = label_box(part, text, space, setting.ruler, measure.beside)
        items += measure_items(measure, part, shift, text, box, setting.ruler)
        for each in (space, over_scores):
            for line in (part, *shifted(measure.extensions, shift)):
                each.mark_line(line)
            if box:
                each.mark_box(box)
    return items


def _diagonal(setting: Setting, cell: Cell, shift: Spot, space: FreeSpace) -> tuple[list[Item], str]:
    """The rings at the ends of the diagonal, and its words where they have no room beside one."""
    if setting.diagonal is None:
        return [], ""
    layout, window, words = setting.layout, setting.window, setting.words
    items, unsaid = diagonal_items(setting.diagonal, layout, cell, shift, space, window, words, setting.ruler)
    return items, diagonal_text(setting.diagonal, layout, window, words) if unsaid else ""


def _square_and_labels(
    setting: Setting, cell: Cell, shift: Spot, space: FreeSpace, over: tuple[FreeSpace, FreeSpace], lines: FreeSpace
) -> tuple[SquarePlace, list[Item], list[Item]]:
    """The check square's place, its items, and the labels; the labels make way where only so the square lies clear.

    `over`: what is taken without the scores, and without the long measures too.
    """
    labelled = space.copy()
    inside = _labels(setting, cell, shift, labelled, lines)
    square = square_place(((labelled, "nothing"),))
    if square:
        return square, check_square(square, setting.words, setting.ruler, labelled), inside
    square = square_place(((space, "nothing"), (over[0], "scores"), (over[1], "scores"))) or _middle(setting.window)
    inscribed = check_square(square, setting.words, setting.ruler, space)
    space.mark_box((square.left, square.head, square.left + SIDE, square.head + SIDE))
    return square, inscribed, _labels(setting, cell, shift, space, lines)


def _middle(window: Window) -> SquarePlace:
    return SquarePlace(window.left + (window.width - SIDE) / 2, window.head + (window.height - SIDE) / 2, "cuts")


def _labels(setting: Setting, cell: Cell, shift: Spot, space: FreeSpace, lines: FreeSpace) -> list[Item]:
    placed, to_page = placed_on(setting.layout, cell, setting.window), translation(*shift)
    in_words = {planned.template: planned.parts for planned in setting.measures if planned.in_words and len(placed) > 1}
    room = LabelRoom(
        space, lines, {one.template.key: moved_polygon(one.to_grid.then(to_page), one.template.polygon) for one in placed}
    )
    items: list[Item] = []
    for one in placed:
        measure = in_words.get(one.template.key, ())
        items += labels(one, shift, room, LabelWords(len(placed) > 1, measure, setting.words), setting.ruler)
    return items


def _measure_in_foot(setting: Setting) -> str:
    """The long measure of a template alone on its pages, if no line could carry its words."""
    planned = setting.measures[0]
    return planned.text if planned.in_words and len(setting.layout.placed) == 1 else ""


def _alternative(setting: Setting, cell: Cell) -> str:
    names = ", ".join(one.template.name for one in placed_on(setting.layout, cell, setting.window))
    return setting.words.alternative.format(name=names, tile=setting.layout.names[cell], count=len(setting.layout.printed))
