"""What it takes: papers with a place for a swatch, what is used up, what goes inside, and the tools; for one maker or for all."""

from collections.abc import Sequence
from fractions import Fraction

from creasewright.booklet.amounts import (
    SPARE,
    MaterialUse,
    bought_area,
    bought_length,
    bought_millilitres,
    bought_rolls,
    material_uses,
    packs_to_buy,
    price_of_packs,
    things_inside,
)
from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.drawing import Item, Pen, Shape
from creasewright.booklet.paper_patch import turned_patch
from creasewright.booklet.paper_words import paper_values
from creasewright.booklet.part_words import part_words
from creasewright.booklet.piece_titles import listed_letters, piece_title, pieces_of_paper
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, Column, Note, Part, Picture, table
from creasewright.booklet.template_pages import template_page_count, template_prefix
from creasewright.booklet.text_blocks import bullet_list, group_head
from creasewright.booklet.tools_needed import ToolNeeds, tool_needs
from creasewright.booklet.typeset import literal, paragraph
from creasewright.fitting.adhesives import joints_of, millilitres
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.joining.adhesive_rules import EITHER, STICKS, SUITS, WET
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words, plain_words

SWATCH = (24.0, 16.0)
"""Width and height of a swatch drawing, mm."""
PASTE_HEIGHT = 19.0
"""Of the box that a swatch is glued into; it is one column wide."""
COUNTED_GLUE = frozenset(("glue", "tape"))


def build(context: PackContext) -> Section | None:
    makers = context.worked.makers
    needs = tool_needs(context.worked, context.plans, context.board)
    blocks = (*_papers(context), *_used_up(context), *_tools(context, needs))
    scope = section_text(context, "scope", makers=makers)
    return Section(context.section.key, context.section.title, scope, context.section.numbered, blocks) if blocks else None


# --- paper


def _papers(context: PackContext) -> tuple[Block, ...]:
    page = context.page
    places = (("", 0, 1), ("paper", 1, 2), ("shows on", 3, 1), ("to buy", 4, 1), ("swatch column", 5, 1))
    columns = [
        Column(section_text(context, name) if name else "", page.column_left(first), page.span(count), names_row=name == "paper")
        for name, first, count in places
    ]
    used = [paper for paper in context.worked.papers.values() if pieces_of_paper(context.worked, paper.name)]
    rows = [_paper_row(context, paper) for paper in used]
    return table("papers", columns, rows, context.layout, context.text, page.measure, section_text(context, "papers"))


def _paper_row(context: PackContext, paper: PaperFacts) -> tuple[Cell, ...]:
    values = paper_values(context, paper)
    alt = section_text(context, "swatch alt", **values)
    about: list[Part] = [f"**{values['name']}**", str(values["sheet"])]
    about += [Note(text) for name in ("sides", "weight", "core") if (text := section_text(context, name, **values))]
    return (
        Picture(turned_patch(paper, *SWATCH), *SWATCH, alt),
        tuple(about),
        _shows_on(context, paper),
        _to_buy(context, paper),
        _paste_box(context),
    )


def _shows_on(context: PackContext, paper: PaperFacts) -> Cell:
    """The pieces whose paper is seen in any state that the design names; what is put in is seen when it is taken out."""
    pieces = [piece for piece in pieces_of_paper(context.worked, paper.name) if _is_seen(context, piece)]
    return tuple(Note(f"**{piece.letter}** {literal(piece_title(context.worked, piece))}") for piece in pieces)


def _is_seen(context: PackContext, piece: Piece) -> bool:
    seen = {face.panel[0] for stage in context.worked.stages for face in stage.faces}
    state = context.worked.finished.state if context.worked.finished else None
    put_in = {bond.second[0] for bond in state.bonds if bond.kind == "insert"} if state else set()
    return not seen or bool((seen | put_in) & set(piece.parts))


def _to_buy(context: PackContext, paper: PaperFacts) -> Cell:
    sheets = next((plan.sheet_count for plan in context.plans if plan.paper == paper.name), 0)
    parts: list[Part] = [section_text(context, "sheets", count=sheets)]
    packs = packs_to_buy(paper, sheets)
    if packs is not None and paper.pack:
        parts.append(Note(section_text(context, "packs", packs=packs, size=paper.pack, left=packs * paper.pack - sheets)))
        if paper.price:
            total = price_of_packs(paper.price, packs)
            parts.append(Note(section_text(context, "price", price=literal(paper.price), packs=packs, total=literal(total))))
    return tuple(parts)


def _paste_box(context: PackContext) -> Picture:
    width = context.page.column_width
    style = context.layout.types["side note"]
    pad = 2.0
    _, height = paragraph(section_text(context, "swatch"), pad, 0, width - 2 * pad, context.text, style, "middle")
    top = (PASTE_HEIGHT - height) / 2
    lines, _ = paragraph(section_text(context, "swatch"), pad, top, width - 2 * pad, context.text, style, "middle")
    ring = ((0.0, 0.0), (width, 0.0), (width, PASTE_HEIGHT), (0.0, PASTE_HEIGHT))
    items: tuple[Item, ...] = (Shape(polyline(ring, closed=True), Pen("INK2", 0.4, cap="butt"), role="swatch box"), *lines)
    return Picture(items, width, PASTE_HEIGHT, section_text(context, "swatch"))


# --- what is used up, and what goes inside


def _used_up(context: PackContext) -> tuple[Block, ...]:
    page = context.page
    rows = [_material_row(context, use) for use in material_uses(context.worked)]
    rows += [_thing_row(context, name, count) for name, count in things_inside(context.worked)]
    count = template_page_count(context)
    if count:
        first, last = (f"{template_prefix(context)}{number}" for number in (1, count))
        pages = {"first": first, "last": last, "count": count}
        rows.append(tuple(section_text(context, f"template paper{part}", **pages) for part in ("", " for", " amount")))
    columns = (
        Column(section_text(context, "what"), 0, page.span(2), names_row=True),
        Column(section_text(context, "what for"), page.column_left(2), page.span(2)),
        Column(section_text(context, "how much"), page.column_left(4), page.span(2)),
    )
    kinds = {_kind(context, use) for use in material_uses(context.worked)}
    title, note = section_text(context, "also"), section_text(context, "spare", glue="glue" in kinds, tape="tape" in kinds)
    return (
        table("materials", columns, rows, context.layout, context.text, page.measure, title, note if kinds & COUNTED_GLUE else "", pad=1.4)
        if rows
        else ()
    )


def _kind(context: PackContext, use: MaterialUse) -> str:
    return next(material.kind for material in context.worked.design.materials if material.name == use.name)


def _material_row(context: PackContext, use: MaterialUse) -> tuple[Cell, ...]:
    written = next(material for material in context.worked.design.materials if material.name == use.name)
    facts = context.worked.materials[use.name]
    called = literal(str(written.called or written.name))
    sizes = {
        "wide": mark_in_words(facts.width, context.worked.ruler).text if facts.width else "",
        "thick": length_in_words(Fraction(facts.thick).limit_denominator(10**4), context.system) if facts.thick else "",
    }
    about = section_text(context, "material sizes", **sizes)
    name: list[Part] = [f"**{called[:1].upper()}{called[1:]}**", *([Note(about)] if about else [])]
    either = _either(context, use)
    return tuple(name), (_what_for(context, use), *([Note(either)] if either else [])), _amounts(context, use)


def _what_for(context: PackContext, use: MaterialUse) -> str:
    state = context.worked.finished.state if context.worked.finished else None
    glued = {key[0] for each in state.glue if each.material == use.name for key in (each.panel, each.onto)} if state else set()
    letters = tuple(piece.letter for piece in context.worked.pieces if glued & set(piece.parts))
    around = [literal(tie.around) for tie in state.closures if tie.material == use.name] if state else []
    passed = {part for each in state.sewings if each.material == use.name for part in each.parts} if state else set()
    sewn = tuple(piece.letter for piece in context.worked.pieces if passed & set(piece.parts))
    return section_text(
        context, "used for", letters=listed_letters(letters), count=len(letters), around=", ".join(around), sewn=listed_letters(sewn)
    )


def _either(context: PackContext, use: MaterialUse) -> str:
    """Why this adhesive, where the other kind would do as well; empty where it alone does. Said here for all steps."""
    joints = [each for each in joints_of(context.worked) if each.material == use.name and each.kind in STICKS]
    free = [each.suits == EITHER for each in joints]
    return section_text(context, "either", all=all(free), wet=joints[0].kind == SUITS[WET]) if any(free) else ""


def _amounts(context: PackContext, use: MaterialUse) -> Cell:
    makers, system = context.worked.makers, context.system
    parts: list[Part] = []
    if use.strips:
        whole = bought_length(Fraction(use.strips) * makers * (1 + SPARE), system)
        parts.append(section_text(context, "strips", length=whole))
    if use.sheets and _kind(context, use) not in COUNTED_GLUE:
        for size, each in use.sheets:
            said = pair_in_words(*size, context.worked.ruler)
            parts.append(section_text(context, "cut from a sheet", count=each * makers, size=said))
    elif use.spread:
        parts.append(section_text(context, "spread", area=bought_area(use.spread * makers * float(1 + SPARE), system)))
    parts += _as_sold(context, use)
    for length, count in use.ties:
        said = f"{plain_words(length, system)} {system}"
        whole = bought_length(length * count * makers, system)
        parts.append(section_text(context, "lengths", count=count * makers, length=said))
        if count * makers > 1:
            parts.append(Note(section_text(context, "in all", amount=whole)))
    return tuple(parts)


def _as_sold(context: PackContext, use: MaterialUse) -> list[Part]:
    """Glue in millilitres, tape in rolls, with a tenth to spare."""
    spare, makers = float(1 + SPARE), context.worked.makers
    kind = _kind(context, use)
    if kind == "glue":
        wet = millilitres(context.worked, use.name)
        return [Note(section_text(context, "wet", amount=bought_millilitres(wet * spare * makers)))] if wet else []
    width = context.worked.materials[use.name].width
    if kind == "tape" and (use.strips or (use.spread and width)):
        # what is covered all over takes strips side by side
        side_by_side = use.spread / width if width else 0.0
        rolls, each = bought_rolls((use.strips + side_by_side) * spare * makers, context.system)
        return [Note(section_text(context, "rolls", count=rolls, each=each))]
    return []


def _thing_row(context: PackContext, name: str, count: int) -> tuple[Cell, ...]:
    state = context.worked.finished.state if context.worked.finished else None
    assert state is not None
    path = next(path for path, blank in state.blanks.items() if blank.name == name and not blank.paper)
    blank, thick = state.blanks[path], state.thick.get(path)
    title = literal(part_words(context.worked, name))
    values = {
        "size": pair_in_words(blank.width, blank.height, context.worked.ruler),
        "thick": length_in_words(Fraction(thick).limit_denominator(10**4), context.system) if thick else "",
    }
    sizes = Note(section_text(context, "thing sizes", **values))
    return (
        (f"**{title[:1].upper()}{title[1:]}**", sizes),
        section_text(context, "goes inside"),
        section_text(context, "things", count=count * context.worked.makers),
    )


# --- tools


def _tools(context: PackContext, needs: ToolNeeds) -> tuple[Block, ...]:
    texts = _tool_texts(context, needs)
    head = group_head(section_text(context, "tools"), context.layout, context.page.measure, context.text)
    return (head, *bullet_list(texts, context.layout, context.page.measure, context.text, "tools")) if texts else ()


def _tool_texts(context: PackContext, needs: ToolNeeds) -> Sequence[str]:
    ruler, tools, system = context.worked.ruler, context.tools, context.system
    said = {
        "trimmer": needs.trimmer,
        "ruler": True,
        "score board": needs.score_board,
        "scoring tool": needs.scored and not needs.score_board,
        "knife": needs.knife,
        "pin": needs.pin,
        "scissors": bool(needs.cut_with_scissors),
        "corner rounder": bool(needs.radii),
        "punch": bool(needs.punch),
        "awl": needs.awl,
        "needle": needs.needle,
        "bone folder": needs.scored,
        "press": bool(needs.pressed),
        "pencil": bool(context.worked.pieces),
    }
    values: dict[str, object] = {
        "longest": mark_in_words(needs.longest_cut, ruler, "up").text,
        "marks": f"{plain_words(ruler.step_mm, system)} {system}",
        "grooves": f"{plain_words(tools.grooves.mm(system), system)} {system}",
        "slanted": needs.slanted_folds,
        "by_ruler": needs.by_ruler,
        "steel": needs.knife or needs.slanted_folds or needs.by_ruler,
        "cut": needs.cut_with_scissors,
        "eraser": needs.eraser,
        "radii": [mark_in_words(radius, ruler).text for radius in needs.radii],
        "pressed": [literal(what) for what in needs.pressed],
        "holes": [mark_in_words(across, ruler).text for across in needs.punch],
    }
    return [section_text(context, f"tool {tool}", **values) for tool, wanted in said.items() if wanted]
