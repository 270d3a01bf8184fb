"""How a piece is cut by its template: which way up it lies, which edges of the piece it lies on, how it is cut, what comes off."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.blanks.spare_parts import SPECK, rectangle_of
from creasewright.booklet.context import PackContext
from creasewright.booklet.cutting_way import TEMPLATE, cutting_way
from creasewright.booklet.scoring.pricked_ends import is_pricked
from creasewright.booklet.section_text import text_or_none
from creasewright.booklet.side_words import side_words
from creasewright.fitting.pieces import Piece
from creasewright.geometry.clip import area, difference
from creasewright.geometry.outline import Arc, Edge, Polygon, flattened
from creasewright.scoring.lies import straight_spans
from creasewright.scoring.members import scored_members

SIDES = ("left", "right", "head", "tail")
ON_SIDE = 0.01
"""mm between a side of the rectangle and what lies on it."""
WITHIN = 0.1
"""mm: so much smaller all round is the rectangle that is looked at for what comes off, so that a curve parts it where it only touches
a side."""


class TemplateUse(Struct, frozen=True):
    sides: tuple[str, ...]
    """Of the rectangle that is cut straight: those that an edge of the template lies on."""
    corners: int
    notches: int
    """How many corners of the rectangle come off, and parts that lie at one side of it between its corners."""
    others: int
    """Parts of other kinds."""
    straight: bool
    curved: bool
    """What is cut along the template: straight lines, curves."""


def template_use(blank: Blank) -> TemplateUse:
    rectangle = _within(blank)
    spare = [part for part in difference((rectangle,), (flattened(blank.outline.edges),)) if abs(area(part)) > SPECK]
    held = [_corners_held(part, rectangle) for part in spare]
    notches = sum(not corners and len(_sides_met(part, rectangle)) == 1 for corners, part in zip(held, spare, strict=True))
    cut = [edge for edge in blank.outline.edges if not _on_a_side(edge, blank)]
    return TemplateUse(
        tuple(side for side in SIDES if straight_spans(blank.outline, side, blank.width, blank.height)),
        sum(held),
        notches,
        held.count(0) - notches,
        straight=any(not isinstance(edge, Arc) for edge in cut),
        curved=any(isinstance(edge, Arc) for edge in cut),
    )


def _within(blank: Blank) -> Polygon:
    wide, high = float(blank.width) - WITHIN, float(blank.height) - WITHIN
    return ((WITHIN, WITHIN), (wide, WITHIN), (wide, high), (WITHIN, high))


def _corners_held(part: Polygon, rectangle: Polygon) -> int:
    return sum(any(abs(x - cx) < ON_SIDE and abs(y - cy) < ON_SIDE for x, y in part) for cx, cy in rectangle)


def _sides_met(part: Polygon, rectangle: Polygon) -> set[str]:
    (left, head), _, (right, tail), _ = rectangle
    xs, ys = [x for x, _ in part], [y for _, y in part]
    met = {"left": min(xs) - left, "head": min(ys) - head, "right": right - max(xs), "tail": tail - max(ys)}
    return {side for side, gap in met.items() if gap < ON_SIDE}


def _on_a_side(edge: Edge, blank: Blank) -> bool:
    """A straight edge along a side: the trimmer has cut it."""
    ends = ((float(edge.start.x), float(edge.start.y)), (float(edge.end.x), float(edge.end.y)))
    (left, head), _, (right, tail), _ = rectangle_of(blank)
    along = ((0, left), (0, right), (1, head), (1, tail))
    return not isinstance(edge, Arc) and any(all(abs(end[axis] - at) < ON_SIDE for end in ends) for axis, at in along)


def template_use_words(context: PackContext, letters: frozenset[str]) -> str:
    """One text for all pieces of the cut list that have a template of their own (`letters`): those cut by it, and those it only marks;
    empty where there are none."""
    cut: list[dict[str, object]] = []
    marked: list[dict[str, object]] = []
    found: list[TemplateUse] = []
    for piece in context.worked.pieces:
        way = cutting_way(piece.blank, context.worked.paper_of(piece.blank)) if piece.letter in letters else None
        if way is not None and (way.kind == TEMPLATE or way.marked):
            use = template_use(piece.blank)
            (marked if way.marked else cut).append(_values(context, piece, use))
            found += [] if way.marked else [use]
    if not cut and not marked:
        return ""
    straight, curved = any(use.straight for use in found), any(use.curved for use in found)
    return text_or_none(context, "by template", cut=cut, marked=marked, straight=straight, curved=curved)


def _values(context: PackContext, piece: Piece, use: TemplateUse) -> dict[str, object]:
    paper = context.worked.paper_of(piece.blank)
    passes = [(one, each) for one in scored_members(context.worked) if one.letter == piece.letter for each in one.passes]
    return {
        "letter": piece.letter,
        "side": "" if paper is None or paper.sides_alike else side_words(paper, "front", context.word),
        "printed": paper is not None and paper.front in ("one-way", "two-way"),
        "edges": [context.word(side) for side in use.sides],
        "corners": use.corners,
        "corners_said": context.word(str(use.corners)),
        "notches": use.notches,
        "notches_said": context.word(str(use.notches)),
        "others": use.others,
        "pricked": any(is_pricked(one, each) for one, each in passes),
        "holes": len(piece.blank.holes),
    }
