"""Tables that stand after the sheet plans: cutting in batches, counting the pieces out, and what the leftovers are good for."""

from creasewright.booklet.batches import AT_A_TABLE, TABLES_FROM, Batch, batches_of, spares_of, takers, to_cut
from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.piece_titles import piece_title
from creasewright.booklet.section_text import section_text
from creasewright.booklet.sheet_drawing import is_worth_keeping
from creasewright.booklet.table import Cell, Column, Note, Part, table
from creasewright.booklet.text_blocks import bullet_list, group_head
from creasewright.booklet.typeset import literal
from creasewright.cutting.plan import Cut, PaperPlan
from creasewright.fitting.pieces import Piece
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words

OFFERED = 2
"""So many pieces are named for one leftover."""
FULL = 181.9
"""mm: the measure of the letter page, for which the columns are given."""


def batch_table(context: PackContext) -> tuple[Block, ...]:
    """Every setting with the cuts it takes on all sheets that are cut alike; nothing for one maker, or where no sheets are alike."""
    if context.worked.makers == 1:
        return ()
    rows: list[tuple[Cell, ...]] = []
    for plan in context.plans:
        for number, sheet in enumerate(plan.sheets, start=1):
            if sheet.count > 1 and sheet.cuts:
                called = f"**{_drawing(context, plan, number)}**"
                named: tuple[Part, ...] = (called, Note(section_text(context, "sheets of", count=sheet.count)))
                batches = batches_of(sheet)
                rows += [(named if place == 0 else "", *_batch_cells(context, batch)) for place, batch in enumerate(batches)]
    if not rows:
        return ()
    places = (("drawing head", 0, 40), ("cut", 43, 20), ("at the stop", 64, 20), ("set stop", 86, 34), ("in all cuts", 122, 59.9))
    columns = _columns(context, places)
    settings = len({batch.cuts[0].setting for plan in context.plans for sheet in plan.sheets for batch in batches_of(sheet)})
    title, note = section_text(context, "in batches"), section_text(context, "settings", count=settings)
    return table("batches", columns, rows, context.layout, context.text, context.page.measure, title, note, pad=1.0)


def _drawing(context: PackContext, plan: PaperPlan, number: int) -> str:
    """`Meadow card, drawing 2`."""
    paper = literal(context.worked.papers[plan.paper].called)
    return section_text(context, "sheet named", paper=paper, number=number, of=len(plan.sheets))


def _columns(context: PackContext, places: tuple[tuple[str, float, float], ...]) -> tuple[Column, ...]:
    share = context.page.measure / FULL
    return tuple(
        Column(section_text(context, name, at_a_table=AT_A_TABLE), left * share, width * share, names_row=place == 0)
        for place, (name, left, width) in enumerate(places)
    )


def _batch_cells(context: PackContext, batch: Batch) -> tuple[Cell, ...]:
    first, last = batch.cuts[0].number, batch.cuts[-1].number
    numbers = str(first) if first == last else section_text(context, "from to", first=first, last=last)
    gives = [section_text(context, "pieces", letter=key, count=count) for key, count in batch.pieces]
    if batch.margins:
        gives.append(section_text(context, "margins", count=batch.margins))
    if batch.strips:
        gives.append(section_text(context, "strips", count=batch.strips))
    said = section_text(context, "so often", count=batch.total, gives=gives)
    return numbers, context.word(batch.cuts[0].from_edge), _setting(context, batch.cuts[0]), said


def _setting(context: PackContext, cut: Cut) -> Cell:
    marked = mark_in_words(cut.setting, context.worked.ruler)
    if marked.exact:
        return section_text(context, "setting", length=marked.text)
    side = section_text(context, "off the mark", under=marked.residue_mm < 0, length=marked.text)
    return side, Note(length_in_words(cut.setting, context.system))


def count_check(context: PackContext) -> tuple[Block, ...]:
    """How many of each piece there must be: for one maker, for a table, in all, and the spares; for one maker alone, nothing."""
    makers = context.worked.makers
    pieces = context.worked.pieces
    spares = any(spares_of(context, piece) for piece in pieces)
    if makers == 1 and not spares:
        return ()
    by_table = makers >= TABLES_FROM
    places: list[tuple[str, float, float]] = [("count piece", 0, 60), ("count each", 62, 28)]
    if by_table:
        places.append(("count table", 92, 30))
    if spares:
        places.append(("count spares", 124, 22))
    places.append(("count all", 148, 33.9))
    rows = [_count_row(context, piece, by_table, spares) for piece in pieces]
    title = section_text(context, "count out")
    note = section_text(context, "count note", makers=makers, at_a_table=AT_A_TABLE, by_table=by_table)
    columns = _columns(context, tuple(places))
    return table("counts", columns, rows, context.layout, context.text, context.page.measure, title, note, pad=1.0)


def _count_row(context: PackContext, piece: Piece, by_table: bool, spares: bool) -> tuple[Cell, ...]:
    title = literal(piece_title(context.worked, piece))
    cells: list[Cell] = [f"**{piece.letter}**  {title}", str(piece.count)]
    if by_table:
        cells.append(str(piece.count * AT_A_TABLE))
    if spares:
        cells.append(str(spares_of(context, piece)))
    return (*cells, f"**{to_cut(context, piece)}**")


def leftovers(context: PackContext) -> tuple[Block, ...]:
    """What is worth keeping of a class's sheets, drawing by drawing. For one maker a sentence says it: see `left_words`."""
    said = left_words(context) if context.worked.makers > 1 else []
    if not said:
        return ()
    head = group_head(section_text(context, "left over"), context.layout, context.page.measure, context.text)
    return (head, *bullet_list(said, context.layout, context.page.measure, context.text, "left over"))


def left_words(context: PackContext) -> list[str]:
    """What is left over drawing by drawing, and which pieces of the design could be cut from it as well.

    For one maker only what has room for a piece: the drawings say the rest.
    """
    said: list[str] = []
    for plan in context.plans:
        paper = literal(context.worked.papers[plan.paper].called)
        for number, sheet in enumerate(plan.sheets, start=1):
            for offcut in filter(is_worth_keeping, sheet.offcuts):
                size = pair_in_words(offcut.width, offcut.height, context.worked.ruler, "down")
                offers = [f"{count} × **{key}**" for key, count in takers(plan, offcut, context)[:OFFERED]]
                named = number if len(plan.sheets) > 1 else 0
                if offers or context.worked.makers > 1:
                    values = {"size": size, "paper": paper, "count": sheet.count, "number": named, "offers": offers}
                    said.append(section_text(context, "left", alone=context.worked.makers == 1 and not said, **values))
    return said
