"""Folds that want two scores beside each other, told under the score guide."""

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.section_text import section_text
from creasewright.booklet.text_blocks import text_blocks
from creasewright.booklet.typeset import literal
from creasewright.hands.double_scores import double_scores
from creasewright.units.ruler import UP, length_in_words, mark_in_words


def double_score_blocks(context: PackContext) -> list[Block]:
    """Nothing where one score goes round everything."""
    runs = [run for assembly in context.worked.assemblies if not assembly.mirrored for run in assembly.runs]
    letters = {piece.blank.name: piece.letter for piece in context.worked.pieces}
    blocks: list[Block] = []
    for each in double_scores(runs):
        text = section_text(
            context, "double score", letter=letters.get(each.part, ""), score=literal(each.score),
            inside=length_in_words(round(each.inside, 2), context.system), apart=mark_in_words(each.apart, context.worked.ruler, UP).text,
        )  # fmt: skip
        blocks += text_blocks(text, context.layout, context.page.measure, context.text)
    return blocks
