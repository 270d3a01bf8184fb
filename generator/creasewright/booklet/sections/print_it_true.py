"""Print it true: what to print on what, rulers to check a printer by, what to beware of, and the marks of this pack."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.key_blocks import key_blocks
from creasewright.booklet.marks_used import marks_used
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, Column, grid_columns, table
from creasewright.booklet.template_pages import template_page_count, template_prefix
from creasewright.booklet.text_blocks import bullet_list, group_head, text_blocks
from creasewright.booklet.tools_needed import dangers, tool_needs
from creasewright.booklet.true_rulers import BREADTH, true_ruler
from creasewright.booklet.typeset import paragraph, paragraphs
from creasewright.units.printer import USUAL_WHITE, stretch_of
from creasewright.units.quantity import MM_PER_INCH
from creasewright.units.ruler import mark_in_words

MILLIMETRES, INCHES = 150, 6
"""Of the rulers."""
SHORTER = (70, 3)
"""On half sheets, which hold no longer ones."""
UPRIGHT, CORNER = 11.0, 22.0
"""mm from the left end of the measure to the upright ruler's line, and to the level ruler's 0."""
READINGS, SIXTEENTHS = 5, 4
"""How many whole millimetres, and sixteenths of an inch, are told on either side of the true reading."""
AFTER_RULER, BETWEEN, AFTER_TEXT = 6.0, 6.0, 3.0
"""mm"""


def build(context: PackContext) -> Section | None:
    head = PageHead(section_text(context, "care and marks"), own=True)
    others = (*_cautions(context), *key_blocks(context, marks_used(context)))
    blocks = (*_pages(context), *_true_size(context), *(replace(block, head=head) for block in others))
    return Section(context.section.key, context.section.title, "", context.section.numbered, blocks)


# --- which pages on what


def _pages(context: PackContext) -> tuple[Block, ...]:
    names = ("pages", "print on", "how")
    columns = grid_columns(context.page, [(section_text(context, name), 2 * k, 2) for k, name in enumerate(names)])
    reading = [each.title for each in context.layout.sections_on if each.key not in ("templates", "cover")]
    rows: list[tuple[Cell, ...]] = [
        (
            section_text(context, "reading pages", first=reading[0] if reading else "", last=reading[-1] if reading else ""),
            section_text(context, "reading paper"),
            section_text(context, "reading scale"),
        )
    ]
    count = template_page_count(context)
    if count:
        prefix = template_prefix(context)
        pages = section_text(context, "template pages", first=f"{prefix}1", last=f"{prefix}{count}", count=count)
        rows.append((pages, section_text(context, "template paper"), section_text(context, "template scale")))
    title = section_text(context, "what on what")
    return table("print", columns, rows, context.layout, context.text, context.page.measure, title, pad=1.6)


# --- rulers


def _true_size(context: PackContext) -> tuple[Block, ...]:
    """The rulers round a corner, the words and the tables within it: one block, so that all are on one page."""
    across, along = stretch_of(context.printer)
    millimetres, inches = (MILLIMETRES, INCHES) if _is_roomy(context, across) else SHORTER
    long = max(float(millimetres), float(inches * MM_PER_INCH)) * along
    level = Group(true_ruler(context.text, millimetres, inches, False, across), CORNER, BREADTH, role="level ruler")
    upright = Group(true_ruler(context.text, millimetres, inches, True, along), UPRIGHT, BREADTH, role="upright ruler")
    left, top = CORNER + 2.0, 2 * BREADTH + AFTER_RULER
    width = context.page.measure - left
    alt = section_text(context, "rulers alt", millimetres=millimetres, inches=inches)
    items: list[Item] = [Tagged("Figure", (level, upright), alt=alt)]
    scale = section_text(
        context, "scale", templates=bool(template_page_count(context)), printer=context.printer.name if context.printer else ""
    )
    for text in paragraphs(scale):
        lines, height = paragraph(text, left, top, width, context.text, context.layout.types["text"])
        items.append(Tagged("P", lines))
        top += height + AFTER_TEXT
    tables, bottom = _reading_tables(context, millimetres, inches, left, top, width)
    head = group_head(section_text(context, "true size"), context.layout, context.page.measure, context.text)
    height = max(BREADTH + long + 3.0, bottom)
    return (head, Block(height, (*items, *tables), space_before=4.0))


def _is_roomy(context: PackContext, stretch: float) -> bool:
    """Whether the long ruler, made for the pack's printer, ends within the page; a stretched one may run into the outer margin."""
    page, printer = context.page, context.printer
    spare = page.outer - max(USUAL_WHITE, float(printer.margins[2])) if printer is not None else 0.0
    return page.measure + spare >= CORNER + float(INCHES * MM_PER_INCH) * stretch


def _reading_tables(
    context: PackContext, millimetres: int, inches: int, left: float, top: float, width: float
) -> tuple[list[Item], float]:
    """What to type for each reading: in millimetres, and where the pack speaks inches in inches as well."""
    half = (width - BETWEEN) / 2
    found = [(f"{millimetres} mm", scale_rows(context, millimetres, Fraction(1), READINGS))]
    if context.system == "in":
        found.append((f"{inches} in", scale_rows(context, inches * 16, MM_PER_INCH / 16, SIXTEENTHS)))
    items: list[Item] = []
    bottom = top
    for k, (length, rows) in enumerate(found):
        title = section_text(context, "reads", length=length)
        columns = (Column(title, 0, half * 0.5, names_row=True), Column(section_text(context, "type"), half * 0.55, half * 0.4))
        y = top
        placed: list[Item] = []
        for block in table(f"readings {k}", columns, rows, context.layout, context.text, half, pad=0.35):
            placed.append(Group(block.items, left + k * (half + BETWEEN), y))
            y += block.height
        items.append(Tagged("Table", tuple(placed)))
        bottom = max(bottom, y)
    return items, bottom


def scale_rows(context: PackContext, marks: int, step: Fraction, around: int) -> list[tuple[Cell, ...]]:
    """Reading and scale for each mark about the true one: what should be `marks` long and reads r is printed at r / marks."""
    rows: list[tuple[Cell, ...]] = []
    for reading in range(marks - around, marks + around + 1):
        said = f"{reading} mm" if step == 1 else mark_in_words(reading * step, context.worked.ruler).text
        percent = scale_to_type(marks, reading)
        rows.append((f"**{said}**" if reading == marks else said, f"**{percent} %**"))
    return rows


def scale_to_type(true: int, reading: int) -> str:
    """Per cent, exact to a tenth, halves up: `103.4` for 150 that reads 145."""
    tenths = (Fraction(1000 * true, reading) + Fraction(1, 2)).__floor__()
    return f"{tenths // 10}.{tenths % 10}"


# --- cautions


def _cautions(context: PackContext) -> tuple[Block, ...]:
    keys = dangers(context.worked, tool_needs(context.worked, context.plans, context.board))
    texts = [section_text(context, f"caution {key}") for key in keys]
    head = group_head(section_text(context, "take care"), context.layout, context.page.measure, context.text)
    rules = text_blocks(section_text(context, "rules"), context.layout, context.page.measure, context.text, space_before=2.0)
    listed = bullet_list(texts, context.layout, context.page.measure, context.text, "cautions")
    return (head, *(replace(block, keep_with_next=True) for block in listed), *rules)
