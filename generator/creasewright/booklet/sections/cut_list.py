"""Cut list: every piece with its letter, true outline, number, size, paper, print direction and how it is cut."""

from creasewright.booklet.batches import spares_of, to_cut
from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.cutting_words import how_to_cut, own_letters
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side
from creasewright.booklet.diagrams.scales import SCALES, Scale
from creasewright.booklet.drawing import Group, Words
from creasewright.booklet.fit_words import fit_words
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.late_corners import late_work, uncut
from creasewright.booklet.part_words import counted_words, part_words
from creasewright.booklet.picture_styles import picture_style
from creasewright.booklet.piece_drawing import PRINTS, fold_looks, front_motif, piece_drawing
from creasewright.booklet.piece_marks import marked_parts
from creasewright.booklet.piece_titles import listed_letters, piece_title, pieces_of_paper
from creasewright.booklet.print_arrow import SIDE, print_arrow
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text, text_or_none
from creasewright.booklet.side_words import side_words
from creasewright.booklet.table import Cell, Column, Note, Part, Picture, table
from creasewright.booklet.template_use import template_use_words
from creasewright.booklet.text_blocks import text_blocks
from creasewright.booklet.typeset import MM_PER_PT, first_baseline, line_width, literal, one_line
from creasewright.cutting.kit_demand import turn_on_sheet
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.scoring.scored_lines import folds_of
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words

DRAWING = (38.5, 44.0)
"""mm: the widest and tallest that a piece is drawn."""
EDGES = ("head", "right", "tail", "left")


def build(context: PackContext) -> Section | None:
    pieces = context.worked.pieces
    if not pieces:
        return None
    letters = tuple(piece.letter for piece in pieces)
    scope = section_text(context, "scope", letters=listed_letters(letters), count=len(letters))
    ways = letter_ways(context)
    blocks = (*_letters_told(context, ways), *_table(context, ways), *_notes(context))
    return Section(context.section.key, context.section.title, scope, context.section.numbered, blocks)


def _letters_told(context: PackContext, ways: dict[str, str]) -> tuple[Block, ...]:
    """What of the pencilling is common to all; of an only piece the table says it."""
    if len(ways) < 2:
        return ()
    text = section_text(context, "letters", ways=sorted(set(ways.values())), others=_other_sides(context, ways))
    return text_blocks(text, context.layout, context.page.measure, context.text)


def letter_ways(context: PackContext) -> dict[str, str]:
    """By mark, the side of the piece on which it is pencilled, `front` or `back`; empty where no place stays hidden."""
    found: dict[str, str] = {}
    for piece in context.worked.pieces:
        spot = letter_spot(context.worked, piece)
        found |= {mark: spot.sides[mark] if spot else "" for mark, _ in marked_parts(context.worked, piece)}
    return found


def _other_sides(context: PackContext, ways: dict[str, str]) -> list[str]:
    """What the sides are called that letters are pencilled on behind the drawings."""
    called = [
        side_words(context.worked.paper_of(piece.blank), "back", context.word)
        for piece in context.worked.pieces
        if any(ways[mark] == "back" for mark, _ in marked_parts(context.worked, piece))
    ]
    return list(dict.fromkeys(filter(None, called)))


def _table(context: PackContext, ways: dict[str, str]) -> tuple[Block, ...]:
    scale = shared_scale(context.worked.pieces)
    looks = {piece.letter: fold_looks(context.worked, piece, folds_of(context.worked)) for piece in context.worked.pieces}
    style = picture_style(context.layout)
    rows = [
        (
            _tag(context, piece, style),
            _drawing(context, piece, looks[piece.letter], scale, style),
            _number(context, piece),
            _name(context, piece, ways),
            _paper(context, piece),
            how_to_cut(context, piece),
        )
        for piece in context.worked.pieces
    ]
    title, note = section_text(context, "pieces"), section_text(context, "scale", scale=scale[0], sides=_sides(context))
    return table("pieces", _columns(context), rows, context.layout, context.text, context.page.measure, title, note)


def _sides(context: PackContext) -> list[str]:
    """The sides that are drawn, by what they are called; none of papers whose sides look alike."""
    called = [side_words(context.worked.paper_of(piece.blank), "front", context.word) for piece in context.worked.pieces]
    return list(dict.fromkeys(filter(None, called)))


def _columns(context: PackContext) -> tuple[Column, ...]:
    """As on the letter page, 181.9 mm; narrower on a narrower page."""
    share = context.page.measure / 181.9
    places = (("piece", 0, 10), ("", 11, 40), ("number", 53, 15), ("size", 69, 44), ("paper", 115, 29), ("how to cut", 146, 35.9))
    return tuple(
        Column(section_text(context, name) if name else "", left * share, width * share, names_row=name == "size")
        for name, left, width in places
    )


def shared_scale(pieces: tuple[Piece, ...]) -> Scale:
    """The largest scale at which every piece stays within `DRAWING`; the smallest there is where none does."""
    wide, high = (max(float(getattr(piece.blank, side)) for piece in pieces) for side in ("width", "height"))
    for scale in SCALES:
        if scale[1] < 1 and wide * scale[1] <= DRAWING[0] and high * scale[1] <= DRAWING[1]:
            return scale
    return SCALES[-1]


def _tag(context: PackContext, piece: Piece, style: PictureStyle) -> Cell:
    side = tag_side(style)
    return Picture(piece_tag(piece.letter, (side / 2, side / 2), context.text, style), side, side, piece.letter)


def _drawing(context: PackContext, piece: Piece, looks: dict[str, str], scale: Scale, style: PictureStyle) -> Cell:
    paper = context.worked.paper_of(piece.blank)
    square = uncut(piece.blank, late_work(context.worked, piece.parts))
    spot = letter_spot(context.worked, piece)
    letter = (piece.letter, spot.at) if spot else None
    drawing = piece_drawing(square, paper, piece.turn, scale[1], looks, letter, context.text, style)
    title = literal(piece_title(context.worked, piece))
    alt = section_text(context, "drawing alt", letter=piece.letter, name=title, scale=scale[0])
    return Picture(drawing.items, drawing.width, drawing.height, alt)


def _number(context: PackContext, piece: Piece) -> Cell:
    makers = context.worked.makers
    parts: list[Part] = [f"**{to_cut(context, piece)}**"]
    if makers > 1:
        parts.append(Note(section_text(context, "each", each=piece.count, makers=makers)))
    if spares_of(context, piece):
        parts.append(Note(section_text(context, "spares", count=spares_of(context, piece))))
    return tuple(parts)


def _name(context: PackContext, piece: Piece, ways: dict[str, str]) -> Cell:
    """The name over the size; what is not on a mark of the ruler, the mirror pair, and its marks."""
    worked, blank = context.worked, piece.blank
    parts: list[Part] = [f"**{literal(piece_title(worked, piece))}**", pair_in_words(blank.width, blank.height, worked.ruler)]
    off = [side for side in (blank.width, blank.height) if not mark_in_words(side, worked.ruler).exact]
    if off:
        exact = ", ".join(length_in_words(side, context.system) for side in off)
        parts.append(Note(section_text(context, "off the mark", exact=exact)))
    parts += [Note(words) for words in fit_words(context, blank.name)]
    if piece.mirror:
        parts.append(Note(section_text(context, "mirror pair", other=piece.mirror)))
    return (*parts, *_letters(context, piece, ways))


def _letters(context: PackContext, piece: Piece, ways: dict[str, str]) -> list[Part]:
    """What is pencilled on each piece: which of its marks, told by its place in the whole, where pieces of the letter are treated apart;
    and on which side, where not all pieces of the pack have it on the same one. Of an only piece all of it."""
    worked = context.worked
    marks = marked_parts(worked, piece)
    alone, apart = len(ways) < 2, len(set(ways.values())) > 1
    paper = worked.paper_of(piece.blank)
    found: list[Part] = []
    for mark, parts in marks:
        names = literal(_told_apart(context, piece, parts)) if len(marks) > 1 else ""
        side = side_words(paper, ways[mark], context.word) if alone and ways[mark] else ""
        values = {"mark": mark, "count": len(parts) * worked.makers, "names": names, "way": ways[mark], "side": side}
        text = section_text(context, "letter", **values, apart=apart, alone=alone, alike=paper is None or paper.sides_alike)
        found += [Note(text)] if text else []
    return found


def _told_apart(context: PackContext, piece: Piece, parts: tuple[str, ...]) -> str:
    """`front block` where its parts go by the piece's title, which stands above; else `left strip of the front block`."""
    words = counted_words(context.worked, parts)
    return words if "×" in words else words.replace(f"{part_words(context.worked, piece.blank.name)} of the ", "")


def _paper(context: PackContext, piece: Piece) -> Cell:
    paper = context.worked.paper_of(piece.blank)
    if paper is None:
        return ""
    parts: list[Part] = [literal(paper.called), *_direction(context, piece, paper)]
    if piece.blank.grain and paper.grain not in ("none", "unknown"):
        parts.append(Note(section_text(context, "grain", along=piece.blank.grain)))
    return tuple(parts)


def _direction(context: PackContext, piece: Piece, paper: PaperFacts) -> list[Part]:
    """An arrow and the edge it points to; `any way` where none has a direction, which is said of a print, as one would look for it."""
    if "by panel" in (paper.front, paper.back):
        return [section_text(context, "by panel")]
    degrees = print_degrees(piece, paper)
    if degrees is None:
        printed = {paper.front, paper.back}
        no_top = "all-over" in printed and not printed & {"one-way", "two-way"}
        return [section_text(context, "any way"), *([Note(section_text(context, "no top"))] if no_top else [])]
    edges = [context.word(EDGES[degrees // 90]), context.word(EDGES[(degrees // 90 + 2) % 4])]
    both = paper.front == "two-way"
    name = "both ways" if both else "direction"
    text = section_text(context, name, edge=edges[0], other=edges[1])
    style = context.layout.types["text"]
    runs = one_line(text, style)
    height = style.leading * MM_PER_PT
    words = Words(SIDE + 1.5, first_baseline(context.text, style), runs, role="text")
    arrow = Group(print_arrow(degrees, both), 0.0, (height - SIDE) / 2)
    return [Picture((arrow, words), SIDE + 1.5 + line_width(runs, context.text), height, text)]


def print_degrees(piece: Piece, paper: PaperFacts) -> int | None:
    """Which way the print's upper side points on the piece, front up, in degrees clockwise from its head; None: any way."""
    if paper.front not in ("one-way", "two-way") or paper.front not in PRINTS:
        return None
    motif = front_motif(paper, turn_on_sheet(piece, paper))
    if motif is None:
        return None
    up = (round(-motif.to_view[2]), round(-motif.to_view[3]))
    return {(0, -1): 0, (1, 0): 90, (0, 1): 180, (-1, 0): 270}[up]


def _notes(context: PackContext) -> tuple[Block, ...]:
    """What must be marked on the sheets while their edges can still be told apart; then what is cut by a template, and how."""
    texts = []
    for paper in context.worked.papers.values():
        if not pieces_of_paper(context.worked, paper.name):
            continue
        if paper.front in ("one-way", "two-way"):
            texts.append(text_or_none(context, "before print", paper=literal(paper.called)))
        elif paper.sides_differ:
            texts.append(text_or_none(context, "before sides", paper=literal(paper.called)))
    texts.append(template_use_words(context, own_letters(context)))
    blocks: list[Block] = []
    for text in texts:
        blocks += text_blocks(text, context.layout, context.page.measure, context.text)
    return tuple(blocks)
