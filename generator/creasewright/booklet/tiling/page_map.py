"""The page map: which tiles are printed, where this one lies, and the template's outline behind them. mm of the page, y down."""

from msgspec import Struct

from creasewright.booklet.drawing import Item, Pen, Run, Shape, Tagged, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.placing import Cell, Layout
from creasewright.booklet.tiling.spots import moved_outline
from creasewright.booklet.tiling.template_form import box_path, outline_path
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.plane_transform import Affine

MOST_HEIGHT, MOST_WIDTH, MOST_CELL = 18.4, 52.0, 9.2
NAME_SIZE = 9.5


class PageMap(Struct, frozen=True):
    rows: int
    columns: int
    printed: tuple[Cell, ...]


def page_map(layout: Layout) -> PageMap:
    return PageMap(layout.rows, layout.columns, layout.printed)


def as_text(shown: PageMap) -> str:
    """A row a line, `#` for a printed tile and `.` for one left out."""
    return "\n".join(
        "".join("#" if (row, column) in shown.printed else "." for column in range(shown.columns)) for row in range(shown.rows)
    )


def cell_size(shown: PageMap, window: Window) -> tuple[float, float]:
    tall = min(MOST_CELL, MOST_HEIGHT / shown.rows, MOST_WIDTH / shown.columns * window.height / window.width)
    return tall * window.width / window.height, tall


def map_items(
    layout: Layout, here: Cell, window: Window, right: float, head: float, ruler: TextRuler, links: dict[Cell, str]
) -> tuple[list[Item], float]:
    """The map with its head-right corner at (right, head), and its left edge; `links` are the bookmarks of the tiles' pages."""
    shown = page_map(layout)
    wide, tall = cell_size(shown, window)
    left = right - shown.columns * wide
    scale = tall / window.height
    shrink = Affine(scale, 0.0, 0.0, scale, left, head)
    items: list[Item] = [_cell(cell, here, left, head, wide, tall, fill=True) for cell in layout.printed if cell == here]
    for one in layout.placed:
        items.append(
            Shape(
                outline_path(moved_outline(one.to_grid.then(shrink), one.template.outline)), Pen("RULE", 0.6), role="map outline"
            )
        )
    items += [
        _cell(cell, here, left, head, wide, tall, fill=False) for cell in sorted(layout.printed, key=lambda cell: cell == here)
    ]
    height = ruler.cap_height("Bold", NAME_SIZE)
    for cell in layout.printed:
        name = layout.names[cell]
        if ruler.width(name, "Bold", NAME_SIZE) + 0.8 > wide:
            name = name.rpartition("-")[2]
        if ruler.width(name, "Bold", NAME_SIZE) + 0.8 > wide or height + 0.8 > tall:
            continue
        run = Run(name, "Bold", NAME_SIZE, "ACC") if cell == here else Run(name, "Regular", NAME_SIZE)
        text = Words(left + (cell[1] + 0.5) * wide, head + (cell[0] + 0.5) * tall + height / 2, (run,), "middle", role="map name")
        items.append(Tagged("Link", (text,), link=links[cell]) if cell in links and cell != here else text)
    return items, left


def _cell(cell: Cell, here: Cell, left: float, head: float, wide: float, tall: float, fill: bool) -> Shape:
    x, y = left + cell[1] * wide, head + cell[0] * tall
    path = box_path(x, y, x + wide, y + tall)
    if fill:
        return Shape(path, fill="ACC3", role="map here")
    return Shape(path, Pen("ACC", 1.5) if cell == here else Pen("INK2", 0.5), role="map tile")
