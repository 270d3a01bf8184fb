import pytest

from creasewright.booklet.drawing import Words
from creasewright.booklet.section import Section
from creasewright.booklet.sections import score_guide
from section_cases import DESIGNS, TRADE_WORDS, alternatives, context_of, items_of, measures, said, shapes, shipped
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
        *("0", "4 1/8", "8 1/4", "10 1/2 in"),
        *("0", "4 1/8", "8 1/4", "10 1/2 in"),
        *("0", "3/4", "1", "1 3/4 in"),
    ]


def test_a_metric_pack_has_its_own_round_numbers_and_no_inch() -> None:
    # strips 55 + 105 + 105: from the straight end 105, 210, 265; connector 20 + 6 + 20
    section = guide("seed-swap-folio", "mm", "a4")
    assert measures(section) == ["0", "105", "210", "265 mm", "0", "105", "210", "265 mm", "0", "20", "26", "46 mm"]
    assert " in " not in said(section).replace(" in this", "").replace(" in these", "")


def test_edge_side_and_top_are_named_in_one_sentence() -> None:
    assert "Measure from the left edge, sprig side up, top away from you." in said(guide("swap-day-card"))


def test_a_mirror_pair_shares_one_drawing_and_is_told_how_to_lie() -> None:
    section = guide("seed-swap-folio")
    assert len(alternatives(section)) == 3  # two for the four strips, one for the connector
    text = said(section)
    assert "Measure from the left edge, seed side up, A with its top away from you." in text
    assert "B is its mirror image: lay it with its top toward you, and the distances are the same." in text


def test_of_two_pieces_of_one_letter_each_is_named_where_they_are_scored_apart() -> None:
    text = said(guide("seed-swap-folio"))
    assert "A (1 of 2) left strip of the front block" in text
    assert "A (1 of 2) right strip of the back block" in text


def test_a_piece_folded_both_ways_takes_two_passes_and_is_turned_like_a_pad() -> None:
    text = said(small("{fold: a}", "{mountain: c}"))
    assert "sprig side up, top away from you." in text
    assert "Second pass: turn the piece over like a page of a wall pad; its left edge stays at the left." in text
    assert "plain side up, top toward you." in text
    assert ("1 of 2" in text, "2 of 2" in text) == (True, True)
    assert text.count("The dashed line is for the other pass.") == 2


def test_a_line_never_folded_is_named() -> None:
    assert "Not folded in these steps: the line at 50 mm." in said(small("{fold: a}"))


def test_the_thick_edge_is_drawn_once_for_each_piece() -> None:
    section = guide("seed-swap-folio")
    edges = shapes(section, "datum edge")
    assert [(edge.pen.width, edge.pen.cap) for edge in edges if edge.pen] == [(3.0, "butt")] * 3


def test_lines_pressed_in_their_pass_are_drawn_as_mountains() -> None:
    assert {shape.role.split()[1] for shape in shapes(guide("seed-swap-folio"), "line ")} == {"mountain"}
    assert {shape.role.split()[1] for shape in shapes(small("{fold: a}", "{mountain: c}"), "line ")} == {"mountain", "valley"}


def test_partial_lines_show_where_they_end() -> None:
    # the slit of the diary takes the middle line between the second and the fourth quarter: 2 3/4 and 8 1/4 of 11
    section = guide("plant-diary")
    assert measures(section)[-4:] == ["0", "2 3/4", "8 1/4", "11 in"]
    assert "Press each line only where it is drawn; the measure at the right, from the far edge, tells" in said(section)


def test_aslant_lines_are_told_by_their_ends_and_the_template() -> None:
    text = said(guide("seed-packet-envelope"))
    assert "Press a–b, a–d, b–c, c–d" in text
    assert "or prick them through template A" in text
    # in inches, on a square of 8 1/4: the lines run across two corners, x - y = 8.25 - (4.5 / sqrt 2 + 1.00216) = 4.06589 and
    # x + y = 5.75 / sqrt 2 + 1.00216 = 5.06802; they meet at x = 4.56695, which is 0.00445 in (0.11 mm) past 4 9/16
    assert "just over 4 9/16 in" in text


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
