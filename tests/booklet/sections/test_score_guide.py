from fractions import Fraction

import pytest
from msgspec.structs import replace

from booklet.sections.kit_cases import kit
from creasewright.booklet.diagrams.boxes import box_of, path_lines
from creasewright.booklet.drawing import Shape, Tagged, Words
from creasewright.booklet.length_words import listed_length
from creasewright.booklet.scoring.score_words import Shown, set_again
from creasewright.booklet.section import Section
from creasewright.booklet.sections import score_guide
from creasewright.reading.settings import ToolLength, Tools
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import passes_on_board
from section_cases import DESIGNS, TRADE_WORDS, alternatives, context_of, every_item, items_of, measures, said, shapes, shipped
from small_designs import with_steps, worked_of

PAGES = ("letter", "a4", "half letter", "a5")
PRINTED = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120, front: one-way}}"


def guide(design: str, system: str = "in", page: str = "letter") -> Section | None:
    return score_guide.build(context_of(shipped(design, system), "score guide", page))


def small(*steps: str) -> Section | None:
    worked = worked_of(with_steps("strip: {height: 100 mm, across: [a: 30 mm, b: 40 mm, c: 50 mm]}", *steps), PRINTED)
    return score_guide.build(context_of(worked, "score guide"))


def test_the_folio_shows_its_measures_from_one_edge_each() -> None:
    assert measures(guide("seed-swap-folio")) == [
        *(("0", "4 1/8", "8 1/4", "10 1/2 in") * 4),
        *("0", "3/4", "1", "1 3/4 in"),
    ]


def test_a_metric_pack_has_its_own_round_numbers_and_no_inch() -> None:
    # strips 55 + 105 + 105: from the straight end 105, 210, 265; connector 20 + 6 + 20, each score 20 from its own end
    section = guide("seed-swap-folio", "mm", "a4")
    assert measures(section) == [*(["0", "105", "210", "265 mm"] * 4), *(["0", "20", "46 mm"] * 2)]
    assert " in " not in said(section).replace(" in order", "")


def test_a_piece_is_laid_by_what_is_seen_on_it_and_its_edges_are_named_as_it_lies() -> None:
    text = said(guide("swap-day-card"))
    assert "Lay it sprig side up, tips of its print away from you, and press at 3 3/8 in and 6 7/8 in." in text
    assert text.count("The thick edge, the left one, lies at the stop of the scoring board") == 1
    assert text.count("Left, right, far and near are as the piece lies before you.") == 1


def test_how_often_a_line_is_pressed_and_in_which_order_stands_at_the_head() -> None:
    assert said(guide("swap-day-card")).count("Press each line once, firmly, the one nearest to the stop first.") == 1
    assert "Press each line once, firmly, the one nearest to that edge first." in said(guide("bulb-pot"))
    assert "1 of 3 counts how often a piece is laid down: do them all, in order." in said(guide("seedling-box"))
    assert "counts how often" not in said(guide("swap-day-card"))


def test_each_hand_of_a_mirror_pair_has_its_own_drawing_and_says_how_it_lies() -> None:
    section = guide("seed-swap-folio")
    assert [alt.split(",")[0] for alt in alternatives(section)] == [f"Piece {mark} lying flat" for mark in ("A1", "A2", "B1", "B2", "C")]
    text = said(section)
    over = "then turn it over like a page, seed side up, and press at"
    assert f"A1 left strip of the front block First lay it sprig side up, tips of its print away from you; {over}" in text
    assert "A2 left strip of the back block Lay it sprig side up, tips of its print toward you, and press at" in text
    assert f"B2 right strip of the back block First lay it sprig side up, tips of its print toward you; {over}" in text
    assert "left edge" not in text and "right edge" not in text


def test_a_part_of_a_mirrored_block_goes_by_where_it_is_seen() -> None:
    # the back block's own `right strip` is made as a mirror image: its flap lies at the left, as on every A
    text = said(guide("seed-swap-folio"))
    assert "A2 left strip of the back block" in text and "A2 right strip" not in text


def test_corners_that_the_steps_cut_are_square_and_dotted_while_a_piece_is_scored() -> None:
    section = guide("seed-swap-folio")
    assert len(shapes(section, "line cut later")) == 4  # one slope on each strip
    assert "Score while every corner is square; the dotted ones, far from the stop, are cut later." in said(section)
    boxes = [box_of(spot for chain in path_lines(each.path) for spot in chain) for each in shapes(section, "outline")]
    corners = [sum(len(chain) for chain in path_lines(each.path)) for each in shapes(section, "outline")]
    assert set(corners) == {corners[-1]}  # all as many as the connector, which is a rectangle
    assert boxes[0].width == pytest.approx(10.5 * 25.4 / 4) and boxes[0].height == pytest.approx(5.5 * 25.4 / 4)


def test_the_folio_s_guide_takes_one_page_at_one_scale() -> None:
    for system, page in (("in", "letter"), ("mm", "a4")):
        context = kit("seed-swap-folio", "score guide", system, page)
        section = score_guide.build(context)
        assert section is not None
        used = sum(block.space_before + block.height for block in section.blocks)
        assert used <= context.page.content_to - context.page.content_from
        assert "drawn 1:4" in said(section)


def test_a_narrow_drawing_has_its_caption_beside_it() -> None:
    section = score_guide.build(kit("seed-swap-folio", "score guide"))
    assert section is not None
    last = section.blocks[-1]
    (figure,) = [item for item in last.items if isinstance(item, Tagged) and item.kind == "Figure"]
    shapes_of = [item for item in every_item(figure.items) if isinstance(item, Shape)]
    right = max(x for shape in shapes_of for chain in path_lines(shape.path) for x, _ in chain)
    captions = [item for item in last.items if isinstance(item, Tagged) and item.kind == "P"]
    lefts = [item.x for item in every_item(captions) if isinstance(item, Words)]
    assert lefts and all(left > right for left in lefts)


@pytest.mark.parametrize(("system", "page"), [("in", "letter"), ("mm", "a4")])
def test_two_lays_of_a_piece_stand_side_by_side_where_the_values_in_their_drawings_do(system: str, page: str) -> None:
    # "half a mark past 5 1/4 in" is told in the caption; in the drawing it is "≈ 5 1/4"
    section = score_guide.build(kit("bulb-pot", "score guide", system, page))
    assert section is not None
    rows = [[item for item in block.items if isinstance(item, Tagged) and item.kind == "Figure"] for block in section.blocks]
    assert [len(figures) for figures in rows if figures] == [2]


def test_the_only_drawing_is_as_large_as_its_caption_beside_it_leaves_room_for() -> None:
    # 9 7/8 x 6 in, at 1:2.5: 100 mm wide, 61 mm high; at 1:2 it would be higher than a drawing of the guide may be
    section = score_guide.build(kit("open-day-card", "score guide"))
    assert section is not None
    assert "drawn 1:2.5" in said(section)
    last = section.blocks[-1]
    right = max(x for shape in shapes(section, "outline") for chain in path_lines(shape.path) for x, _ in chain)
    words = [item for part in last.items if isinstance(part, Tagged) and part.kind == "P" for item in every_item(part.items)]
    assert all(word.x > right for word in words if isinstance(word, Words))


def test_corners_cut_before_scoring_are_drawn_cut() -> None:
    blanks = "strip: {height: 100 mm, across: [a: 60 mm, b: 60 mm], corners: {head-left: {cut: [20 mm, 60 mm]}}}"
    section = score_guide.build(context_of(worked_of(with_steps(blanks, "{fold: a}")), "score guide"))
    assert shapes(section, "line cut later") == [] and "every corner is square" not in said(section)


def test_leaves_cut_even_at_the_fore_edge_keep_their_corners() -> None:
    section = guide("recipe-booklet")
    assert shapes(section, "line cut later") == [] and "every corner is square" not in said(section)


def test_a_piece_with_many_lines_has_its_row_and_its_values_to_itself() -> None:
    # fourteen lines of the pleats; the other pass, of six, comes under it, on the same page
    section = guide("season-album")
    assert section is not None
    _, _, first, second = section.blocks
    for block in (first, second):
        assert len([item for item in block.items if isinstance(item, Tagged) and item.kind == "Figure"]) == 1
    page = context_of(shipped("season-album"), "score guide").page
    assert sum(block.space_before + block.height for block in section.blocks) <= page.content_to - page.content_from


def test_a_paper_alike_on_both_sides_is_laid_by_its_letter() -> None:
    # the glue of the connector's tabs is on its back, where the letter hides; it is scored front up
    text = said(guide("seed-swap-folio"))
    assert "C connector First lay it with its letter up, the top of the letter away from you; then turn it over like a page, letter" in text


def test_a_piece_folded_both_ways_takes_two_passes_and_is_turned_like_a_pad() -> None:
    text = said(small("{fold: a}", "{mountain: c}"))
    assert "Lay it sprig side up, tips of its print away from you," in text
    assert "Now turn the piece over like a page of a wall pad; the edge at the left stays at the left." in text
    assert "Lay it plain side up, and press at 30 mm." in text
    assert text.count("The dashed line is pressed from the other side.") == 2


def test_a_line_never_folded_is_named() -> None:
    assert "Not folded in these steps: the line at 50 mm." in said(small("{fold: a}"))


def test_the_thick_edge_is_drawn_once_for_each_piece() -> None:
    section = guide("seed-swap-folio")
    edges = shapes(section, "datum edge")
    assert [(edge.pen.width, edge.pen.cap) for edge in edges if edge.pen] == [(3.0, "butt")] * 5


def test_lines_pressed_in_their_pass_are_drawn_as_mountains() -> None:
    assert {shape.role.split()[1] for shape in shapes(guide("swap-day-card"), "line ")} == {"mountain"}
    assert {shape.role.split()[1] for shape in shapes(small("{fold: a}", "{mountain: c}"), "line ")} == {"mountain", "valley"}


def test_partial_lines_show_where_they_end() -> None:
    # the slit of the diary takes the middle line between the second and the fourth quarter: 2 3/4 and 8 1/4 of 11
    section = guide("plant-diary")
    assert measures(section)[-4:] == ["0", "2 3/4", "8 1/4", "11 in"]
    assert "Press each line only where it is drawn; the measure at the right, from the far edge, tells" in said(section)


def test_the_lines_of_the_measure_end_at_the_piece_also_where_a_fold_line_begins_inside_it() -> None:
    # both passes of the card: 0, 3 1/2, 5, 6 3/4, 10 and 0, 5 1/4, 10 from its top edge; the piece begins at y = 0 of its drawing
    lines = [box_of(path_lines(shape.path)[0]) for shape in shapes(guide("welcome-card"), "extension")]
    down = [box for box in lines if box.x1 - box.x0 < 0.01]
    assert len(down) == 8
    assert all(box.y1 <= 0 for box in down)


def test_aslant_lines_are_told_by_their_ends_and_the_template() -> None:
    text = said(guide("seed-packet-envelope"))
    assert "The lines run from the tip of one notch to the tip of another: lay a ruler on a–b, a–d, b–c, c–d in turn," in text
    assert "Lay it front side up, its large round corner at the far left." in text
    bag = said(guide("bulb-bag"))
    assert "Mark their ends, pricked with a pin through template A or measured from the table below, lay a ruler on" in bag
    # in inches, on a square of 8 1/4: the lines run across two corners, x - y = 8.25 - (4.5 / sqrt 2 + 1.00216) = 4.06589 and
    # x + y = 5.75 / sqrt 2 + 1.00216 = 5.06802; they meet at x = 4.56695, which is 0.00445 in (0.11 mm) past 4 9/16
    assert "just over 4 9/16 in" in text


def test_the_ends_of_each_lay_are_told_apart() -> None:
    bag = said(guide("bulb-bag"))  # its corners are scored from both sides, lettered anew in each drawing
    assert "Ends of the lines on A, 5 of 6" in bag and "Ends of the lines on A, 6 of 6" in bag
    assert "Ends of the lines on A just under" in said(guide("seed-packet-envelope"))


def test_a_line_between_two_grooves_is_scored_along_a_ruler() -> None:
    # grooves every 5 mm: 102 and 280 - 102 = 178 are none, 140 and 185 are; in inches all are eighths
    metric, inches = said(guide("welcome-card", "mm", "a4")), said(guide("welcome-card"))
    assert "tips of its print to the right; then turn it over like a page, plain side up, and press at 140 mm and 185 mm." in metric
    assert "No groove of the board lies at 102 mm from its left edge: mark it with a ruler at the far edge and at the near one" in metric
    assert "140 mm from" not in metric and "No groove" not in inches


def test_a_piece_without_a_straight_edge_is_measured() -> None:
    text = said(guide("bulb-pot"))
    assert "Mark them with a ruler at the far edge and at the near one" in text
    assert "board" not in text and "stop" not in text
    assert "distances from that edge" not in said(guide("seed-swap-folio"))


def test_a_piece_that_is_turned_end_for_end_is_drawn_once_more_as_it_lies_then() -> None:
    text = said(guide("seed-swap-folio", "mm", "a4"))
    assert "then turn it over like a page, letter underneath, and press at 20 mm." in text
    assert "Then turn the piece end for end, not over. Lay it with its letter underneath, and press at 20 mm." in text


def test_where_some_lines_are_measured_those_in_grooves_come_first() -> None:
    # the journal's lining, 287 mm: 160 by groove, 134 and 153 by ruler; the folio has grooves alone, the gate card rulers alone
    first = "Press each line once, firmly: first those in grooves, from the stop outward, then those measured with a ruler."
    assert first in said(guide("garden-journal", "mm", "a4"))
    for design, system in (("seed-swap-folio", "mm"), ("open-day-card", "mm"), ("garden-journal", "in")):
        assert "first those in grooves" not in said(guide(design, system))


def test_a_setting_pressed_again_after_turning_end_for_end_is_said_to_be_another_line() -> None:
    # 287 - 160; 10 15/16 - 1 1/4 and - 5 3/8
    one = "The line at 160 mm is another one than before: 127 mm from the edge that lay at the stop then."
    assert one in said(guide("garden-journal", "mm"))
    told = "The lines at 1 1/4 in and 5 3/8 in are others than before: 9 11/16 in and 5 9/16 in from the edge that lay at the stop then."
    assert told in said(guide("recipe-booklet"))
    assert "than before" not in said(guide("welcome-card"))  # turned over, not end for end


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_lines_said_to_be_others_are_as_many_as_the_settings_pressed_before_from_the_other_end(design: str, system: str) -> None:
    context = context_of(shipped(design, system), "score guide")
    for member in scored_members(context.worked):
        lies = passes_on_board(member, context.board)
        for number, drawn in enumerate(lies, start=1):
            again = set_again(context, Shown(member, drawn, number, len(lies)))
            ends = [one for one in lies[: number - 1] if (one.run, one.lie.up, one.spacer) == (drawn.run, drawn.lie.up, drawn.spacer)]
            grooves = {one.groove for each in ends if each.lie.quarter != drawn.lie.quarter for one in each.settings}
            assert len(again.get("places", [])) == sum(one.groove is not None and one.groove in grooves for one in drawn.settings)


def own_board(tools: Tools, design: str = "welcome-card") -> Section | None:
    return score_guide.build(replace(context_of(shipped(design, "mm"), "score guide", "a4"), tools=tools))


def test_a_board_with_its_stop_at_the_right_is_drawn_so() -> None:
    section = own_board(Tools(stop="right"), "swap-day-card")
    # three panels of 92, 95 and 95 mm, from the stop: 95, 190, 282; the values run to the left
    assert measures(section) == ["282 mm", "190", "95", "0"]
    (thick,), (outline,) = shapes(section, "datum edge"), shapes(section, "outline")
    right = max(x for chain in path_lines(outline.path) for x, _ in chain)
    assert [x for chain in path_lines(thick.path) for x, _ in chain] == pytest.approx([right, right])
    assert "The thick edge, the right one, lies at the stop" in said(section) and "and press at 95 mm and 190 mm." in said(section)


def test_a_spacer_is_drawn_and_its_settings_are_the_grooves() -> None:
    # 102 + 3 = 105 and 147 + 3 = 150
    three = ToolLength(Fraction(3), Fraction(3))
    section = own_board(Tools(spacers=(three,)))
    text = said(section)
    assert "its left edge against a spacer 3 mm wide that lies against the stop, and press at 105 mm." in text
    assert "Then put it to the stop once more." in text and "No groove" not in text
    assert len(shapes(section, "spacer")) == 2  # once in each pass
    assert "105" in measures(section) and "150" in measures(section) and "102" not in measures(section)


def test_a_length_between_marks_says_so_in_the_drawing() -> None:
    assert "≈ 7 3/16 in" in measures(guide("seed-packet-envelope"))


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_every_shipped_design_fits_every_page_in_the_readers_words(design: str, system: str, page: str) -> None:
    context = context_of(shipped(design, system), "score guide", page)
    section = score_guide.build(context)
    assert section is not None
    assert all(block.height <= context.page.content_to - context.page.content_from for block in section.blocks)
    text = f"{said(section)} {' '.join(alternatives(section))}".lower()
    assert [word for word in TRADE_WORDS if word in text] == []


@pytest.mark.parametrize("design", DESIGNS)
def test_no_type_is_smaller_than_nine_points(design: str) -> None:
    sizes = {run.size for item in items_of(guide(design)) if isinstance(item, Words) for run in item.runs}
    assert min(sizes) >= 9


def test_a_design_without_a_score_has_no_score_guide() -> None:
    worked = worked_of("blanks:\n  card: {width: 100 mm, height: 80 mm}\n")
    assert score_guide.build(context_of(worked, "score guide")) is None


def test_slits_are_told_after_the_last_pass_and_those_of_a_step_are_not() -> None:
    text = said(guide("welcome-card"))
    # from the top edge, which lies at the left, 5 - 1 1/2 = 3 1/2 to 5 + 1 3/4 = 6 3/4, the strip of 2 in the middle of 4 1/4
    told = "Last, cut the slits with knife and ruler, the solid lines inside the piece: from 3 1/2 in to 6 3/4 in from its left edge,"
    assert text.count("cut the slit") == 1
    assert text.index("A Card, 2 of 2") < text.index(f"{told} at 1 1/8 in and 3 1/8 in from the far edge.")
    assert "cut the slit" not in said(guide("plant-diary"))


def test_a_line_that_comes_to_lie_on_one_of_an_earlier_piece_says_so() -> None:
    # the hinge's folds lie on those of the strips, 105 from their straight ends
    text = said(guide("seed-swap-folio", "mm", "a4"))
    assert "The line at 20 mm comes to lie on the one at 105 mm of B1." in text
    assert "The line at 20 mm comes to lie on the one at 105 mm of A2." in text
    assert text.count("comes to lie on") == 2


def test_lines_that_match_and_are_as_far_from_an_edge_are_told_to_be_pressed_in_one_groove() -> None:
    blanks = "cover: {height: 100 mm, across: [a: 30 mm, b: 40 mm]}\nlining: {height: 100 mm, across: [c: 50 mm, d: 30 mm]}"
    joined = "{join: lining, onto: b of cover, by: d of lining, meet: {c/d: a/b, head: head}}"
    section = score_guide.build(context_of(worked_of("materials: {glue: {kind: glue}}\n" + with_steps(blanks, joined)), "score guide"))
    assert "The line at 30 mm comes to lie on the one at 30 mm of A: both are pressed in one groove." in said(section)


def test_a_place_between_two_marks_is_told_by_how_much_and_drawn_alike() -> None:
    # 297 mm in quarters: 74.25, 148.5, 222.75; on a ruler of 1 mm all three lie 0.25 mm and more off a mark
    metric = guide("plant-diary", "mm", "a4")
    assert "lines at 74.2 mm, 148.5 mm and 222.8 mm." in said(metric)
    assert measures(metric)[:5] == ["0", "74.2", "148.5", "222.8", "297 mm"]
    assert "Judge tenths of a millimetre between the marks of the ruler." in said(metric)
    # in inches: a wall of 2 1/4 and a hexagon of side 1 3/4, sqrt 3 x 1.75 = 3.0311 across: 0.0311 past 5 1/4, of a mark of 0.0625
    inches = said(guide("bulb-pot"))
    assert "half a mark past 5 1/4 in" in inches and "A third of a mark is a third of the way to the next mark of the ruler." in inches
    assert "of a mark" not in said(guide("seed-swap-folio"))


def test_the_table_of_ends_lists_parts_of_a_mark_in_signs_that_it_explains() -> None:
    section = guide("bulb-pot")
    text = said(section)
    assert text.count("+ 1/4 mark is a quarter of the way on to the next mark of the ruler") == 1
    table = text[text.index("Ends of the lines on A") :]
    assert "mark short of" not in table and "mark past" not in table
    assert "6 1/2 in + 1/3 mark" in table and "4 11/16 in \u2212 1/4 mark" in table
    # in millimetres tenths are told instead
    metric = said(guide("bulb-pot", "mm", "a4"))
    assert "1/4 mark" not in metric and "Judge tenths of a millimetre" in metric


def test_a_listed_place_is_where_it_is_said_to_be() -> None:
    context = context_of(shipped("bulb-pot"), "score guide")
    sixteenth = 25.4 / 16
    for off, told in ((0.25, "+ 1/4"), (-0.25, "\u2212 1/4"), (0.34, "+ 1/3"), (-0.41, "\u2212 2/5")):
        assert listed_length(context, 25.4 + off * sixteenth) == f"1 in {told} mark"
    # within a hair of a mark, and on it, as in a sentence
    assert listed_length(context, 25.4 + 0.1 * sixteenth) == "just over 1 in"
    assert listed_length(context, 25.4) == "1 in"
