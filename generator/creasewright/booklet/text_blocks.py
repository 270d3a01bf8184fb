"""Group heads and running text as blocks over the measure, or over some columns of it."""

from collections.abc import Sequence

from creasewright.booklet.block import Block
from creasewright.booklet.drawing import Item, Mark, Tagged, Words
from creasewright.booklet.rules import rule
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import MM_PER_PT, one_line, paragraph, paragraphs
from creasewright.reading.page_layout import PageLayout

HEAD_TO_RULE = 2.4
"""From the baseline of a group head to its rule, mm."""
BEFORE_GROUP = 7.0
"""Space before a group, mm."""
LINE = 14 * MM_PER_PT
"""One line of running text, 4.94 mm."""


def group_head(title: str, layout: PageLayout, width: float, ruler: TextRuler, note: str = "", kind: str = "H2") -> Block:
    """`Cut list` over its rule; `note` at the right in the side notes' style. Stays with what follows."""
    style, aside = layout.types["group head"], layout.types["side note"]
    baseline = ruler.ascent(style.face, style.size)
    items: list[Item] = [Tagged(kind, (Words(0, baseline, one_line(title, style), role="text"),))]
    if note:
        items.append(Tagged("P", (Words(width, baseline, one_line(note, aside), "end", role="text"),)))
    height = baseline + HEAD_TO_RULE
    items.append(Mark((rule(layout, "group rule", 0, width, height),)))
    return Block(height, tuple(items), keep_with_next=True, space_before=BEFORE_GROUP)


def text_blocks(
    text: str,
    layout: PageLayout,
    width: float,
    ruler: TextRuler,
    style: str = "text",
    left: float = 0.0,
    space_before: float = LINE / 2,
) -> tuple[Block, ...]:
    """The paragraphs of a text, parted by empty lines, each a block."""
    blocks: list[Block] = []
    for part in paragraphs(text):
        lines, height = paragraph(part, left, 0, width, ruler, layout.types[style])
        blocks.append(Block(height, (Tagged("P", lines),), space_before=space_before))
    return tuple(blocks)


def bullet_list(
    texts: Sequence[str], layout: PageLayout, width: float, ruler: TextRuler, key: str, style: str = "text"
) -> tuple[Block, ...]:
    """A list of items behind dashes, each item a block. `key` tells this list from the next one."""
    blocks: list[Block] = []
    indent = 4.0
    for text in texts:
        lines, height = paragraph(text, indent, 0, width - indent, ruler, layout.types[style])
        label = Words(0, lines[0].y, one_line("–", layout.types[style])) if lines else None
        if label:
            items = (Tagged("Lbl", (label,)), Tagged("LBody", lines))
            blocks.append(Block(height, (Tagged("LI", items),), within=f"L {key}", space_before=1.2))
    return tuple(blocks)
