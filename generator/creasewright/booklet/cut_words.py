"""The rows of a sheet plan's table and what a trimmer cannot do well, in the words of the section's texts."""

from creasewright.booklet.context import PackContext
from creasewright.booklet.cut_numbers import RADIUS, disc
from creasewright.booklet.cut_rows import CutRow, counted_keys, cut_rows, is_finished, left_by, offcut_at, pieces_freed
from creasewright.booklet.drawing import Item, Pen, Shape
from creasewright.booklet.section_text import section_text
from creasewright.booklet.sheet_drawing import is_worth_keeping
from creasewright.booklet.table import Cell, Note, Picture
from creasewright.booklet.tools_needed import cut_with_knife
from creasewright.booklet.typeset import literal
from creasewright.cutting.plan import Cut, SheetPlan, Side
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words


def cut_table_rows(context: PackContext, plan: SheetPlan) -> list[tuple[Cell, ...]]:
    """Number, edge against the stop, setting, what it gives."""
    return [
        (_discs(context, row), context.word(row.first.from_edge), _setting(context, row.first), _gives(context, row, plan))
        for row in cut_rows(plan)
    ]


def _discs(context: PackContext, row: CutRow) -> Cell:
    """One disc, or the first and the last with a stroke between them."""
    style = context.layout.types["cut number"]
    radius = RADIUS * style.size / 9.5
    items: list[Item] = [*disc(row.first.number, (radius, radius), context.layout, context.text)]
    if len(row.cuts) == 1:
        return Picture(tuple(items), 2 * radius, 2 * radius, str(row.first.number))
    far = radius + 2 * radius + 2.6
    stroke = (("M", 2 * radius + 0.6, radius), ("L", far - radius - 0.6, radius))
    items.append(Shape(stroke, Pen("INK", 0.9, cap="butt"), role="from to"))
    items += disc(row.last.number, (far, radius), context.layout, context.text)
    alt = section_text(context, "from to", first=row.first.number, last=row.last.number)
    return Picture(tuple(items), far + radius, 2 * radius, alt)


def _setting(context: PackContext, cut: Cut) -> Cell:
    """What the stop is set to; what is not on a mark says on which side of it, and how long it truly is."""
    if cut.same_setting:
        return section_text(context, "same")
    marked = mark_in_words(cut.setting, context.worked.ruler)
    if marked.exact:
        return section_text(context, "setting", length=marked.text)
    side = section_text(context, "off the mark", under=marked.residue_mm < 0, length=marked.text)
    return side, Note(length_in_words(cut.setting, context.system))


def _gives(context: PackContext, row: CutRow, plan: SheetPlan) -> str:
    if len(row.cuts) > 1:
        said = section_text(context, "pieces", letter=row.first.kept.keys[0], count=pieces_freed(row, plan))
        for rest in dict.fromkeys(_side(context, side, plan) for side in left_by(row, plan)):
            said = section_text(context, "and", first=said, second=rest)
        return said
    cut = row.first
    if cut.other.kind == "margin":
        return _side(context, cut.other, plan)
    kept, other = _side(context, cut.kept, plan), _side(context, cut.other, plan)
    if kept == other:
        if is_finished(cut.kept, plan):
            return section_text(context, "pieces", letter=cut.kept.keys[0], count=2)
        return section_text(context, "twice", part=kept)
    return section_text(context, "and", first=kept, second=other)


def _side(context: PackContext, side: Side, plan: SheetPlan) -> str:
    if side.kind == "margin":
        return section_text(context, "edge strip")
    if side.kind == "offcut":
        offcut = offcut_at(side, plan)
        keep = offcut is not None and is_worth_keeping(offcut)
        size = pair_in_words(side.box[2], side.box[3], context.worked.ruler).removesuffix(f" {context.system}")
        return section_text(context, "leftover", keep=keep, size=size)
    if is_finished(side, plan):
        return section_text(context, "piece", letter=side.keys[0])
    pieces = [letter if number == 1 else f"{number} {letter}" for letter, number in counted_keys(side.keys)]
    return section_text(context, "part", pieces=" + ".join(pieces))


def fault_texts(context: PackContext) -> list[str]:
    """What does not fit a sheet, board, which is no work for a trimmer, and cuts that the trimmer cannot make well."""
    found: list[str] = []
    for plan in context.plans:
        paper = literal(context.worked.papers[plan.paper].called)
        for piece in plan.too_large:
            size = pair_in_words(piece.width, piece.height, context.worked.ruler, "up")
            room = pair_in_words(piece.usable_width, piece.usable_height, context.worked.ruler, "down")
            found.append(section_text(context, "too large", letter=piece.key, size=size, room=room, paper=paper))
        for one in plan.not_laid:
            found.append(section_text(context, "too few sheets", letter=one.key, count=one.count, paper=paper))
        if cut_with_knife(context.worked, plan):
            found.append(section_text(context, "board", paper=paper))
            continue
        for fault in plan.trimmer_faults:
            figure, limit = (length_in_words(value, context.system) for value in (fault.figure, fault.limit))
            sheet = section_text(context, "sheet named", paper=paper, number=fault.sheet + 1, of=len(plan.sheets))
            found.append(section_text(context, fault.kind, sheet=sheet, cut=fault.cut, figure=figure, limit=limit))
    return found
