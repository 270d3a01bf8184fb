"""The score guide: every scored piece as it lies, side up, with its lines measured from one edge."""

from collections.abc import Sequence
from itertools import pairwise, zip_longest

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.scales import SCALES, Scale
from creasewright.booklet.double_score_words import double_score_blocks
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.late_corners import late_work, uncut
from creasewright.booklet.length_words import drawn_place, is_between, listed_length
from creasewright.booklet.picture_styles import picture_style
from creasewright.booklet.scoring.lying_piece import PieceLook
from creasewright.booklet.scoring.running_measure import APART
from creasewright.booklet.scoring.score_drawing import Drawing, Said, inner_ends, point_letters, points_of, said_at, score_drawing
from creasewright.booklet.scoring.score_words import (
    Shown,
    alternative,
    caption,
    cut_far_off,
    lie_values,
    off_grooves,
    paper_of,
    uses_board,
)
from creasewright.booklet.scoring.slit_words import slit_text
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, Column, table
from creasewright.booklet.text_blocks import LINE, group_head, text_blocks
from creasewright.booklet.typeset import paragraph
from creasewright.geometry.point import Number
from creasewright.reading.page_layout import PageSize
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import passes_on_board
from creasewright.units.ruler import as_set, plain_words

TALLEST = 66.0
"""mm: the drawing of a piece without its measure."""
SMALLER = 2
"""Steps of scale that the drawings may give way to stand on one page."""
CLOSER = 0.7
"""Of the air between rows: what is left of it where only so they stand on one page."""
CLOSE = 1.5
"""mm on the page: lines nearer than this ask for a larger scale."""
CAPTION = 45.0
"""mm: a drawing that leaves so much of its cell has its caption beside it."""
SIDES_ROOM = 13.0
"""mm that values may need at the sides of a drawing."""
LETTERED = 9.0
"""mm: the column of an end's letter."""


def build(context: PackContext) -> Section | None:
    """None where no piece is scored."""
    members = scored_members(context.worked)
    if not members:
        return None
    shown: list[Shown] = []
    for member in members:
        lies = passes_on_board(member, context.board)
        shown += [Shown(member, each, number, len(lies)) for number, each in enumerate(lies, start=1)]
    marks = [member.mark for member in members]
    width = context.page.measure
    late = any(late_work(context.worked, member.parts) for member in members)
    ruled = any(off_grooves(context, each.drawn) for each in shown)
    mixed = any(len({one.groove is None for one in each.drawn.settings}) > 1 for each in shown)
    runs = {each.drawn.run for each in shown}
    several, most = any(len(each.drawn.settings) > 1 for each in shown), max(each.of for each in shown)
    intro = section_text(
        context, "intro", late=late, board=uses_board(context), by_ruler=ruled, aslant="aslant" in runs, several=several, mixed=mixed,
        stop=context.board.stop, late_far=uses_board(context) and all(cut_far_off(context, each) for each in shown),
        lies=most if most > 1 else 0,
        between=context.system if _between_marks(context, shown) else "",
    )  # fmt: skip
    told = text_blocks(intro, context.layout, width, context.text, space_before=0.0)
    after = [*_ends_tables(context, shown), *double_score_blocks(context)]
    blocks = [*told, *_drawings(context, shown, _tall(told), _tall(after)), *after]
    return Section(
        key=context.section.key,
        title=context.section.title,
        scope=section_text(context, "scope", letters=", ".join(marks), count=len(marks)),
        numbered=context.section.numbered,
        blocks=tuple(blocks),
    )


def _between_marks(context: PackContext, shown: Sequence[Shown]) -> bool:
    """Whether any place that is told lies between two marks of the ruler; parts of a mark in a table are explained beside it."""
    placed = [each.drawn.from_stop(one.place) for each in shown for one in each.drawn.settings if one.groove is None]
    placed += [far for each in shown if each.drawn.measured for far in inner_ends(each.drawn)]
    if context.system == "mm":
        placed += [far for each in shown if each.drawn.run == "aslant" for spot in points_of(each.drawn) for far in spot]
    return any(is_between(context.worked.ruler, mm) for mm in placed)


# --- drawings ---------------------------------------------------------------------------------------------------------


def _tall(blocks: Sequence[Block]) -> float:
    return sum(block.height + block.space_before for block in blocks)


def _drawings(context: PackContext, shown: list[Shown], before: float, after: float) -> list[Block]:
    """At the largest scale at which every drawing fits; with less air between rows, or a little smaller, where only so all stand on one
    page with what comes `before` and `after` them, mm.
    """
    common = _common_scale(shown, _usual_cell(context, shown))
    room = context.page.content_to - context.page.content_from - before - after
    drawn: list[list[Block]] = []
    for scale in SCALES[SCALES.index(common) :][: 1 + SMALLER]:
        drawn.append(_drawn_at(context, shown, scale))
        for air in (1.0, CLOSER):
            blocks = [replace(block, space_before=block.space_before * air) for block in drawn[-1]]
            if _tall(blocks) <= room:
                return blocks
    return drawn[0]


def _drawn_at(context: PackContext, shown: list[Shown], common: Scale) -> list[Block]:
    """The group head with the scales, then two drawings beside each other where the page is wide enough; one with many lines, or the only
    one, has the whole width.
    """
    across, usual = _across(context), _usual_cell(context, shown)
    rooms = [usual if _values_fit(context, each, usual) else context.page.measure for each in shown]
    cells = rooms if len(shown) > 1 else [context.page.measure]
    scales = [_own_scale(each, common, room) for each, room in zip(shown, rooms, strict=True)]
    note = section_text(context, "scale", scales=_scales_said(shown, scales))
    head = group_head(section_text(context, "drawings"), context.layout, context.page.measure, context.text, note)
    drawn = [(each, _drawing(context, each, scale)) for each, scale in zip(shown, scales, strict=True)]
    rows: list[tuple[float, list[tuple[Shown, Drawing]]]] = []
    for entry, cell in zip(drawn, cells, strict=True):
        if rows and cell == usual == rows[-1][0] and len(rows[-1][1]) < across:
            rows[-1][1].append(entry)
        else:
            rows.append((cell, [entry]))
    return [head, *(_drawing_row(context, row, cell, k == 0) for k, (cell, row) in enumerate(rows))]


def _across(context: PackContext) -> int:
    return 2 if context.page.columns >= 6 else 1


def _usual_cell(context: PackContext, shown: Sequence[Shown]) -> float:
    """What a drawing may be wide, mm: where it is the only one, all that its caption beside it leaves."""
    page, across = context.page, _across(context)
    return page.span(page.columns // across) if len(shown) > 1 or across == 1 else page.measure - page.gutter - CAPTION


def _values_fit(context: PackContext, each: Shown, cell: float) -> bool:
    """Whether the values of the running measure stand beside each other within a cell."""
    if each.drawn.run == "aslant":
        return True
    size, said = picture_style(context.layout).measure, _said_in_drawing(context)
    texts = [said_at(each.drawn, one, said) for one in each.drawn.settings]
    texts.append(f"{said(each.drawn.lie.width, False)} {context.system}")
    return sum(context.text.width(text, "Bold", size) + APART for text in texts) <= cell


def _said_in_drawing(context: PackContext) -> Said:
    """Without its unit; a groove as the board has it, another length marked where it lies between two marks of the ruler."""

    def said(mm: Number, groove: bool) -> str:
        if groove:
            return as_set(plain_words(mm, context.system))
        return drawn_place(context.worked.ruler, mm).removesuffix(f" {context.system}")

    return said


def _scales_said(shown: list[Shown], scales: list[Scale]) -> str:
    """`1:4`; `A, B 1:4 · C 1:2.5` where they differ."""
    names: dict[str, list[str]] = {}
    for each, scale in zip(shown, scales, strict=True):
        names.setdefault(scale[0], []).append(each.member.mark)
    if len(names) == 1:
        return next(iter(names), "")
    return " · ".join(f"{', '.join(dict.fromkeys(letters))} {name}" for name, letters in names.items())


def _drawing_row(context: PackContext, row: list[tuple[Shown, Drawing]], cell: float, first: bool) -> Block:
    """Drawings on one floor, captions `cell` wide under them from one height; beside narrow drawings, where all of the row are. One alone
    in its row has the whole width."""
    cell = cell if len(row) > 1 else context.page.measure
    tallest = max(drawing.height for _, drawing in row)
    beside = all(drawing.width + context.page.gutter + CAPTION <= cell for _, drawing in row)
    items: list[Item] = []
    height = tallest
    for k, (each, drawing) in enumerate(row):
        left = context.page.column_left(k * context.page.columns // 2)
        items.append(Tagged("Figure", (Group(drawing.items, left, tallest - drawing.height),), alt=alternative(context, each)))
        aside = drawing.width + context.page.gutter if beside else 0.0
        y = tallest - drawing.height if beside else tallest + LINE * 0.6
        for text in filter(None, (*caption(context, each), slit_text(context, each))):
            lines, tall = paragraph(text, left + aside, y, cell - aside, context.text, context.layout.types["text"])
            items.append(Tagged("P", lines))
            y += tall
        height = max(height, y)
    return Block(height, tuple(items), space_before=LINE * (0.8 if first else 1.4))


def _size(each: Shown) -> tuple[float, float]:
    return float(each.drawn.lie.width), float(each.drawn.lie.height)


def _room(each: Shown, cell: float) -> tuple[float, float]:
    sides = SIDES_ROOM + (16.0 if each.drawn.measured and inner_ends(each.drawn) else 0.0)
    return cell - sides, TALLEST


def _fits(each: Shown, scale: Scale, cell: float) -> bool:
    (width, height), (wide, high) = _size(each), _room(each, cell)
    return width * scale[1] <= wide and height * scale[1] <= high


def _common_scale(shown: list[Shown], cell: float) -> Scale:
    """The largest at which every drawing fits."""
    return next((scale for scale in SCALES if all(_fits(each, scale, cell) for each in shown)), SCALES[-1])


def _own_scale(each: Shown, common: Scale, cell: float) -> Scale:
    """The common one, or the smallest larger one at which its lines stand clear of each other, as far as it fits."""
    places = [0.0, *(float(x) for x in each.drawn.positions), float(each.drawn.lie.width)]
    closest = min(b - a for a, b in pairwise(places))
    wider = [scale for scale in reversed(SCALES) if scale[1] >= common[1] and _fits(each, scale, cell)]
    clear = [scale for scale in wider if closest * scale[1] >= CLOSE]
    if not each.drawn.measured or not wider:
        return common
    return clear[0] if clear else wider[-1]


def _drawing(context: PackContext, each: Shown, scale: Scale) -> Drawing:
    member = each.member
    words = section_text(context, "in the drawing", **lie_values(context, each)).split("\n")
    square = uncut(member.blank, late_work(context.worked, member.parts))
    look = PieceLook(
        mark=member.mark,
        paper=paper_of(context, member),
        turn=context.worked.turn_of(member.parts[0]),
        later=tuple(each.drawn.lie.chain(chain) for chain in square.later),
        words=tuple(line.strip() for line in words if line.strip()),
    )

    style = picture_style(context.layout)
    said = _said_in_drawing(context)
    return score_drawing(square.blank, each.drawn, look, scale[1], said, context.system, context.text, style)


# --- ends of lines aslant -----------------------------------------------------------------------------------------------------------


def _ends_tables(context: PackContext, shown: list[Shown]) -> list[Block]:
    """For each drawing with lines aslant: where its ends are, in two halves side by side."""
    blocks: list[Block] = []
    columns = _two_halves(context.page, section_text(context, "ends heads").split("\n"))
    for each in shown:
        if each.drawn.run == "aslant":
            member, points = each.member, points_of(each.drawn)
            ends: list[list[Cell]] = [
                [f"**{letter}**", listed_length(context, x), listed_length(context, y)]
                for letter, (x, y) in zip(point_letters(len(points)), points, strict=True)
            ]
            half = (len(ends) + 1) // 2
            rows = [[*first, *second] for first, second in zip_longest(ends[:half], ends[half:], fillvalue=["", "", ""])]
            blocks += table(
                f"ends {member.mark} {each.number}", columns, rows, context.layout, context.text,
                context.page.measure, section_text(context, "ends", mark=member.mark, number=each.number, of=each.of),
                section_text(context, "ends note"), pad=1.4,
            )  # fmt: skip
    return blocks


def _two_halves(page: PageSize, heads: Sequence[str]) -> tuple[Column, ...]:
    """Letter and two places, twice; each half begins on the grid."""
    whole = page.columns // 2
    place = (page.span(whole) - LETTERED) / 2
    found = []
    for first in (0, whole):
        left = page.column_left(first)
        found += [
            Column(heads[0], left, LETTERED, names_row=True),
            Column(heads[1], left + LETTERED, place),
            Column(heads[2], left + LETTERED + place, place),
        ]
    return tuple(found)
