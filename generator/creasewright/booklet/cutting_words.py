"""How a piece is cut, as lines of a table's cell, in the words of the section's texts."""

from creasewright.blanks.spare_parts import ROUND, TRIM, spare_parts
from creasewright.booklet.context import PackContext
from creasewright.booklet.cutting_way import TEMPLATE, WHOLE_SHEET, CuttingWay, cutting_way
from creasewright.booklet.late_corners import late_work
from creasewright.booklet.late_slits import late_slits
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, Note, Part
from creasewright.booklet.template_pages import pack_templates
from creasewright.booklet.typeset import literal
from creasewright.fitting.pieces import Piece
from creasewright.scoring.members import scored_members
from creasewright.units.ruler import mark_in_words


def how_to_cut(context: PackContext, piece: Piece) -> Cell:
    paper = context.worked.paper_of(piece.blank)
    way = cutting_way(piece.blank, paper)
    first = _first_of_pair(context, piece)
    if way.kind == WHOLE_SHEET:
        parts: list[Part] = [section_text(context, "whole sheet")]
    elif way.kind == TEMPLATE and first and paper is not None and paper.mirrors:
        parts = [section_text(context, "turn one over", other=f"**{first}**")]
    elif way.kind == TEMPLATE and first and piece.letter not in own_letters(context):
        parts = [section_text(context, "mirror template", other=first)]
    elif way.kind == TEMPLATE:
        parts = [section_text(context, "template", letter=piece.letter, scored=is_scored(context, piece))]
    else:
        late = late_work(context.worked, piece.parts)
        parts = [section_text(context, "straight")]
        parts += [Note(section_text(context, "later"))] if late & {spare.how for spare in spare_parts(piece.blank)} else []
        parts += [] if TRIM in late else _shapes(context, way, turned=bool(first))
        parts += [] if ROUND in late else _rounding(context, way)
        if way.marked:
            parts.append(Note(section_text(context, "marked", letter=piece.letter)))
    return (*parts, *_openings(context, piece))


def own_letters(context: PackContext) -> frozenset[str]:
    """Of the pieces that have a full-size template in the pack; a mirror pair may share one."""
    return frozenset(letter for template in pack_templates(context) for letter in template.letters)


def is_scored(context: PackContext, piece: Piece) -> bool:
    """It has a place in the score guide."""
    return any(member.letter == piece.letter for member in scored_members(context.worked))


def _first_of_pair(context: PackContext, piece: Piece) -> str:
    """The letter of the mirror image if that comes earlier: its template serves for both."""
    order = [each.letter for each in context.worked.pieces]
    return piece.mirror if piece.mirror and order.index(piece.mirror) < order.index(piece.letter) else ""


def _shapes(context: PackContext, way: CuttingWay, turned: bool) -> list[Part]:
    """A template lies one way up for a piece and the other for its mirror image."""
    return [
        Note(section_text(context, "aid", what=_place(context, cut.what), template=literal(cut.template), turned=turned))
        for cut in way.aids
    ]


def _place(context: PackContext, what: str) -> str:
    """`head-left corner` in the reader's words."""
    word, _, kind = what.partition(" ")
    return f"{context.word(word)} {kind}" if kind in ("corner", "edge") else literal(what)


def _rounding(context: PackContext, way: CuttingWay) -> list[Part]:
    ruler = context.worked.ruler
    alike = way.corners_alike
    if alike is not None:
        return [Note(section_text(context, "round all", radius=mark_in_words(alike, ruler).text))]
    radii = dict.fromkeys(radius for _, radius in way.rounded)
    found: list[Part] = []
    for radius in radii:
        corners = [context.word(corner) for corner, its in way.rounded if its == radius]
        values = {"corners": ", ".join(corners), "several": len(corners) > 1, "radius": mark_in_words(radius, ruler).text}
        found.append(Note(section_text(context, "round some", **values)))
    return found


def _openings(context: PackContext, piece: Piece) -> list[Part]:
    """Slits and holes; a slit that a step cuts comes later."""
    blank = piece.blank
    found: list[Part] = []
    if blank.slits:
        late = late_slits(context.worked)
        later = all(slit.name in late for slit in blank.slits)
        found.append(Note(section_text(context, "slits", later=later, scored=is_scored(context, piece))))
    if blank.holes:
        found.append(Note(section_text(context, "holes", count=len(blank.holes))))
    return found
