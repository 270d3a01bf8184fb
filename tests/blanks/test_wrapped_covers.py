"""Covers wrapped round boards: their size, their scores at the boards' edges, their mitred corners, and what they are refused for."""

from fractions import Fraction
from math import hypot, sqrt

import pytest

from blanks.written_blanks import measured, shaped, text
from creasewright.blanks.blank import Blank
from creasewright.blanks.derived import mirror_image
from creasewright.geometry.loops import loop_area
from creasewright.problems import ProblemsFound

BOARDS = """
blanks:
  front board: {paper: board, width: 130 mm, height: 196 mm}
  back board: {same as: front board}
  spine board: {paper: board, width: 18 mm, height: 196 mm}
"""
CASE = "  case: {wrap: [back board, spine board, front board], gaps: 7 mm, turn-in: 15 mm}\n"


def case(line: str = CASE) -> Blank:
    return shaped(BOARDS + line)["case"]


def test_a_cover_is_as_large_as_its_boards_its_joints_and_its_turn_ins():
    # 15 + 130 + 7 + 18 + 7 + 130 + 15 = 322; 15 + 196 + 15 = 226
    assert (case().width, case().height) == (322, 226)


def test_the_cloth_of_a_school_book_is_larger_by_its_turn_ins_and_mitred_by_a_board_s_thickness():
    # S. J. Vaughn, "Printing and Bookbinding for Schools" (1914, the year from memory), making the cover: turn-ins of three
    # fourths of an inch; at the mitres "a distance is left about equal to the thickness of the board". Boards of 5 x 7 in, 1 in apart.
    blank = shaped("""
blanks:
  cover board: {paper: board, width: 127 mm, height: 177.8 mm}
  cover: {wrap: [cover board, cover board], gaps: 25.4 mm, turn-in: 19.05 mm, corner gap: 2 mm}
""")["cover"]
    inch = Fraction(254, 10)
    assert (blank.width, blank.height) == ((5 + 1 + 5 + Fraction(3, 2)) * inch, (7 + Fraction(3, 2)) * inch)
    assert mitre_to_corner(blank, 19.05) == pytest.approx(2.0)


def mitre_to_corner(blank: Blank, turn_in: float) -> float:
    """How far the cut at the head-left corner passes from the board's corner."""
    cut = next(edge for edge in blank.outline.edges if float(edge.start.x) == 0 and float(edge.end.y) == 0)
    leg = float(cut.start.y)
    assert leg == pytest.approx(float(cut.end.x))  # at 45 degrees
    return abs(2 * turn_in - leg) / hypot(1, 1)


def test_a_mitre_leaves_one_and_a_half_times_the_thickness_where_nothing_is_said():
    # common practice, no source
    assert mitre_to_corner(case(), 15) == pytest.approx(1.5 * 2)
    assert mitre_to_corner(case(CASE.replace("15 mm}", "15 mm, corner gap: 4 mm}")), 15) == pytest.approx(4)


def test_panels_are_named_after_boards_joints_and_turn_ins():
    names = {panel.name for panel in case().panels}
    rows = {f"{side} turn-in {number}" for side in ("head", "tail") for number in range(1, 6)}
    corners = {f"{word} corner" for word in ("head-left", "head-right", "tail-left", "tail-right")}
    assert names == rows | corners | {"left turn-in", "back board", "joint 1", "spine board", "joint 2", "front board", "right turn-in"}


def test_a_cover_of_one_board_has_one_turn_in_on_each_side():
    blank = shaped(BOARDS + "  case: {wrap: [front board], turn-in: 15 mm}\n")["case"]
    sides = {f"{side} turn-in" for side in ("head", "tail", "left", "right")}
    corners = {f"{word} corner" for word in ("head-left", "head-right", "tail-left", "tail-right")}
    assert {panel.name for panel in blank.panels} == sides | corners | {"front board"}


def test_equal_boards_number_their_panels():
    blank = shaped(BOARDS + "  case: {wrap: [front board, front board], gaps: 7 mm, turn-in: 15 mm}\n")["case"]
    assert {"front board 1", "joint", "front board 2"} < {panel.name for panel in blank.panels}
    assert blank.wrap is not None
    assert [(place.board, place.panel) for place in blank.wrap.boards] == [
        ("front board", "front board 1"), ("front board", "front board 2")
    ]  # fmt: skip


def test_it_folds_half_a_caliper_outside_the_outer_edges_and_at_the_edges_beside_a_joint():
    # boards 2 mm thick: 15 - 1 = 14 from the sheet's edge, and 1 + 130 = 131 to the joint; the spine board's own 18 between two joints
    at = {score.name: float(score.start.x) for score in case().scores if score.start.x == score.end.x}
    assert at == {
        "left turn-in": 14, "back board/joint 1": 145, "joint 1/spine board": 152, "spine board/joint 2": 170,
        "joint 2/front board": 177, "right turn-in": 308,
    }  # fmt: skip
    assert [float(score.start.y) for score in case().scores if score.start.y == score.end.y] == [14, 212]


@pytest.mark.parametrize("paper", ["card", "thin board", "board"])
def test_of_a_turn_in_the_thickness_is_lost_over_the_edge(paper):
    # what lies over the edge after a flat fold: depth of the flap less the way from the fold to the board's edge = turn-in - thickness
    blank = shaped(BOARDS.replace("paper: board", f"paper: {paper}") + CASE)["case"]
    assert blank.wrap is not None
    fold = next(float(score.start.y) for score in blank.scores if score.name == "head turn-in")
    reach = fold - (float(blank.wrap.boards[0].head) - fold)
    assert reach == pytest.approx(15 - float(blank.wrap.thick))


def test_panels_fill_the_sheet_less_four_corners():
    leg = 30 - sqrt(2) * 3
    assert sum(panel.area for panel in case().panels) == pytest.approx(322 * 226 - 4 * leg * leg / 2)
    assert loop_area(case().outline.edges) == pytest.approx(322 * 226 - 4 * leg * leg / 2)


def test_its_mirror_image_has_its_boards_the_other_way_round():
    wrap = mirror_image(case(), "mirror", "case").wrap
    assert wrap is not None
    assert [(place.panel, float(place.left)) for place in wrap.boards] == [("front board", 15), ("spine board", 152), ("back board", 177)]


def refusals(line: str, more: str = "") -> list[tuple[str, str]]:
    values = measured(BOARDS + more + line)
    try:
        values.blank(text("case"))
    except ProblemsFound as caught:
        return [(problem.what, problem.hint) for problem in caught.problems]
    return []


def test_a_sound_cover_is_not_refused():
    assert refusals(CASE) == []


@pytest.mark.parametrize(
    ("line", "what", "hint"),
    [
        (
            CASE.replace("turn-in: 15 mm", "turn-in: 2 mm"),
            "`turn-in: 2 mm` comes to 2 mm, and the boards are 2 mm thick: it does not reach their inner side",
            "make it longer; 5/8 in or 15 mm is usual",
        ),
        (
            CASE.replace("gaps: 7 mm", "gaps: 1 mm"),
            "`gaps: 1 mm` comes to 1 mm, and the boards are 2 mm thick: they would jam when the cover closes",
            "leave at least 2 mm; twice the thickness and a little is usual",
        ),
        (
            CASE.replace("15 mm}", "15 mm, corner gap: 1 mm}"),
            "`corner gap: 1 mm` comes to 1 mm, and the boards are 2 mm thick: their corners would show",
            "leave at least 2 mm; one and a half times the thickness is usual",
        ),
        (
            CASE.replace("15 mm}", "15 mm, corner gap: 25 mm}"),
            "a corner gap of 25 mm leaves nothing to cut off a turn-in of 15 mm", "make the turn-in longer, or the corner gap smaller",
        ),
        (
            "  low board: {paper: board, width: 18 mm, height: 190 mm}\n" + CASE.replace("spine board", "low board"),
            "the board `low board` is 190 mm high, `back board` is 196 mm", "give the boards of one cover the same height",
        ),
        (
            CASE.replace("15 mm}", "150 mm}"),
            "`turn-in: 150 mm` comes to 150 mm, and the boards are 196 mm across: the mitred corners would meet", "make it shorter",
        ),
        (
            "  bent board: {paper: board, height: 196 mm, across: [a: 9 mm, b: 9 mm]}\n" + CASE.replace("spine board", "bent board"),
            "the board `bent board` has 2 panels", "a board is one flat piece without scores",
        ),
    ],
)  # fmt: skip
def test_a_cover_that_cannot_be_is_refused_with_its_figures(line, what, hint):
    assert refusals(line) == [(what, hint)]
