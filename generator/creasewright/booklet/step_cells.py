"""Steps as cells in rows: number, state line, sentence, picture; a cell is as wide as its picture and words need."""

from collections.abc import Sequence

from msgspec import Struct

from creasewright.booklet.block import Block
from creasewright.booklet.diagrams.action_marks import action_mark
from creasewright.booklet.diagrams.axonometric import draw_space
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scales import SCALES, Scale
from creasewright.booklet.diagrams.scene import Picture, PlanScene
from creasewright.booklet.drawing import Group, Item, Mark, Pen, Shape, Tagged, Words
from creasewright.booklet.rules import polygon, rule
from creasewright.booklet.step_picture import StepPicture
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import line_width, one_line, paragraph, set_lines
from creasewright.joining.compass import box
from creasewright.reading.page_layout import PageLayout, PageSize

TALLEST = 92.0
"""mm that a picture may be high."""
WIDTHS = (2, 3, 4, 6)
LINES_IN_A_THIRD = 4
NUMBER, STATE, TEXT = 8.6, 6.6, 11.2
"""From a cell's rule: baseline of its number, baseline of the state line, top of its text, mm."""
TO_PICTURE, AFTER = 3.0, 7.0
TICK = 3.4
"""Side of the box to tick, mm."""
ASIDE = 11.0
"""What labels and measures take on one side of a picture, for the choice of scale and width."""


class StepCell(Struct, frozen=True):
    number: str
    """Empty for the picture of a result."""
    text: str
    picture: StepPicture
    state_words: str
    """Which side is up."""
    alt: str


class SizedCell(Struct, frozen=True):
    cell: StepCell
    columns: int
    picture: Picture
    rescaled: bool
    """The scale differs from that of the cell before."""


class CellMaker:
    def __init__(self, layout: PageLayout, page: PageSize, ruler: TextRuler) -> None:
        self.layout, self.page, self.ruler = layout, page, ruler

    # --- choosing

    def sized(self, cells: Sequence[StepCell], last: str = "") -> list[SizedCell]:
        """Every cell with its width and its picture; plans keep one scale where they can. `last`: the scale of the picture before."""
        common = self.common_scale([cell.picture.plan for cell in cells if cell.picture.plan is not None and cell.picture.plan.facets])
        found: list[SizedCell] = []
        for cell in cells:
            columns, picture = self.one(cell, common)
            found.append(SizedCell(cell, columns, picture, bool(last and picture.scale) and picture.scale != last))
            last = picture.scale or last
        return found

    def common_scale(self, plans: list[PlanScene]) -> Scale:
        sizes = [extent(plan) for plan in plans]
        for scale in SCALES[2:]:
            wide = [w * scale[1] + 2 * ASIDE for w, _ in sizes]
            high = [h * scale[1] + 2 * ASIDE for _, h in sizes]
            if (
                all(w <= self.page.span(6) for w in wide)
                and all(h <= TALLEST + 6 for h in high)
                and sum(w <= self.page.span(3) for w in wide) * 5 >= 3 * len(wide)
            ):
                return scale
        return SCALES[-1]

    def one(self, cell: StepCell, common: Scale) -> tuple[int, Picture]:
        if cell.picture.space is not None:
            return 3, draw_space(cell.picture.space, self.page.span(3), TALLEST - 10, ruler=self.ruler)
        plan = cell.picture.plan
        if plan is None or not plan.facets:
            return self.columns_for_text(cell.text), Picture((), 0.0, 0.0, "")
        best: tuple[int, Picture] | None = None
        for columns in WIDTHS:
            if columns < self.least_columns(cell) or extent(plan)[0] * common[1] > self.page.span(columns):
                continue
            picture = draw_plan(plan, self.page.span(columns), TALLEST, self.ruler, scale=common[0])
            best = (columns, picture)
            if picture.width <= self.page.span(columns) + 0.3 and picture.height <= TALLEST + 12:
                return best
        if best is None or best[1].width > self.page.span(best[0]) + 0.3:
            return 6, draw_plan(plan, self.page.span(6), TALLEST, self.ruler)
        return best

    def least_columns(self, cell: StepCell) -> int:
        """For its text, and for its number, marks and state line beside each other."""
        style = self.layout.types["state line"]
        marks = sum(action_mark(action.kind, action.text, self.ruler).width + 3.0 for action in cell.picture.marks)
        head = 12.0 + marks + line_width(one_line(cell.state_words + " · 1:2.5", style), self.ruler) + TICK + 6.0
        return max(self.columns_for_text(cell.text), next((c for c in WIDTHS if head <= self.page.span(c)), 6))

    def columns_for_text(self, text: str) -> int:
        style = self.layout.types["step text"]
        for columns in WIDTHS[:-1]:
            if len(set_lines(text, self.page.span(columns), self.ruler, style)) <= LINES_IN_A_THIRD:
                return columns
        return 6

    # --- laying out

    def rows(self, cells: Sequence[SizedCell]) -> list[list[SizedCell]]:
        """In order, as many as fit the six columns."""
        rows: list[list[SizedCell]] = []
        used = 7
        for cell in cells:
            if used + cell.columns > 6:
                rows.append([])
                used = 0
            rows[-1].append(cell)
            used += cell.columns
        return rows

    def block(self, row: Sequence[SizedCell], key: str, again: Block | None = None) -> Block:
        """One row; `again` is set above it where it begins a page in the middle of its assembly."""
        texts = [self.text_of(cell) for cell in row]
        text_height = max(height for _, height in texts)
        picture_top = TEXT + text_height + TO_PICTURE
        height = picture_top + max(cell.picture.height for cell in row)
        items: list[Item] = []
        column = 0
        for cell, (lines, _) in zip(row, texts, strict=True):
            items.append(Group(self.cell_items(cell, lines, picture_top), self.page.column_left(column), 0.0))
            column += cell.columns
        return Block(height, tuple(items), space_before=AFTER, within=f"L {key}", repeat=again)

    def text_of(self, cell: SizedCell) -> tuple[tuple[Words, ...], float]:
        return paragraph(cell.cell.text, 0, TEXT, self.page.span(cell.columns), self.ruler, self.layout.types["step text"])

    def cell_items(self, cell: SizedCell, lines: tuple[Words, ...], picture_top: float) -> tuple[Item, ...]:
        width = self.page.span(cell.columns)
        number = one_line(cell.cell.number, self.layout.types["step number"]) if cell.cell.number else ()
        label: tuple[Item, ...] = (Tagged("Lbl", (Words(0, NUMBER, number, role="step number"),)),) if number else ()
        marks = self.marks(cell, line_width(number, self.ruler) + 4.0 if number else 0.0)
        left = (width - cell.picture.width) / 2
        figure: tuple[Item, ...] = ()
        if cell.picture.items:
            drawn = Group(cell.picture.items, max(0.0, left), picture_top)  # type: ignore[arg-type]
            figure = (Tagged("Figure", (drawn,), alt=cell.cell.alt),)
        body = Tagged("LBody", (Tagged("P", lines), *figure))
        tick = Mark((rule(self.layout, "group rule", 0, width, 0.0), *self.tick(cell, width)))
        return (tick, Tagged("LI", (*label, *self.state_line(cell, width), body)), *marks)

    def tick(self, cell: SizedCell, width: float) -> tuple[Item, ...]:
        if not cell.cell.number:
            return ()
        x, y = width - TICK, 2.6
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


def extent(plan: PlanScene) -> tuple[float, float]:
    x0, y0, x1, y1 = box([facet.polygon for facet in plan.facets])
    return x1 - x0, y1 - y0
