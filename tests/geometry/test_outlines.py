"""Arcs, corners, loops."""

from fractions import Fraction as F
from math import isclose, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.geometry.corner import notch, rounded
from creasewright.geometry.crossing import meetings
from creasewright.geometry.edges import arc_with_rise, edge_box, edge_length
from creasewright.geometry.loops import centroid, holds, inner_point, loop_area, perimeter, tidied
from creasewright.geometry.outline import FLATTENING, Arc, Line, flattened
from creasewright.geometry.point import Point


def p(x, y):
    return Point(F(x), F(y))


def rounded_rectangle(width, height, radius):
    corners = [p(0, 0), p(width, 0), p(width, height), p(0, height)]
    lines = [Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    arcs = [rounded(lines[i - 1], lines[i], F(radius)) for i in range(4)]
    edges = []
    for i in range(4):
        edges += [arcs[i], Line(arcs[i].end, arcs[(i + 1) % 4].start)]
    return edges


def test_a_rounded_rectangle_has_its_known_perimeter_and_area():
    edges = rounded_rectangle(100, 60, 5)
    # check-values 10.15: 2(a+b) - 8r + 2 pi r = 311.415 927 and ab - (4 - pi) r² = 5978.539 816
    assert isclose(perimeter(edges), 311.415927, abs_tol=1e-6)
    assert isclose(loop_area(edges), 5978.539816, abs_tol=1e-6)
    assert edges[0].centre == p(5, 5)  # exact: the corner is a right angle


def test_the_flattened_area_comes_within_the_flattening():
    edges = rounded_rectangle(100, 60, 5)
    polygon = flattened(edges)
    area = sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(polygon, polygon[1:] + polygon[:1], strict=True)) / 2
    assert 0 < loop_area(edges) - area < FLATTENING * 2 * pi * 5


def test_a_rounding_touches_both_edges_of_a_sharp_corner():
    before, after = Line(p(0, 0), p(100, 0)), Line(p(100, 0), p(0, 100))
    arc = rounded(before, after, F(6))
    assert isclose(float(arc.centre.y), 6)
    # 6 from the slanted edge as well: the line x + y = 100
    assert isclose((100 - float(arc.centre.x) - float(arc.centre.y)) / 2**0.5, 6)


def test_a_rise_of_half_the_chord_is_a_half_circle():
    arc = arc_with_rise(p(0, 0), p(20, 0), F(10))
    assert arc == Arc(p(0, 0), p(20, 0), p(10, 0), True)
    assert isclose(edge_length(arc), 10 * pi)
    assert edge_box(arc) == (0, -10, 20, 0)


def test_a_negative_rise_bulges_inwards():
    arc = arc_with_rise(p(0, 0), p(20, 0), F(-5))
    assert edge_box(arc) == (0, 0, 20, 5)


def test_a_notch_with_a_round_foot_is_as_deep_as_it_says():
    edges = notch(Line(p(0, 0), p(100, 0)), p(50, 0), F(20), F(15), True)
    assert edges[0] == Line(p(40, 0), p(40, 5))
    assert edge_box(edges[1])[3] == 15
    assert edges[-1].end == p(60, 0)


def test_a_shallow_round_notch_is_one_arc():
    (arc,) = notch(Line(p(0, 0), p(100, 0)), p(50, 0), F(20), F(4), True)
    assert edge_box(arc) == (40, 0, 60, 4)


@pytest.mark.parametrize("at", [F(1, 3), F(10), F(99)])
def test_rational_lines_meet_in_rational_points(at):
    (met,) = meetings(Line(p(0, 0), p(100, 70)), Line(Point(at, F(0)), Point(at, F(100))))
    assert met == Point(at, at * 7 / 10)


def test_an_upright_line_keeps_its_x_where_it_meets_an_arc():
    arc = arc_with_rise(p(0, 0), p(100, 0), F(10))
    (met,) = meetings(Line(Point(F(1, 3), F(50)), Point(F(1, 3), F(-50))), arc)
    assert met.x == F(1, 3)


def test_lines_that_only_nearly_meet_do_not():
    assert meetings(Line(p(0, 0), p(10, 0)), Line(Point(F(5), F(1, 1000)), p(5, 10))) == []


def test_points_on_a_straight_run_are_left_out():
    edges = [Line(p(0, 0), p(5, 0)), Line(p(5, 0), p(10, 0)), Line(p(10, 0), p(10, 10)), Line(p(10, 10), p(0, 0))]
    assert tidied(edges) == (Line(p(0, 0), p(10, 0)), Line(p(10, 0), p(10, 10)), Line(p(10, 10), p(0, 0)))


def test_a_run_over_the_first_point_is_joined_too():
    edges = [Line(p(5, 0), p(10, 0)), Line(p(10, 0), p(10, 10)), Line(p(10, 10), p(0, 0)), Line(p(0, 0), p(5, 0))]
    assert len(tidied(edges)) == 3


def test_the_inner_point_of_a_bent_strip_is_inside_though_its_centre_is_not():
    strip = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (25.0, 30.0), (25.0, 5.0), (0.0, 5.0))
    assert not holds(strip, *centroid(strip))
    assert holds(strip, *inner_point(strip))


@given(st.integers(1, 200), st.integers(1, 200))
def test_an_arc_and_its_chord_enclose_the_segment(chord, part):
    rise = F(chord, 2) * part / 200
    arc = arc_with_rise(p(0, 0), p(chord, 0), rise)
    # the sagitta is the arc's highest point above the chord
    assert isclose(float(edge_box(arc)[1]), -float(rise), rel_tol=1e-9)
    assert loop_area([arc, Line(p(chord, 0), p(0, 0))]) > 0
