"""The key of marks as blocks: lines, papers, actions and how to read a drawing; only what the pack uses, a few to a row."""

from collections.abc import Sequence

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.action_marks import ActionMark
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.mark_key import MarkKey
from creasewright.booklet.marks_used import ACTIONS, LINES, READING
from creasewright.booklet.paper_patch import paper_patch
from creasewright.booklet.picture_styles import picture_style
from creasewright.booklet.piece_titles import pieces_of_paper
from creasewright.booklet.section_text import section_text
from creasewright.booklet.side_words import side_words
from creasewright.booklet.text_blocks import group_head
from creasewright.booklet.typeset import literal, paragraph
from creasewright.units.ruler import mark_in_words

IN_A_ROW = {"lines": 3, "papers": 4, "do this": 4, "reading": 5}
PATCH = (30.0, 10.0)
"""Width and height of a paper's patch, mm."""
GAP, ROW_GAP = 1.6, 3.0
"""mm between a mark and its words, and above a row."""
Entry = tuple[ActionMark, str]


def key_blocks(context: PackContext, used: frozenset[str]) -> tuple[Block, ...]:
    key = _key(context)
    groups = (
        ("lines", [(key.mark(name), _said(context, name)) for name in LINES if name in used]),
        ("papers", _papers(context)),
        ("do this", [(key.mark(name), _said(context, name)) for name in ACTIONS if name in used]),
        ("reading", [(key.mark(name), _said(context, name)) for name in READING if name in used]),
    )
    blocks: list[Block] = []
    for name, entries in groups:
        if entries:
            head = group_head(section_text(context, f"key {name}"), context.layout, context.page.measure, context.text)
            blocks += [head, *_rows(context, entries, _in_a_row(context, name))]
    return tuple(blocks)


def _key(context: PackContext) -> MarkKey:
    """Its piece is the first of the pack, its measure that piece's height."""
    pieces = context.worked.pieces
    letter = pieces[0].letter if pieces else "A"
    measure = mark_in_words(pieces[0].blank.height, context.worked.ruler).text if pieces else ""
    return MarkKey(context.layout, context.text, picture_style(context.layout), letter, measure)


def _said(context: PackContext, name: str) -> str:
    pieces = context.worked.pieces
    return section_text(context, f"mark {name}", letter=pieces[0].letter if pieces else "A")


def _papers(context: PackContext) -> list[Entry]:
    style = picture_style(context.layout)
    found: list[Entry] = []
    for paper in context.worked.papers.values():
        if pieces_of_paper(context.worked, paper.name):
            for side in ("front",) if paper.sides_alike else ("front", "back"):
                called = side_words(paper, side, context.word)
                said = section_text(context, "mark paper", paper=literal(paper.called), called=called)
                found.append((ActionMark(paper_patch(paper, side, *PATCH, style), *PATCH), said))
    return found


def _in_a_row(context: PackContext, group: str) -> int:
    """Fewer on a narrow page."""
    return max(2, IN_A_ROW[group] - (1 if context.page.columns < 6 else 0))


def _rows(context: PackContext, entries: Sequence[Entry], most: int) -> list[Block]:
    return [_row(context, entries[k : k + most], most) for k in range(0, len(entries), most)]


def _row(context: PackContext, entries: Sequence[Entry], most: int) -> Block:
    """Marks stand on one level, their words begin on one line."""
    page = context.page
    wide = (page.measure - (most - 1) * page.gutter) / most
    tallest = max(mark.height for mark, _ in entries)
    items: list[Item] = []
    height = 0.0
    for k, (mark, said) in enumerate(entries):
        left = k * (wide + page.gutter)
        lines, high = paragraph(said, left, tallest + GAP, wide, context.text, context.layout.types["text"])
        drawn = Group(mark.items, left, (tallest - mark.height) / 2)
        items += [Tagged("Figure", (drawn,), alt=said), Tagged("P", lines)]
        height = max(height, tallest + GAP + high)
    return Block(height, tuple(items), space_before=ROW_GAP)
