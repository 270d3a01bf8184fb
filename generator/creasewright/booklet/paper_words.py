"""What a paper is, in the reader's words and units: its sheet, sides, weight and thickness; values for text templates."""

from fractions import Fraction

from creasewright.booklet.context import PackContext
from creasewright.booklet.piece_titles import pieces_of_paper
from creasewright.booklet.side_words import side_words
from creasewright.booklet.typeset import literal
from creasewright.cutting.demand import Stock
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.units.ruler import length_in_words, plain_words


def sheet_size(context: PackContext, paper: PaperFacts) -> str:
    """`12 × 12 in`, `letter, 8 1/2 × 11 in`: the sheet as sold, exact."""
    wide, high = (plain_words(side, context.system) for side in paper.sheet)
    size = f"{wide} × {high} {context.system}"
    return f"{paper.sheet_name}, {size}" if paper.sheet_name else size


def stock_size(context: PackContext, paper: PaperFacts, stock: Stock) -> str:
    """The size of a sheet in the maker's drawer, which may be another than the design's."""
    if (stock.width, stock.height) == paper.sheet:
        return sheet_size(context, paper)
    wide, high = (plain_words(Fraction(side), context.system) for side in (stock.width, stock.height))
    return f"{wide} × {high} {context.system}"


def binding_grain(context: PackContext, paper: PaperFacts) -> str:
    """How the grain runs on the sheet, `height` or `width`, where a piece of the paper must have it one way; else empty."""
    asked = any(piece.blank.grain for piece in pieces_of_paper(context.worked, paper.name))
    return paper.grain if asked and paper.grain in ("height", "width") else ""


def sheet_weight(context: PackContext, paper: PaperFacts) -> str:
    """As the pack says it: `80 lb cover`; in g/m² where it is written so, and in a metric pack always. Empty if not known."""
    if paper.grammage is None:
        return ""
    said_in_pounds = "lb" in paper.weight_as_written or "#" in paper.weight_as_written
    if said_in_pounds and context.system == "in":
        return literal(paper.weight_as_written)
    return f"{round(paper.grammage)} g/m²"


def paper_values(context: PackContext, paper: PaperFacts) -> dict[str, object]:
    """`name`, `sheet`, `weight`, `thick`, `core`, the last three empty where they are not known; and of its sides:

    `front`, `back` (their print in the reader's words), `front_side`, `back_side` (what the steps call them), `bare` (the
    one that is plain where the other is not), `alike` (no side can be told from the other), `differ` (equal words, but the sides look
    different).
    """
    same = paper.front == paper.back
    return {
        "name": literal(paper.called),
        "sheet": sheet_size(context, paper),
        "front": context.word(paper.front),
        "back": context.word(paper.back),
        "front_side": side_words(paper, "front", context.word),
        "back_side": side_words(paper, "back", context.word),
        "bare": "" if same else "front" if paper.front == "plain" else "back" if paper.back == "plain" else "",
        "alike": paper.sides_alike,
        "differ": same and paper.sides_differ,
        "weight": sheet_weight(context, paper),
        "thick": length_in_words(paper.caliper, context.system) if paper.caliper is not None else "",
        "core": literal(paper.core),
    }
