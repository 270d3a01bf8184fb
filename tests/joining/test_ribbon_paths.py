"""A ribbon through holes and slits: its length, and the words that name nothing."""

import pytest

from creasewright.problems import ProblemsFound
from small_designs import last_run, made, with_steps

RIBBON = "materials: {ribbon: {kind: ribbon, width: 6 mm, sold by: length}}\n"
BOARD = (
    "board: {width: 100 mm, height: 80 mm, "
    "holes: {upper: {at: [50 mm, 20 mm], across: 4 mm}, lower: {at: [50 mm, 60 mm], across: 4 mm}}}"
)


def test_a_ribbon_through_two_holes_is_as_long_as_from_hole_to_hole_and_twice_through_the_paper():
    (closure,) = made(RIBBON + with_steps(BOARD, "{tie: ribbon, around: board, path: [upper, lower], ends: 150 mm}")).closures
    # 60 - 20 behind the board, twice its caliper of 0.3; two ends
    assert closure.girth == pytest.approx(40 + 2 * 0.3)
    assert closure.extra == 300
    assert closure.path == (("board", (50.0, 20.0)), ("board", (50.0, 60.0)))


def test_a_slit_counts_with_its_middle():
    slits = "a: {line: [[20 mm, 30 mm], [20 mm, 50 mm]]}, b: {line: [[80 mm, 30 mm], [80 mm, 50 mm]]}"
    board = f"board: {{width: 100 mm, height: 80 mm, slits: {{{slits}}}}}"
    (closure,) = made(RIBBON + with_steps(board, "{tie: ribbon, around: board, path: [a, b, a]}")).closures
    assert closure.girth == pytest.approx(60 + 60 + 3 * 0.3)


def test_holes_of_a_folded_case_are_met_where_they_are_in_space():
    case = (
        "case: {height: 90 mm, across: [back: 60 mm, spine: 20 mm, front: 60 mm], "
        "holes: {near: {at: [5 mm, 45 mm], across: 4 mm}, far: {at: [135 mm, 45 mm], across: 4 mm}}}"
    )
    steps = ["{fold: [back/spine, spine/front], to: 90}", "{tie: ribbon, around: case, path: [near, far]}"]
    (closure,) = made(RIBBON + with_steps(case, *steps)).closures
    # straight across the opening, as far as the spine is wide
    assert closure.girth == pytest.approx(20 + 2 * 0.3)


def test_a_hole_that_is_not_there_is_told_with_those_that_are():
    with pytest.raises(ProblemsFound) as caught:
        last_run(RIBBON + with_steps(BOARD, "{tie: ribbon, around: board, path: [uper, lower]}"))
    (problem,) = caught.value.problems
    assert (problem.what, problem.hint) == ("there is no hole or slit `uper` here", "did you mean `upper`?")
