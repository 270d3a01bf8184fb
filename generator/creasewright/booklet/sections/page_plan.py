"""The page plan of a sheet whose pages are drawn or printed one by one: which page stands where, and which of them upside down.

An arrow in each panel runs to where the top of its page is on the flat sheet, worked out from how the panel stands in the
finished thing: a panel that ends up turned by t clockwise has its page turned by -t on the flat sheet.
"""

from collections.abc import Iterable
from math import cos, radians, sin

from msgspec import Struct

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.arrow_heads import arrow_head, shaft, trimmed
from creasewright.booklet.diagrams.boxes import Box, box_of, polyline
from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.plan_facets import fill_of
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Group, Item, Run, Shape, Tagged, Words
from creasewright.booklet.part_words import part_words
from creasewright.booklet.picture_styles import picture_style
from creasewright.booklet.piece_marks import part_marks
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.side_words import side_words
from creasewright.booklet.text_blocks import LINE, group_head, text_blocks
from creasewright.booklet.typeset import literal, plain
from creasewright.fitting.print_turns import WishResult
from creasewright.fitting.worked import Worked
from creasewright.geometry.outline import chain_of, flattened
from creasewright.geometry.point import Number, Point
from creasewright.scoring.lies import lie_of

TALLEST = 120.0
"""mm of a drawing"""
ARROW = 13.0
"""mm: length of an arrow, or what its panel allows."""
NAME_GAP, TOP_GAP = 2.6, 1.4
"""mm between an arrow and the page's name, and between its tip and the word there."""


class PagePlan(Struct, frozen=True):
    """One side of a part that is drawn on panel by panel."""

    part: str
    side: str
    turns: dict[str, int]
    """Panel to the clockwise turn of its page's top on the flat sheet, as that side is seen with the sheet's top away."""


def build(context: PackContext) -> Section | None:
    """None where no paper is printed panel by panel."""
    plans = page_plans(context.worked)
    if not plans:
        return None
    blocks = [block for plan in plans for block in _plan_blocks(context, plan)]
    letters = sorted({_letter(context.worked, plan.part) for plan in plans})
    scope = section_text(context, "scope", letters=", ".join(letters), count=len(letters))
    return Section(context.section.key, context.section.title, scope, context.section.numbered, tuple(blocks))


def page_plans(worked: Worked) -> tuple[PagePlan, ...]:
    """From the wishes: the first that names a panel counts. One plan for each side of each kind of piece."""
    found: dict[tuple[str, str], dict[str, int]] = {}
    for result in worked.wishes:
        side = _drawn_side(worked, result)
        if side is None or result.turn is None:
            continue
        part, panel = result.wish.panel
        found.setdefault((_first_part(worked, part), side), {}).setdefault(panel, (-result.turn) % 360)
    return tuple(PagePlan(part, side, turns) for (part, side), turns in found.items())


def _drawn_side(worked: Worked, result: WishResult) -> str | None:
    paper = worked.paper_of(result.wish.state.blanks[result.wish.panel[0]])
    if paper is None:
        return None
    side = result.side or ("front" if paper.front == "by panel" else "back")
    return side if (paper.front if side == "front" else paper.back) == "by panel" else None


def _first_part(worked: Worked, part: str) -> str:
    """Parts of one letter share a plan."""
    return next((piece.parts[0] for piece in worked.pieces if part in piece.parts), part)


def _letter(worked: Worked, part: str) -> str:
    return part_marks(worked).get(part, "")


def _plan_blocks(context: PackContext, plan: PagePlan) -> list[Block]:
    width = context.page.measure
    names = {
        way: [literal(name) for name, turn in plan.turns.items() if turn == angle]
        for way, angle in (("upright", 0), ("right", 90), ("over", 180), ("left", 270))
    }
    paper = next(iter(p for p in context.worked.papers.values() if p.name == _blank_paper(context.worked, plan.part)))
    values = {
        "letter": _letter(context.worked, plan.part),
        "name": literal(part_words(context.worked, plan.part)),
        "side": side_words(paper, plan.side, context.word),
        "cuts": any(piece.blank.slits for piece in context.worked.pieces if plan.part in piece.parts),
        **names,
    }
    text = section_text(context, "how", **values)
    drawing, height = _drawing(context, plan)
    alt = plain(section_text(context, "alternative", **values))
    figure = Block(height, (Tagged("Figure", drawing, alt=alt),), space_before=LINE)
    return [
        group_head(section_text(context, "head", **values), context.layout, width, context.text),
        *text_blocks(text, context.layout, width, context.text, style="step text"),
        figure,
    ]


def _blank_paper(worked: Worked, part: str) -> str:
    return next(piece.blank.paper for piece in worked.pieces if part in piece.parts)


def _drawing(context: PackContext, plan: PagePlan) -> tuple[tuple[Item, ...], float]:
    """The sheet as large as the page allows, its top away from the reader; and its height."""
    worked, style = context.worked, picture_style(context.layout)
    piece = next(piece for piece in worked.pieces if plan.part in piece.parts)
    blank = piece.blank
    lie = lie_of(blank, plan.side, "left" if plan.side == "front" else "right")
    scale = min(context.page.measure / float(lie.width), TALLEST / float(lie.height), 1.0)

    def chain(spots: Iterable[tuple[Number, Number]]) -> list[Spot]:
        moved = (lie.to_lie.point(Point(x, y)) for x, y in spots)
        return [(float(point.x) * scale, float(point.y) * scale) for point in moved]

    rim = chain(flattened(blank.outline.edges))
    fill = fill_of(worked.paper_of(blank), plan.side == "front")
    items: list[Item | None] = [Shape(polyline(rim, closed=True), None, fill, role=f"paper {blank.name}")]
    items += [line_shape("crease", chain(chain_of(each.edge)), style) for each in blank.pieces]
    items += [line_shape("slit", chain((each.start, each.end)), style) for each in blank.slits]
    items.append(line_shape("cut", (*rim, rim[0]), style, role="outline"))
    for panel in blank.panels:
        if panel.name in plan.turns:
            items += _page(context, panel.name, plan.turns[panel.name], box_of(chain(panel.polygon)), style)
    left = (context.page.measure - float(lie.width) * scale) / 2
    return (Group(tuple(item for item in items if item is not None), left, 0.6),), float(lie.height) * scale + 1.2


def _page(context: PackContext, name: str, turn: int, box: Box, style: PictureStyle) -> list[Item]:
    """The page's name, upright, and over it an arrow to the page's top, with the word for it at its tip."""
    face = context.layout.types["group head"]
    tall, small = context.text.cap_height(face.face, face.size), context.text.cap_height(style.label_face, style.label)
    ux, uy = sin(radians(turn)), -cos(radians(turn))
    long = min(ARROW, 0.34 * (box.height if turn % 180 == 0 else box.width))
    x, y = box.middle
    half = long / 2
    names_y = y + tall / 2
    shift = NAME_GAP + tall / 2 + half if turn % 180 == 0 else 0.0
    middle = (x, y + (shift if turn == 180 else -shift)) if turn % 180 == 0 else (x, y - NAME_GAP - tall / 2 - 1.4)
    tail, tip = (middle[0] - ux * half, middle[1] - uy * half), (middle[0] + ux * half, middle[1] + uy * half)
    beyond = (tip[0] + ux * TOP_GAP, tip[1] + uy * TOP_GAP)
    word = section_text(context, "top")
    anchor = {90: "start", 270: "end"}.get(turn, "middle")
    baseline = {0: beyond[1], 180: beyond[1] + small}.get(turn, beyond[1] + small / 2)
    return [
        shaft(trimmed((tail, tip), 2.0), style),
        arrow_head(tip, tail, True, style),
        Words(beyond[0], baseline, (Run(word, style.label_face, style.label),), anchor, role="label"),
        Words(x, names_y, (Run(name, face.face, face.size),), "middle", role="page name"),
    ]
