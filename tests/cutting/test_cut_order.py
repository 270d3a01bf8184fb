"""The cuts in order, their settings, and what the trimmer cannot do."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from creasewright.cutting.demand import Trimmer
from creasewright.cutting.plan import Cut, Offcut, TrimmerFault
from creasewright.cutting.plan_rectangles import plan_rectangles
from cutting.cutting_cases import TRIMMER, piece, stock


def told(cut: Cut) -> tuple:
    """A cut in short: direction, the edge it is set from, setting, same, what is kept, what comes off."""
    return cut.direction, cut.from_edge, cut.setting, cut.same_setting, cut.kept.keys, cut.other.kind


def test_two_strips_on_a_twelve_inch_sheet_take_three_cuts_and_two_settings():
    # 305 - 265 = 40 mm comes off one side; 2 x 150 = 300 leaves 5 mm at the tail.
    sheet = plan_rectangles([piece("strip", 265, 150, 2)], [stock(305, 305)], TRIMMER).sheets[0]
    assert [told(cut) for cut in sheet.cuts] == [
        ("down", "left", 265, False, ("strip", "strip"), "offcut"),
        ("across", "head", 150, False, ("strip",), "pieces"),
        ("across", "head", 150, True, ("strip",), "offcut"),
    ]
    assert sheet.cuts[2].piece_rect == (0, 150, 265, 155)
    assert sheet.offcuts == (
        Offcut(Fraction(265), Fraction(0), Fraction(40), Fraction(305)),
        Offcut(Fraction(0), Fraction(300), Fraction(265), Fraction(5)),
    )


def test_a_piece_as_large_as_the_sheet_needs_no_cut():
    sheet = plan_rectangles([piece("cover", 210, 297)], [stock(210, 297)], TRIMMER).sheets[0]
    assert (sheet.cuts, sheet.offcuts) == ((), ())


def test_strips_lost_at_the_edges_come_off_first_each_set_from_the_edge_opposite():
    # 305 x 317 with 5 lost at the left and a 12 mm brand strip at the tail: 300 x 305 is left, as large as the piece.
    sheet = plan_rectangles([piece("cover", 300, 305)], [stock(305, 317, (5, 0, 0, 12))], TRIMMER).sheets[0]
    assert [told(cut) for cut in sheet.cuts] == [
        ("down", "right", 300, False, ("cover",), "margin"),
        ("across", "head", 305, False, ("cover",), "margin"),
    ]
    assert sheet.cuts[0].position == 5
    assert sheet.offcuts == ()


def test_squares_in_a_grid_are_all_cut_at_one_setting():
    # 3 x 3 squares of 100 on 300 x 300: 2 cuts free the rows, 2 in each row: 8 cuts.
    sheet = plan_rectangles([piece("square", 100, 100, 9)], [stock(300, 300)], TRIMMER).sheets[0]
    assert [cut.setting for cut in sheet.cuts] == [100] * 8
    assert [cut.same_setting for cut in sheet.cuts] == [False] + [True] * 7


def test_short_pieces_in_one_strip_are_trimmed_together():
    # Strip of 100: a 200 x 100 piece beside two of 50 x 80; one cut trims both by 20. The offcut is 100 x 20, in one piece.
    pieces = [piece("long", 200, 100), piece("short", 50, 80, 2)]
    sheet = plan_rectangles(pieces, [stock(300, 100)], TRIMMER).sheets[0]
    assert len(sheet.cuts) == 3
    assert [(offcut.width, offcut.height) for offcut in sheet.offcuts] == [(100, 20)]


def test_largest_offcut_is_kept_whole_round_a_single_piece():
    # 100 x 200 on 300 x 300: a down cut first leaves 200 x 300 whole; across first would leave 300 x 100.
    sheet = plan_rectangles([piece("page", 100, 200)], [stock(300, 300)], TRIMMER).sheets[0]
    assert (sheet.offcuts[0].width, sheet.offcuts[0].height) == (200, 300)


def test_limits_of_the_trimmer_are_reported_as_figures():
    # 300 x 300 sheet, 12 x 298 strip: the first cut runs 300 > 280, keeps 12 < 20; the second takes off 300 - 298 = 2 < 3.
    trimmer = Trimmer(longest_cut=Fraction(280), narrowest_strip=Fraction(20), least_trim=Fraction(3))
    plan = plan_rectangles([piece("spine", 12, 298)], [stock(300, 300)], trimmer)
    assert plan.trimmer_faults == (
        TrimmerFault("cut too long", 0, 1, Fraction(300), Fraction(280)),
        TrimmerFault("strip too narrow", 0, 1, Fraction(12), Fraction(20)),
        TrimmerFault("trim too thin", 0, 2, Fraction(2), Fraction(3)),
    )


def test_a_plan_within_the_limits_is_preferred_to_one_beyond_them():
    # Two of 100 x 148 on 202 x 300: side by side they leave a sliver of 2 mm, one below the other a trim of 4 mm.
    trimmer = Trimmer(longest_cut=Fraction(310), narrowest_strip=Fraction(20), least_trim=Fraction(3))
    plan = plan_rectangles([piece("tag", 100, 148, 2)], [stock(202, 300)], trimmer)
    assert plan.trimmer_faults == ()
    assert [placement.x for placement in plan.sheets[0].placements] == [0, 0]


@given(st.integers(min_value=1, max_value=6), st.integers(min_value=1, max_value=6))
def test_a_full_grid_takes_one_cut_less_than_its_pieces(columns, rows):
    # Every cut makes two parts of one; from 1 sheet to n pieces without offcuts, n - 1 cuts.
    plan = plan_rectangles([piece("tag", 20, 30, columns * rows)], [stock(20 * columns, 30 * rows)], TRIMMER)
    assert len(plan.sheets[0].cuts) == columns * rows - 1
