"""Sheet plans: each distinct sheet to scale, its cuts in order with what to set and what they give, and the sheets in all."""

from collections.abc import Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.batch_tables import batch_table, count_check, left_words, leftovers
from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.cut_words import cut_table_rows, fault_texts
from creasewright.booklet.diagrams.scales import SCALES, Scale
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.paper_words import binding_grain, sheet_size, stock_size
from creasewright.booklet.picture_styles import picture_style
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.sheet_drawing import SheetPicture, SheetWords, sheet_picture
from creasewright.booklet.side_words import side_words
from creasewright.booklet.table import Column, table
from creasewright.booklet.text_blocks import bullet_list, group_head, text_blocks
from creasewright.booklet.typeset import literal, paragraph
from creasewright.cutting.plan import Offcut, PaperPlan, Placement, SheetPlan
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import sheet_up
from creasewright.units.ruler import pair_in_words

TALLEST = 112.0
"""mm: a sheet is drawn no taller, so that its table has room beside or under it."""
TITLE_GAP, TABLE_GAP, ROW_PAD = 1.2, 1.5, 0.9
SPILL = 2.0
"""mm by which a sheet with its numbers may reach into the gutter."""
ABOVE = 24.0
"""mm: what stands above the first row, group head and two lines of text."""
FIRST_ROW, BETWEEN_ROWS = 3.0, 9.0
"""mm above the first row of sheets, and between two rows."""


class _Plan(Struct, frozen=True):
    """One sheet plan ready to be set."""

    paper: PaperFacts
    sheet: SheetPlan
    picture: SheetPicture
    title: str
    lies: str
    alt: str
    grain: str
    """As `binding_grain`."""


def build(context: PackContext) -> Section | None:
    if not any(plan.sheets or plan.too_large for plan in context.plans):
        return None
    totals = _totals(context)
    scale, plans = _fitting_plans(context, sum(block.space_before + block.height for block in totals))
    total = sum(plan.sheet_count for plan in context.plans)
    has_cuts = any(plan.sheet.cuts for plan in plans)
    title, note = section_text(context, "cut the sheets"), section_text(context, "scale", scale=scale[0], cuts=has_cuts)
    head = group_head(title, context.layout, context.page.measure, context.text, note)
    grained = [literal(context.worked.papers[name].called) for name in dict.fromkeys(plan.paper.name for plan in plans if plan.grain)]
    said = [section_text(context, "how to read")] if has_cuts else []
    said += [section_text(context, "find the grain", papers=grained)] if grained else []
    how = " ".join(said)
    told = text_blocks(how, context.layout, context.page.measure, context.text, space_before=2.0)
    used = head.height + sum(block.height + block.space_before for block in told)
    after = (*batch_table(context), *count_check(context), *leftovers(context))
    blocks = (head, *told, *_sheets(context, plans, used), *totals, *_warnings(context), *after)
    scope = section_text(context, "scope", count=total, makers=context.worked.makers)
    return Section(context.section.key, context.section.title, scope, context.section.numbered, blocks)


def half(context: PackContext) -> float:
    """Width of half the measure, mm."""
    page = context.page
    return page.span(page.columns // 2)


def _fitting_plans(context: PackContext, after: float) -> tuple[Scale, list[_Plan]]:
    """All sheets at the largest scale at which each fits half the measure with its numbers; at the smallest if none does.

    One scale smaller where only so the page holds a pair and what comes `after` it, mm: no page for two lines.
    """
    stocks = [sheet.stock for plan in context.plans for sheet in plan.sheets]
    wide = max((float(stock.width) for stock in stocks), default=1.0)
    high = max((float(stock.height) for stock in stocks), default=1.0)
    roomy = [s for s in SCALES if s[1] < 1 and wide * s[1] <= half(context) and high * s[1] <= TALLEST] or [SCALES[-1]]
    fitting: tuple[Scale, list[_Plan]] | None = None
    for scale in roomy:
        plans = [_plan(context, plan, sheet, scale) for plan in context.plans for sheet in plan.sheets]
        if all(plan.picture.width <= half(context) + SPILL for plan in plans):
            if len(plans) != 2 or _holds(context, plans, after):
                return scale, plans
            if fitting is not None:
                break
            fitting = scale, plans
    return fitting or (roomy[-1], plans)


def _holds(context: PackContext, pair: list[_Plan], after: float) -> bool:
    """Whether the first page holds two sheets side by side and `after` mm more."""
    return ABOVE + _side_by_side(context, pair, 1).height + after <= context.page.content_to - context.page.content_from


def _plan(context: PackContext, paper_plan: PaperPlan, sheet: SheetPlan, scale: Scale) -> _Plan:
    number = paper_plan.sheets.index(sheet) + 1 if len(paper_plan.sheets) > 1 else 0
    paper = context.worked.papers[paper_plan.paper]
    called = literal(paper.called)
    strip = {_brand_edge(paper): section_text(context, "brand strip")}
    words = SheetWords(partial(_size, context), section_text(context, "keep"), strip.get("head", ""), strip.get("tail", ""))
    picture = sheet_picture(sheet, paper, scale[1], words, context.layout, context.text, picture_style(context.layout))
    several = len({(float(one.stock.width), float(one.stock.height)) for one in paper_plan.sheets}) > 1
    size = stock_size(context, paper, sheet.stock)
    title = section_text(context, "cut so", paper=called, count=sheet.count, size=size if several else "", number=number)
    letters = ", ".join(p.key for p in sheet.placements)
    alt = section_text(context, "sheet alt", paper=called, size=size, scale=scale[0], letters=letters)
    return _Plan(paper, sheet, picture, title, _lies(context, paper, sheet), alt, binding_grain(context, paper))


def _size(context: PackContext, part: Placement | Offcut) -> str:
    """`5 × 10 1/4`: as it lies, without its unit."""
    return pair_in_words(part.width, part.height, context.worked.ruler).removesuffix(f" {context.system}")


def _lies(context: PackContext, paper: PaperFacts, sheet: SheetPlan) -> str:
    """Which side is up, where the print points, where the brand strip lies, which pieces are turned over when they are cut."""
    brand = _brand_edge(paper)
    over = {piece.letter for piece in context.worked.pieces if piece.back_up}
    letters = [f"**{letter}**" for letter in dict.fromkeys(placement.key for placement in sheet.placements) if letter in over]
    return section_text(
        context,
        "lies",
        side=side_words(paper, "front", context.word),
        other=side_words(paper, "back", context.word),
        directed=paper.front in ("one-way", "two-way"),
        one_way=paper.front == "one-way",
        up=context.word("head" if paper.runs == "height" else "left"),
        brand=context.word(brand) if brand else "",
        under=_under(context, paper),
        over=" and ".join(letters),
        grain=binding_grain(context, paper),
    )


def _under(context: PackContext, paper: PaperFacts) -> str:
    """The edge to which a print points that only the back has, with the front up: pieces lie as it asks. Empty without one."""
    directed = ("one-way", "two-way")
    if paper.front in directed or paper.back not in directed:
        return ""
    x, y, _ = sheet_up(paper, "back", 0)
    return context.word({(0, -1): "head", (0, 1): "tail", (-1, 0): "left", (1, 0): "right"}[round(x), round(y)])


def _brand_edge(paper: PaperFacts) -> str:
    """The edge that loses more than all others; empty if there is none."""
    strips = dict(zip(("left", "head", "right", "tail"), paper.lost, strict=True))
    widest = max(strips, key=lambda edge: strips[edge])
    return widest if list(strips.values()).count(strips[widest]) == 1 else ""


# --- sheets, two in a row


def _sheets(context: PackContext, plans: Sequence[_Plan], used: float) -> tuple[Block, ...]:
    """`used`: what stands above them on the first page, mm. Sheets go two in a row where that fits a page, else one."""
    blocks: list[Block] = []
    k = 0
    while k < len(plans):
        room = context.page.content_to - context.page.content_from - (0.0 if blocks else used + FIRST_ROW)
        pair = plans[k : k + 2]
        block = _side_by_side(context, pair, k + 1) if len(pair) == 2 else None
        row = [block] if block and block.height <= room else _alone(context, plans[k], k + 1, room)
        blocks += [replace(row[0], space_before=BETWEEN_ROWS if blocks else FIRST_ROW), *row[1:]]
        k += 2 if block and row == [block] else 1
    return tuple(blocks)


def _side_by_side(context: PackContext, pair: Sequence[_Plan], number: int) -> Block:
    """Titles on one line, drawings below each other's heads, tables under the taller drawing."""
    offsets = (0.0, context.page.column_left(context.page.columns // 2))
    heads = [_head(context, plan, left) for plan, left in zip(pair, offsets, strict=True)]
    top = max(height for _, height in heads) + TITLE_GAP
    level = max(plan.picture.sheet[1] for plan in pair)
    drawn = [(plan, left, top + level - plan.picture.sheet[1]) for plan, left in zip(pair, offsets, strict=True)]
    under = max(y + plan.picture.height for plan, _, y in drawn) + TABLE_GAP
    items: list[Item] = [item for found, _ in heads for item in found]
    items += [_figure(plan, left - (_spill(context, plan) if left else 0.0), y) for plan, left, y in drawn]
    height = under
    for k, (plan, left) in enumerate(zip(pair, offsets, strict=True)):
        found, bottom = _cut_table(context, plan, left, under, number + k)
        items += found
        height = max(height, bottom)
    return Block(height, tuple(items))


def _spill(context: PackContext, plan: _Plan) -> float:
    return max(0.0, plan.picture.width - half(context))


def _alone(context: PackContext, plan: _Plan, number: int, room: float) -> list[Block]:
    """The table beside the drawing; where it is longer than a page, under it as rows of its own."""
    right = context.page.column_left(context.page.columns // 2)
    found, height = _head(context, plan, 0.0)
    top = height + TITLE_GAP
    items: list[Item] = [*found, _figure(plan, 0.0, top)]
    bottom = top + plan.picture.height
    rows, table_bottom = _cut_table(context, plan, right, height - 2.0, number)
    if table_bottom <= room:
        return [Block(max(bottom, table_bottom), (*items, *rows))]
    return [Block(bottom, tuple(items), keep_with_next=True), *_table_blocks(context, plan, 0.0, number)]


def _head(context: PackContext, plan: _Plan, left: float) -> tuple[list[Item], float]:
    width = half(context)
    title, high = paragraph(plan.title, left, 0, width, context.text, context.layout.types["text"])
    note, more = paragraph(plan.lies, left, high, width, context.text, context.layout.types["side note"])
    return [Tagged("H3", title), Tagged("P", note)], high + more


def _figure(plan: _Plan, left: float, y: float) -> Item:
    return Tagged("Figure", (Group(plan.picture.items, left, y),), alt=plan.alt)


def _table_blocks(context: PackContext, plan: _Plan, left: float, number: int) -> tuple[Block, ...]:
    share = half(context) / 88.45
    places = (("cut", 0, 13.5), ("at the stop", 15.5, 15), ("set stop", 31, 22), ("gives", 54, 34.4))
    columns = [Column(section_text(context, name), left + x * share, w * share) for name, x, w in places]
    rows = cut_table_rows(context, plan.sheet)
    if not rows:
        return ()
    return table(f"cuts of sheet {number}", columns, rows, context.layout, context.text, left + half(context), pad=ROW_PAD)


def _cut_table(context: PackContext, plan: _Plan, left: float, top: float, number: int) -> tuple[list[Item], float]:
    """The table as part of a block, and where it ends. Its rules begin at its own left end."""
    blocks = _table_blocks(context, plan, 0.0, number)
    if not blocks:
        style = context.layout.types["text"]
        lines, height = paragraph(section_text(context, "no cut"), left, top, half(context), context.text, style)
        return [Tagged("P", lines)], top + height
    y = top
    rows: list[Item] = []
    for block in blocks:
        rows.append(Group(block.items, left, y))
        y += block.height
    return [Tagged("Table", tuple(rows))], y


# --- sums and warnings


def _totals(context: PackContext) -> tuple[Block, ...]:
    """A sentence for each paper, its sheets in all and whether fewer would do; and what one maker has left over."""
    said = []
    for plan in context.plans:
        paper = context.worked.papers[plan.paper]
        grain, name = binding_grain(context, paper), "proved" if plan.proved else "not proved"
        proof = section_text(context, name, least=plan.lower_bound, count=plan.sheet_count, grain=grain)
        values = {"paper": literal(paper.called), "size": _sizes(context, paper, plan), "count": plan.sheet_count, "proof": proof}
        said.append(section_text(context, "in all", **values))
    if context.worked.makers == 1:
        said += left_words(context)
    return text_blocks(" ".join(said), context.layout, context.page.measure, context.text, space_before=3.0)


def _sizes(context: PackContext, paper: PaperFacts, plan: PaperPlan) -> str:
    """The one size of all its sheets, or how many of each."""
    counts: dict[str, int] = {}
    for sheet in plan.sheets:
        size = stock_size(context, paper, sheet.stock)
        counts[size] = counts.get(size, 0) + sheet.count
    if len(counts) < 2:
        return next(iter(counts), sheet_size(context, paper))
    return section_text(context, "sizes", counts=[f"{count} of {size}" for size, count in counts.items()])


def _warnings(context: PackContext) -> tuple[Block, ...]:
    texts = fault_texts(context)
    if not texts:
        return ()
    head = group_head(section_text(context, "take care"), context.layout, context.page.measure, context.text)
    return (head, *bullet_list(texts, context.layout, context.page.measure, context.text, "take care"))
