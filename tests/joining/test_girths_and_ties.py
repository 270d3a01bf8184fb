"""Ribbons and bands: as long as the way round, and what hangs free."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.folding.state import Closure
from small_designs import PLAIN_PAPER, last_run, made, with_steps

RIBBON = "materials: {ribbon: {kind: ribbon, width: 6 mm, sold by: length}}\n"
THICK = "papers: {card: {sheet: [600 mm, 600 mm], caliper: CALIPER mm}}"


def tied(blanks: str, *steps: str, papers: str = PLAIN_PAPER) -> Closure:
    (closure,) = made(RIBBON + with_steps(blanks, *steps), papers).closures
    return closure


@pytest.mark.parametrize(("across", "side"), [("width", 80), ("height", 50)])
def test_round_a_flat_board_it_is_twice_width_and_thickness(across: str, side: int):
    board = "board: {width: 80 mm, height: 50 mm}"
    closure = tied(board, f"{{tie: ribbon, around: board, across: {across}}}", papers=THICK.replace("CALIPER", "3"))
    assert closure.girth == pytest.approx(2 * (side + 3))
    assert closure.extra == 0


@given(st.integers(20, 200), st.integers(20, 200), st.integers(1, 40))
@settings(max_examples=20, deadline=None)
def test_the_girth_of_a_box_like_thing_is_twice_its_sides(wide: int, high: int, thick: int):
    closure = tied(
        f"board: {{width: {wide} mm, height: {high} mm}}",
        "{tie: ribbon, around: board, across: width}",
        papers=THICK.replace("CALIPER", str(thick / 10)),
    )
    assert closure.girth == pytest.approx(2 * (wide + thick / 10))


def test_round_an_open_case_it_goes_round_the_convex_outline():
    # front and back 60 wide at both ends of a spine of 20, folded to 90: a U of 60 x 20; half of the caliper of 0.3 lies outside
    # at the spine's two ends (20 + 0.3 high) and outside the spine (60 + 0.15 wide)
    case = "case: {height: 90 mm, across: [back: 60 mm, spine: 20 mm, front: 60 mm]}"
    closure = tied(case, "{fold: [back/spine, spine/front], to: 90}", "{tie: ribbon, around: case, across: width}")
    assert closure.girth == pytest.approx(2 * (60.15 + 20.3), abs=0.4)
    assert closure.girth >= 2 * (60 + 20)


def test_the_ends_hang_free_twice_and_a_lap_counts_once():
    board = "board: {width: 80 mm, height: 50 mm}"
    ends = tied(board, "{tie: ribbon, around: board, across: width, ends: 200 mm}")
    assert ends.extra == 400
    strip = board + "\nbelly: {width: 300 mm, height: 20 mm}"
    lap = tied(strip, "{band: belly, around: board, across: width, lap: 15 mm}")
    assert lap.extra == 15
    assert (ends.verb, lap.verb) == ("tie", "band")


def test_a_tie_is_measured_where_it_lies():
    # a square with its head-left corner cut: 40 mm from the head it is 100 wide, 10 mm from the head only 100 - 30
    shape = "board: {width: 100 mm, height: 100 mm, corners: {head-left: {cut: [40 mm, 40 mm]}}}"
    low = tied(shape, "{tie: ribbon, around: board, across: width, at: 60 mm}")
    high = tied(shape, "{tie: ribbon, around: board, across: width, at: 10 mm}")
    assert low.girth == pytest.approx(2 * (100 + 0.3))
    assert high.girth == pytest.approx(2 * (70 + 0.3))


def test_a_place_beyond_the_thing_is_refused_in_figures():
    board = "board: {width: 80 mm, height: 50 mm}"
    run = last_run(RIBBON + with_steps(board, "{tie: ribbon, around: board, across: width, at: 60 mm}"))
    assert run.refused == ("`at` is 60.0 mm, but the thing measures 50.0 mm there", "choose a place on it")


def test_a_tie_before_there_is_anything_is_refused():
    run = last_run(RIBBON + with_steps("board: {width: 80 mm, height: 50 mm}", "{tie: ribbon, around: all, across: width}"))
    assert run.refused == ("there is nothing yet for the ribbon to go round", "tie it after the steps that make the thing")


def test_layers_thicker_than_the_spine_bulge_out_what_the_tie_goes_round():
    blanks = """
        case: {height: 90 mm, across: [back: 60 mm, spine: 2 mm, front: 60 mm]}
        slip: {width: 20 mm, height: 80 mm}
    """
    before = RIBBON.replace("length}}", "length}, foam: {kind: foam, thick: 4 mm, sold by: sheet}}")
    place = "meet: {right: {from: right, by: 2 mm}, head: {from: head, by: 5 mm}}, with: foam"
    steps = [
        "{lay: case, up: back}",
        f"{{join: slip, onto: back, {place}}}",
        "{fold: [back/spine, spine/front], to: 90, stays: back}",
        "{tie: ribbon, around: case, across: width}",
    ]
    (closure,) = made(before + with_steps(blanks, *steps), PLAIN_PAPER).closures
    # 3 * 0.3 + 4 = 4.9 thick over the 20 mm of the slip, 2 mm from the open edge; 2.3 thick at both sides of the thing, 60 apart:
    # 2 * (20 + hypot(38, 1.3) + 0.21 + hypot(2, 1.3)) + 2.0 + 2.3
    assert closure.girth == pytest.approx(125.5, abs=0.5)


def test_a_band_brings_its_strip_and_the_adhesive_on_its_lap():
    strip = "board: {width: 80 mm, height: 50 mm}\nbelly: {width: 180 mm, height: 20 mm}"
    glue = "materials: {glue: {kind: glue}}\n"
    state = made(glue + with_steps(strip, "{band: belly, around: board, across: width, lap: 16 mm}"))
    (closure,) = state.closures
    assert (closure.band, closure.has, closure.wide, closure.thick) == ("belly", 180, 20, 0.3)
    (area,) = state.glue
    # the last 16 mm of 180, on the back, 3 mm from every edge
    assert area.side == "back"
    assert area.polygon == ((167, 3), (177, 3), (177, 17), (167, 17))
    short = made(glue + with_steps(strip, "{band: belly, around: board, across: width, lap: 6 mm}"))
    assert short.glue == ()
