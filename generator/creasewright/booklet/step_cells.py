"""Steps as cells in rows: number, state line, sentence, picture; a cell is as wide as its picture and words need."""

from collections.abc import Sequence

from creasewright.booklet.block import Block
from creasewright.booklet.diagrams.action_marks import action_mark
from creasewright.booklet.diagrams.axonometric import draw_space, largest_scale
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scales import SCALES, Scale
from creasewright.booklet.diagrams.scene import Picture, PlanScene, SpaceScene
from creasewright.booklet.drawing import Group, Item, Mark, Pen, Shape, Tagged, Words
from creasewright.booklet.rules import polygon, rule
from creasewright.booklet.step_rows import (
    BESIDE,
    BETWEEN,
    TEXT,
    TO_PICTURE,
    Pages,
    PlacedCell,
    SizedCell,
    StepCell,
    lowest_rows,
    row_height,
)
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import line_width, one_line, paragraph
from creasewright.joining.compass import box
from creasewright.reading.page_layout import PageLayout, PageSize

TALLEST = 92.0
"""mm that a picture may be high."""
WIDTHS = (2, 3, 4, 6)
NUMBER, STATE = 8.6, 6.6
"""From a cell's rule: baseline of its number, baseline of the state line, mm."""
TICK = 3.4
"""Side of the box to tick, mm."""
X_HEIGHT = 0.71
"""Of a small letter, as a share of a capital's height: the box stands at the middle of the state line's small letters."""
TO_NOTE = 0.8
"""mm from a step's text to the note below it."""
ASIDE, BARE = 11.0, 3.0
"""mm that labels and measures take on one side of a picture, for the choice of scale and width; and where it has none there."""
AS_LARGE = 0.5
"""A picture in space keeps the scale of the plans about it, if it is at least so large, as a share of what its cell holds."""


class CellMaker:
    def __init__(self, layout: PageLayout, page: PageSize, ruler: TextRuler) -> None:
        self.layout, self.page, self.ruler = layout, page, ruler
        self.in_spaces: dict[tuple[int, str], Picture] = {}
        """By the scene's identity and the scale: some cells are sized twice."""
        self.set_texts: dict[tuple[str, float, int], tuple[tuple[Words, ...], float]] = {}

    # --- choosing

    def sized(self, cells: Sequence[StepCell], common: Scale | None, last: str = "") -> list[SizedCell]:
        """Every cell with its width and its picture; pictures keep one scale where they can. `last`: that of the picture before."""
        found: list[SizedCell] = []
        for cell in cells:
            picture = self.one(cell, common)
            found.append(SizedCell(cell, self.least_columns(cell), picture, bool(last and picture.scale) and picture.scale != last))
            last = picture.scale or last
        return found

    def common_scale(self, cells: Sequence[StepCell]) -> Scale | None:
        """The largest at which most plans stand in half a row; None where there are no plans."""
        plans = [cell.picture.plan for cell in cells if cell.picture.plan is not None and cell.picture.plan.facets]
        sizes = [(*extent(plan), margin(plan)) for plan in plans]
        if not sizes:
            return None
        for scale in SCALES[2:]:
            wide = [w * scale[1] + aside for w, _, aside in sizes]
            high = [h * scale[1] + 2 * ASIDE for _, h, _ in sizes]
            if (
                all(w <= self.page.span(6) for w in wide)
                and all(h <= TALLEST + 6 for h in high)
                and sum(w <= self.page.span(3) for w in wide) * 5 >= 3 * len(wide)
            ):
                return scale
        return SCALES[-1]

    def one(self, cell: StepCell, common: Scale | None) -> Picture:
        """Drawn for the narrowest cell that holds it; it may then stand in a wider one."""
        if cell.picture.space is not None:
            return self.in_space(cell.picture.space, common)
        plan = cell.picture.plan
        if plan is None or not plan.facets or common is None:
            return Picture((), 0.0, 0.0, "")
        best: Picture | None = None
        least = self.least_columns(cell)
        for columns in WIDTHS:
            if columns < least or extent(plan)[0] * common[1] > self.page.span(columns):
                continue
            picture = draw_plan(plan, self.page.span(columns), TALLEST, self.ruler, scale=common[0])
            best = picture
            if picture.width <= self.page.span(columns) + 0.3 and picture.height <= TALLEST + 12:
                return picture
        if best is None or best.width > self.page.span(6) + 0.3:
            return draw_plan(plan, self.page.span(6), TALLEST, self.ruler)
        return best

    def in_space(self, scene: SpaceScene, common: Scale | None) -> Picture:
        box = self.page.span(3), TALLEST - 10
        largest = largest_scale(scene, *box, ruler=self.ruler)
        scale = common if common and AS_LARGE * largest[1] <= common[1] <= largest[1] else largest
        key = id(scene), scale[0]
        if key not in self.in_spaces:
            self.in_spaces[key] = draw_space(scene, *box, scale=scale[0], ruler=self.ruler)
        return self.in_spaces[key]

    def least_columns(self, cell: StepCell) -> int:
        """For its number, marks and state line beside each other."""
        style = self.layout.types["state line"]
        marks = sum(action_mark(action.kind, action.text, self.ruler).width + 3.0 for action in cell.picture.marks)
        head = 12.0 + marks + line_width(one_line(cell.state_words + " · 1:2.5", style), self.ruler) + TICK + 6.0
        return next((c for c in WIDTHS if head <= self.page.span(c)), 6)

    # --- laying out

    def rows(self, cells: Sequence[SizedCell], pages: Pages, below: float) -> list[list[PlacedCell]]:
        """In order, on as little paper as they can be, with what is `below` mm high and follows them."""
        return lowest_rows(cells, self.placed, pages, below)

    def placed(self, cell: SizedCell, columns: int, beside: int) -> PlacedCell | None:
        """The cell `columns` wide, its picture below its text, or in the last `beside` columns; None if it does not fit so."""
        full = columns == 6 and not beside
        if not full and (columns < cell.least or cell.picture.width > self.page.span(beside or columns) + 0.3):
            return None
        words, height = self.text_of(cell.cell.text, "step text", TEXT, columns - beside)
        if not cell.cell.note:
            return PlacedCell(cell, columns, beside, words, height)
        note, more = self.text_of(cell.cell.note, "side note", TEXT + height + TO_NOTE, columns - beside)
        return PlacedCell(cell, columns, beside, words, height + TO_NOTE + more, note)

    def block(self, row: Sequence[PlacedCell], key: str) -> Block:
        below = TEXT + max((cell.text_height for cell in row if not cell.beside), default=0.0) + TO_PICTURE
        items: list[Item] = []
        column = 0
        for cell in row:
            drawn = self.cell_items(cell, BESIDE if cell.beside else below)
            items.append(Group(drawn, self.page.column_left(column), 0.0))
            column += cell.columns
        return Block(row_height(row), tuple(items), space_before=BETWEEN, within=f"L {key}")

    def text_of(self, text: str, style: str, top: float, columns: int) -> tuple[tuple[Words, ...], float]:
        """Set once for each width and place, though many rows are weighed."""
        key = text, top, columns
        if key not in self.set_texts:
            self.set_texts[key] = paragraph(text, 0, top, self.page.span(columns), self.ruler, self.layout.types[style])
        return self.set_texts[key]

    def cell_items(self, placed: PlacedCell, picture_top: float) -> tuple[Item, ...]:
        cell, width = placed.cell, self.page.span(placed.columns)
        number = one_line(cell.cell.number, self.layout.types["step number"]) if cell.cell.number else ()
        label: tuple[Item, ...] = (Tagged("Lbl", (Words(0, NUMBER, number, role="step number"),)),) if number else ()
        marks = self.marks(cell, line_width(number, self.ruler) + 4.0 if number else 0.0)
        room = self.page.span(placed.beside) if placed.beside else width
        left = width - room + (room - cell.picture.width) / 2
        figure: tuple[Item, ...] = ()
        if cell.picture.items:
            drawn = Group(cell.picture.items, max(0.0, left), picture_top)
            figure = (Tagged("Figure", (drawn,), alt=cell.cell.alt),)
        note = (Tagged("P", placed.note),) if placed.note else ()
        body = Tagged("LBody", (Tagged("P", placed.words), *note, *figure))
        tick = Mark((rule(self.layout, "group rule", 0, width, 0.0), *self.tick(cell, width)))
        return (tick, Tagged("LI", (*label, *self.state_line(cell, width), body)), *marks)

    def tick(self, cell: SizedCell, width: float) -> tuple[Item, ...]:
        if not cell.cell.number:
            return ()
        style = self.layout.types["state line"]
        x, y = width - TICK, STATE - X_HEIGHT * self.ruler.cap_height(style.face, style.size) / 2 - TICK / 2
        path = polygon((x, y), (x + TICK, y), (x + TICK, y + TICK), (x, y + TICK))
        return (Shape(path, Pen("INK2", 0.6), role="box to tick"),)

    def state_line(self, cell: SizedCell, width: float) -> tuple[Item, ...]:
        words = " · ".join(filter(None, (cell.cell.state_words, "" if cell.rescaled else cell.picture.scale)))
        style = self.layout.types["state line"]
        runs = one_line(words, style) if words else ()
        end = width - TICK - 2.4
        items: list[Item] = []
        if cell.rescaled and cell.picture.scale:
            bold = self.layout.types["step number"]
            scale_runs = one_line(f"**{cell.picture.scale}**", style)
            scale_runs = tuple(type(run)(run.text, "Bold", run.size, bold.colour) for run in scale_runs)
            items.append(Words(end, STATE, scale_runs, "end", role="state line"))
            mark = action_mark("scale", "", self.ruler)
            end -= line_width(scale_runs, self.ruler) + mark.width + 1.6
            items.append(Group(mark.items, end + 0.8, STATE - mark.height + 0.8, role="scale mark"))
            end -= 2.0
        if runs:
            items.append(Words(end, STATE, runs, "end", role="state line"))
        return (Tagged("P", tuple(items)),) if items else ()

    def marks(self, cell: SizedCell, left: float) -> tuple[Item, ...]:
        items: list[Item] = []
        for action in cell.cell.picture.marks:
            mark = action_mark(action.kind, action.text, self.ruler)
            items.append(Mark((Group(mark.items, left, 1.6 + max(0.0, (8.0 - mark.height) / 2), role=f"mark {action.kind}"),)))
            left += mark.width + 3.0
        return tuple(items)


def margin(plan: PlanScene) -> float:
    """mm that both sides of a plan need for what stands beside it: upright measures, lenses, names of edges."""
    beside = any(dim.side in ("left", "right") for dim in plan.dimensions) or any(name.edge in ("left", "right") for name in plan.names)
    return 2 * (ASIDE if beside else BARE)


def extent(plan: PlanScene) -> tuple[float, float]:
    x0, y0, x1, y1 = box([facet.polygon for facet in plan.facets])
    return x1 - x0, y1 - y0
