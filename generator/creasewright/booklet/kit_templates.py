"""Which full-size templates a kit needs, and what they say: pieces that no trimmer can cut, and the cutting aids of the design."""

from creasewright.blanks.by_template import needs_template
from creasewright.booklet.context import PackContext
from creasewright.booklet.cutting_way import TEMPLATE, cutting_way
from creasewright.booklet.edge_names import edge_names
from creasewright.booklet.part_words import reader_name
from creasewright.booklet.pricking_guides import pricking_guides
from creasewright.booklet.section_text import sentence
from creasewright.booklet.side_words import side_words
from creasewright.booklet.template_names import template_names
from creasewright.booklet.tiling.inner_point import inner_point
from creasewright.booklet.tiling.template import PrintArrow, Template, TemplateFacts, fine_polygon, from_blank
from creasewright.fitting.pieces import Piece
from creasewright.fitting.seen_faces import seen_turn, sheet_up
from creasewright.geometry.edges import box_of
from creasewright.geometry.outline import Outline
from creasewright.geometry.plane_transform import shift
from creasewright.geometry.point import Point
from creasewright.reading.settings import ALL
from creasewright.units.ruler import as_set, pair_in_words


def kit_templates(context: PackContext) -> tuple[Template, ...]:
    """Templates in the order of the letters; a mirror pair of plain paper shares one, turned over."""
    found: list[Template] = []
    aided: set[str] = set()
    served: set[str] = set()
    for piece in context.worked.pieces:
        cutouts = bool(piece.blank.cutouts)
        if cutouts and piece.letter not in aided:
            found += aids(context, piece)
            aided |= {piece.letter, piece.mirror or ""}
        wished = context.wishes.pieces == ALL or (needs_template(piece.blank) and not cutouts)
        if wished and piece.letter not in served:
            other = shared_with(context, piece)
            found.append(whole_template(context, piece, other))
            served |= {piece.letter, other.letter if other else ""}
    found += pricking_guides(context)
    return tuple({template.key: template for template in found}.values())


def piece_letters(context: PackContext, piece: Piece) -> tuple[str, ...]:
    return (piece.letter, piece.mirror) if piece.mirror else (piece.letter,)


def aids(context: PackContext, piece: Piece) -> list[Template]:
    """One for each reusable template: the outline of the panel that it shapes, its straight edges laid on the piece's edges."""
    found = []
    for cut in piece.blank.cutouts:
        panel = piece.blank.panel(cut.panel)
        left, head, _, _ = box_of(panel.outline.edges)
        outline = Outline(shift(-left, -head).loop(panel.outline.edges))
        x0, y0, x1, y1 = box_of(outline.edges)
        polygon = fine_polygon(outline)
        found.append(
            Template(
                key=cut.template,
                letters=piece_letters(context, piece),
                name=cut.template,
                count=words(context, "aid count", letters=" ".join(piece_letters(context, piece))),
                side_up=words(context, "aid side", panel=cut.panel),
                paper=words(context, "aid card"),
                outline=outline,
                polygon=polygon,
                panel_names=((cut.panel, Point(*inner_point(polygon))),),
                whole_size=as_set(pair_in_words(x1 - x0, y1 - y0, context.worked.ruler)),
                note=words(context, "aid note", panel=cut.panel, mirror=piece.mirror or "", letter=piece.letter),
            )
        )
    return found


def shared_with(context: PackContext, piece: Piece) -> Piece | None:
    """The mirror image that the same template serves, turned over: of paper whose sides are alike."""
    paper = context.worked.paper_of(piece.blank)
    if piece.mirror is None or paper is None or not paper.mirrors:
        return None
    return next((other for other in context.worked.pieces if other.letter == piece.mirror), None)


def whole_template(context: PackContext, piece: Piece, other: Piece | None = None) -> Template:
    """`other`: the mirror image cut with the same template."""
    blank = piece.blank
    paper = context.worked.paper_of(blank)
    makers = context.worked.makers
    count, mirrored = piece.count * makers, other.count * makers if other else 0
    way = cutting_way(blank, paper)
    told = (way.kind == TEMPLATE or way.marked) and any(each.key == "cut list" for each in context.layout.sections_on)
    note = words(context, "piece note", again=count + mirrored > 1, mirror=other.letter if other else "", told=told)
    looks = score_looks(context, piece)
    facts = TemplateFacts(
        letters=(piece.letter, other.letter) if other else (piece.letter,),
        name=blank.name,
        count=words(context, "count", count=count, mirrored=mirrored),
        side_up=words(context, "side up", side=side_words(paper, "front", context.word)),
        panel_names={panel: reader_name(context.word, name) for panel, name in template_names(blank, looks).items()},
        paper=paper.called if paper is not None else "",
        looks=looks,
        print_arrow=print_arrow(context, piece),
        whole_size=as_set(pair_in_words(blank.width, blank.height, context.worked.ruler)),
        note=note,
        edge_names=edge_names(context, piece),
    )
    return from_blank(blank, facts)


def score_looks(context: PackContext, piece: Piece) -> dict[str, str]:
    """How each score folds as seen from the front, over all steps that turn it."""
    found: dict[str, set[str]] = {}
    parts = set(piece.parts)
    for assembly in context.worked.assemblies:
        for run in assembly.runs:
            for (part, name), angle in run.targets.items():
                if assembly.prefix + part in parts and not assembly.mirrored:
                    score = next(p.score for p in run.after.blanks[part].pieces if p.name == name)
                    found.setdefault(score, set()).add("valley" if angle > 0 else "mountain")
    return {score: looks.pop() if len(looks) == 1 else "both" for score, looks in found.items()}


def print_arrow(context: PackContext, piece: Piece) -> PrintArrow | None:
    paper = context.worked.paper_of(piece.blank)
    if paper is None:
        return None
    for side in ("front", "back"):
        kind = paper.front if side == "front" else paper.back
        if kind in ("one-way", "two-way"):
            up = sheet_up(paper, side, piece.turn)
            turn = seen_turn(up, (0.0, 0.0, -1.0))
            text = words(context, "print", kind=kind, other=side == "back")
            return PrintArrow(text, turn, kind)
    return None


def words(context: PackContext, name: str, **values: object) -> str:
    return sentence(context, name, values)
