"""Moves in the plane and back."""

from fractions import Fraction as F
from math import isclose

from hypothesis import given
from hypothesis import strategies as st

from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Arc, Line
from creasewright.geometry.plane_transform import Affine, left_for_right, rotation, shift
from creasewright.geometry.point import Point

whole = st.integers(-500, 500).map(F)


def test_a_quarter_turn_is_clockwise_and_exact():
    assert rotation(F(90)).point(Point(F(3), F(0))) == Point(0, 3)  # from pointing right to pointing to the tail
    assert rotation(F(-90)).point(Point(F(3), F(0))) == Point(0, -3)


def test_the_mirror_image_keeps_within_its_width():
    assert left_for_right(F(265)).point(Point(F(55), F(10))) == Point(210, 10)


def test_a_reflected_loop_still_runs_clockwise():
    loop = (
        Arc(Point(F(0), F(0)), Point(F(20), F(0)), Point(F(10), F(0)), True),
        Line(Point(F(20), F(0)), Point(F(5), F(9))), Line(Point(F(5), F(9)), Point(F(0), F(0))),
    )  # fmt: skip
    image = left_for_right(F(20)).loop(loop)
    assert isclose(loop_area(image), loop_area(loop))
    assert [edge.end for edge in image] == [edge.start for edge in image[1:] + image[:1]]


@given(whole, whole, st.sampled_from([0, 90, 180, 270]), whole, whole)
def test_every_move_can_be_taken_back(x, y, turn, dx, dy):
    move = left_for_right(F(100)).then(rotation(F(turn))).then(shift(dx, dy))
    assert move.inverse().point(move.point(Point(x, y))) == Point(x, y)
    assert move.then(move.inverse()) == Affine()


@given(whole, whole, st.floats(-360, 360))
def test_turns_keep_lengths(x, y, turn):
    moved = rotation(turn).point(Point(x, y))
    assert isclose(float(moved.x) ** 2 + float(moved.y) ** 2, float(x * x + y * y), rel_tol=1e-9, abs_tol=1e-9)
