import re
from collections import Counter

import pytest

from booklet.sections.kit_cases import PACKS, kit
from creasewright.booklet.context import PackContext
from creasewright.booklet.cut_rows import cut_rows, left_by, pieces_freed
from creasewright.booklet.diagrams.boxes import box_of, path_lines
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.scales import scale_named
from creasewright.booklet.sections import materials, sheet_plans
from creasewright.booklet.sheet_drawing import SheetPicture, SheetWords, sheet_picture
from creasewright.cutting.demand import Piece, Stock
from creasewright.cutting.plan import SheetPlan
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.units.ruler import mark_in_words
from section_cases import TRADE_WORDS, context_of, every_item, said, shapes
from small_designs import worked_of


def sheets(context: PackContext) -> list[tuple[str, SheetPlan]]:
    return [(plan.paper, sheet) for plan in context.plans for sheet in plan.sheets]


def drawn(context: PackContext, paper: str, sheet: SheetPlan, scale: str = "1:4") -> SheetPicture:
    words = SheetWords(lambda part: f"{float(part.width):g} × {float(part.height):g}", "keep")
    return sheet_picture(sheet, context.worked.papers[paper], scale_named(scale)[1], words, context.layout, context.text, NORMAL)


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_pieces_and_sheets_are_drawn_to_the_scale_named(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "sheet plans", system, page, makers)
    section = sheet_plans.build(context)
    (name,) = re.findall(r"(1:[0-9.]+)", said(section))
    scale = scale_named(name)[1]
    found = [box_of(spot for chain in path_lines(shape.path) for spot in chain) for shape in shapes(section, "piece ")]
    wanted = [placement for _, sheet in sheets(context) for placement in sheet.placements]
    for box, placement in zip(found, wanted, strict=True):
        lies = [float(value) * scale for value in (placement.x, placement.y, placement.width, placement.height)]
        assert (box.x0, box.y0, box.width, box.height) == pytest.approx(lies, abs=1e-6)
    rims = [box_of(spot for chain in path_lines(shape.path) for spot in chain) for shape in shapes(section, "sheet rim")]
    sizes = [(float(s.stock.width) * scale, float(s.stock.height) * scale) for _, s in sheets(context)]
    assert [(rim.width, rim.height) for rim in rims] == [pytest.approx(size) for size in sizes]


@pytest.mark.parametrize(
    ("design", "width"),
    # 1/8 in lost at three edges and more, at 1:4 less than a millimetre; nothing is lost of the box's letter card
    [("seed-swap-folio", 0.4), ("seedling-box", 0.9)],
)
def test_beside_a_narrow_strip_of_waste_the_sheet_ends_in_a_thin_line(design: str, width: float) -> None:
    section = sheet_plans.build(kit(design, "sheet plans"))
    assert {shape.pen.width for shape in shapes(section, "sheet rim") if shape.pen} == {width}
    # what pieces and leftovers do not cover is the waste
    assert {shape.fill for shape in shapes(section, "sheet") if shape.role == "sheet"} == {"offcut"}


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_no_tag_size_or_number_meets_a_line_or_another(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "sheet plans", system, page, makers)
    for paper, sheet in sheets(context):
        picture = drawn(context, paper, sheet)
        assert overlaps(picture.items, context.text, picture.width, picture.height) == []


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_every_piece_of_a_sheet_carries_its_tag_and_every_cut_its_number(
    design: str, system: str, page: str, makers: int
) -> None:
    context = kit(design, "sheet plans", system, page, makers)
    scale = re.findall(r"(1:[0-9.]+)", said(sheet_plans.build(context)))[0]
    for paper, sheet in sheets(context):
        items = list(every_item(drawn(context, paper, sheet, scale).items))
        texts = Counter((item.role, item.runs[0].text) for item in items if hasattr(item, "runs"))
        assert {text: n for (role, text), n in texts.items() if role == "tag"} == Counter(p.key for p in sheet.placements)
        assert {text for role, text in texts if role == "cut number"} == {str(cut.number) for cut in sheet.cuts}


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_the_table_s_settings_are_the_plan_s(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "sheet plans", system, page, makers)
    text = said(sheet_plans.build(context))
    for _, sheet in sheets(context):
        for cut in sheet.cuts:
            if not cut.same_setting:
                assert mark_in_words(cut.setting, context.worked.ruler).text in text
    for plan in context.plans:
        assert f" {plan.sheet_count} " in text
        assert re.search(r"[Ii]t cannot be done with fewer\.", text) or not plan.proved


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_rows_tell_every_cut_once_and_every_piece_once(design: str, system: str, page: str, makers: int) -> None:
    for _, sheet in sheets(kit(design, "sheet plans", system, page, makers)):
        rows = cut_rows(sheet)
        assert [cut for row in rows for cut in row.cuts] == list(sheet.cuts)
        if rows:
            assert sum(pieces_freed(row, sheet) for row in rows) == len(sheet.placements)


def test_a_run_of_equal_cuts_is_one_row_that_counts_its_pieces() -> None:
    # twelve pieces of 46 x 150 fill a sheet of 276 x 300: one cut parts two rows of six, ten equal cuts of 46 free the pieces
    plan = plan_rectangles([Piece("C", 46, 150, 12, False)], [Stock("kraft", 276, 300)])
    (twelve,) = plan.sheets
    row = cut_rows(twelve)[-1]
    assert (row.first.setting, len(row.cuts), pieces_freed(row, twelve), left_by(row, twelve)) == (46, 10, 12, ())
    context = kit("seed-swap-folio", "sheet plans", "mm", "a4", 30)
    runs = [row for _, sheet in sheets(context) for row in cut_rows(sheet) if len(row.cuts) > 1]
    text = said(sheet_plans.build(context))
    assert runs and all(f"× {row.first.kept.keys[0]}" in text for row in runs)


def test_what_is_kept_what_is_waste_and_how_the_sheet_lies_is_said() -> None:
    text = said(sheet_plans.build(kit("seed-swap-folio", "sheet plans")))
    assert "sprig side up, tips of the print to the top, brand strip at the bottom" in text
    assert "either side up" in text  # kraft is plain on both sides
    assert "keep 1 1/4 × 11 1/4" in text and "edge strip, waste" in text
    card = said(sheet_plans.build(kit("swap-day-card", "sheet plans")))
    assert "tips of the print to the left" in card  # the print runs along the sheet's width


def test_a_setting_off_the_marks_says_on_which_side() -> None:
    # the liner's height comes from a diagonal: no sixteenth of an inch
    context = kit("seed-packet-envelope", "sheet plans")
    height = context.worked.pieces[1].blank.height
    mark = mark_in_words(height, context.worked.ruler)
    side = "under" if mark.residue_mm < 0 else "over"
    assert f"just {side} {mark.text} {float(height) / 25.4:.3f} in" in said(sheet_plans.build(context))


def test_where_nothing_is_cut_nothing_is_explained() -> None:
    text = said(sheet_plans.build(kit("plant-diary", "sheet plans", makers=30)))
    assert "Nothing to cut. The whole sheet is the piece." in text and "30 sheets" in text
    assert "the numbers give the order" not in text and "stop" not in text


GRAINS = [
    ("height", "height", 2, "up and down"),
    ("width", "width", 2, "from side to side"),
    ("height", "", 1, ""),
    ("unknown", "height", 1, ""),
]


@pytest.mark.parametrize(("runs", "asked", "count", "told"), GRAINS)
def test_where_the_grain_matters_its_way_on_the_sheet_is_told_and_what_it_costs(runs: str, asked: str, count: int, told: str) -> None:
    # two of 129 x 196 mm: turned they lie on one sheet of 210 x 297 (2 x 129 = 258), unturned they do not (258 > 210); and so
    # crosswise where the grain runs along the width. An unknown grain binds nothing.
    wide, high = (196, 129) if asked == "width" else (129, 196)
    sheet = "[297 mm, 210 mm]" if runs == "width" else "[210 mm, 297 mm]"
    boards = "\n  ".join(f"{name}: {{width: {wide} mm, height: {high} mm, {f'grain: {asked}' if asked else ''}}}" for name in ("a", "b"))
    worked = worked_of(f"blanks:\n  {boards}\n", f"papers: {{card: {{sheet: {sheet}, grain: {runs}}}}}")
    context = context_of(worked, "sheet plans")
    text = said(sheet_plans.build(context))
    assert [plan.sheet_count for plan in context.plans] == [count]
    assert f"either side up{f', grain {told}' if told else ''} " in text and ("grain" in text) is bool(told)
    assert ("With the grain as it must run, it cannot be done with fewer." if told else "It cannot be done with fewer.") in text


def test_how_the_grain_is_found_is_told_once_where_it_matters() -> None:
    text = said(sheet_plans.build(kit("recipe-booklet", "sheet plans")))
    assert text.count("To find the grain of Writing paper and of Leafy card, bend a sheet") == 1 and text.count("find the grain") == 1
    assert "the grain of Grey board, bend" in said(sheet_plans.build(kit("garden-journal", "sheet plans")))
    assert "grain" not in said(sheet_plans.build(kit("seed-swap-folio", "sheet plans")))  # no piece asks for one


def test_what_was_not_proved_is_not_claimed_and_bad_cuts_are_told() -> None:
    context = kit("seed-swap-folio", "sheet plans", "mm", "a4", 30)
    (kraft,) = (plan for plan in context.plans if plan.paper == "kraft")
    text = said(sheet_plans.build(context))
    if kraft.proved:
        assert text.count("It cannot be done with fewer.") == 2
    else:
        assert f"At least {kraft.lower_bound} are needed; no way with fewer than {kraft.sheet_count} was found." in text
    board = [plan for plan in context.plans if context.worked.papers[plan.paper].is_board]
    assert ("Take care" in text) == (bool(board) or any(plan.trimmer_faults for plan in context.plans))


def test_board_is_cut_with_the_knife_and_is_no_cut_of_the_trimmer() -> None:
    # a board of 150 x 200 out of a sheet 290 wide; a card of 60 x 40 out of one 250 wide
    papers = (
        "papers:\n  card: {sheet: [250 mm, 250 mm], caliper: 0.3 mm}\n"
        "  greyboard: {called: Grey board, sheet: [290 mm, 290 mm], caliper: %s}"
    )
    blanks = "blanks:\n  board: {paper: greyboard, width: 150 mm, height: 200 mm}\n  card: {paper: card, width: 60 mm, height: 40 mm}\n"
    steps = "steps:\n  - {lay: board}\n  - {join: card, onto: board}\n"
    thick, thin = (worked_of(blanks + steps, papers % caliper) for caliper in ("2 mm", "0.3 mm"))
    told = "Grey board is too thick for a paper trimmer. Cut it with the knife along a steel ruler, in several light passes"
    assert told in said(sheet_plans.build(context_of(thick, "sheet plans")))
    assert told not in said(sheet_plans.build(context_of(thin, "sheet plans")))
    with_board, without = (said(materials.build(context_of(worked, "materials"))) for worked in (thick, thin))
    assert "for cuts up to 250 mm" in with_board and "Craft knife" in with_board and "Steel ruler" in with_board
    assert "for cuts up to 290 mm" in without and "Craft knife" not in without


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_no_trade_word_and_no_inch_in_metric(design: str, system: str, page: str, makers: int) -> None:
    text = said(sheet_plans.build(kit(design, "sheet plans", system, page, makers)))
    assert not [word for word in TRADE_WORDS if word in text.lower()]
    assert not set(re.findall(r"[a-z]+", text)) & {"head", "tail", "guillotine"}
    if system == "mm":
        assert not re.search(r"\d in\b", text)


def test_pieces_with_the_paper_turned_over_are_named_and_so_is_the_print_underneath() -> None:
    papers = "papers: {card: {sheet: letter, caliper: 0.3 mm, front: all-over, back: one-way}}"
    blanks = "blanks:\n  card: {paper up: back, width: 100 mm, height: 60 mm}\n  slip: {width: 70 mm, height: 50 mm}\n"
    text = said(sheet_plans.build(context_of(worked_of(blanks, papers), "sheet plans")))
    assert "seed side up, tips of the print underneath to the top; when cut, turn A over, sprig side up" in text
    plain = said(sheet_plans.build(context_of(worked_of(blanks.replace("paper up: back, ", ""), papers), "sheet plans")))
    assert "turn" not in plain.split("card: cut one sheet like this")[1].split("Cut")[0]
