"""Arcs that cross, and cubic curves as arcs."""

from fractions import Fraction as F
from itertools import pairwise
from math import hypot, isclose, pi, sqrt, tan

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString
from shapely import Point as ShapelyPoint

from creasewright.geometry.crossing import meetings
from creasewright.geometry.cubic import WITHIN, cubic_edges
from creasewright.geometry.edges import arc_with_rise, edge_length, leaving_direction, reverse
from creasewright.geometry.outline import Arc, Line, flattened
from creasewright.geometry.point import Point


def p(x, y):
    return Point(F(x), F(y))


def test_two_arcs_cross_where_their_circles_do():
    # circles of radius 5 about (0, 0) and (6, 0): x = 3, y = ±4
    upper = Arc(p(-5, 0), p(5, 0), p(0, 0), True)
    other = Arc(p(1, 0), p(11, 0), p(6, 0), True)
    (met,) = meetings(upper, other)
    assert isclose(float(met.x), 3, abs_tol=1e-9) and isclose(float(met.y), -4, abs_tol=1e-9)


def test_arcs_that_do_not_reach_the_crossing_of_their_circles_do_not_meet():
    assert meetings(Arc(p(-5, 0), p(5, 0), p(0, 0), True), Arc(p(11, 0), p(1, 0), p(6, 0), True)) == []


def test_the_two_arcs_of_a_lens_meet_at_its_ends_alone():
    a, b = p(0, 0), p(80, 0)
    assert meetings(arc_with_rise(a, b, F(14)), arc_with_rise(a, b, F(-14))) == [a, b]


def test_arcs_of_one_circle_share_a_run():
    whole = Arc(p(-5, 0), p(5, 0), p(0, 0), True)
    part = Arc(p(0, -5), p(5, 0), p(0, 0), True)
    assert set(meetings(whole, part)) == {p(0, -5), p(5, 0)}


def test_a_straight_cubic_is_a_straight_line():
    edges = cubic_edges(p(0, 0), p(10, 0), p(20, 0), p(30, 0))
    assert edges is not None and all(isinstance(edge, Line) for edge in edges)


def test_the_usual_cubic_of_a_quarter_circle_becomes_an_arc_of_its_radius():
    # handles 4/3 tan(90°/4) radii long: A. Riškus, "Approximation of a cubic Bezier curve by circular arcs and vice versa",
    # Information Technology and Control 35(4), 2006; the radius is off by less than 0.028 %
    k = 4 / 3 * tan(pi / 8) * 50
    edges = cubic_edges(Point(50.0, 0.0), Point(50.0, k), Point(k, 50.0), Point(0.0, 50.0))
    assert edges is not None
    assert isclose(sum(edge_length(edge) for edge in edges), 50 * pi / 2, rel_tol=3e-4)
    assert all(abs(hypot(x, y) - 50) < 0.02 for x, y in flattened(edges))


def test_a_curve_that_turns_back_on_itself_has_no_arcs():
    assert cubic_edges(p(0, 0), p(40, 0), p(-40, 0), p(0, 0)) is None


spots = st.tuples(st.integers(-60, 60), st.integers(-60, 60))


def bezier(a, b, c, d, t):
    u = 1 - t
    return tuple(u**3 * a[k] + 3 * u * u * t * b[k] + 3 * u * t * t * c[k] + t**3 * d[k] for k in (0, 1))


@settings(max_examples=60, deadline=None)
@given(spots, spots, st.integers(5, 80))
def test_no_place_of_a_cubic_is_far_from_its_arcs_and_they_follow_smoothly(first, second, long):
    a, d = (0, 0), (long, 0)
    edges = cubic_edges(Point(*a), Point(*first), Point(*second), Point(*d))
    if edges is None:
        return  # a cusp
    assert edges[0].start == Point(*a) and edges[-1].end == Point(*d)
    line = LineString([*flattened(edges, 0.0002), (float(edges[-1].end.x), float(edges[-1].end.y))])
    for k in range(201):  # shapely measures the distance, at places that the fit did not look at
        assert line.distance(ShapelyPoint(*bezier(a, first, second, d, k / 200))) < WITHIN + 0.002
    for before, after in pairwise(edges):
        assert hypot(float(before.end.x - after.start.x), float(before.end.y - after.start.y)) < 1e-6
        turn = leaving_direction(after) - (leaving_direction(reverse(before)) + pi)
        assert abs((turn + pi) % (2 * pi) - pi) < 1e-3


def test_a_cubic_s_length_is_that_of_its_own_integral():
    # a quadratic-like parabola: y = x²/100 from 0 to 50 as a cubic; its length is 50/2 √2 + 25 asinh 1 (with y' = x/50)
    a, q, d = (0.0, 0.0), (25.0, 0.0), (50.0, 25.0)
    first = (a[0] + 2 / 3 * (q[0] - a[0]), 2 / 3 * (q[1] - a[1]))
    second = (d[0] + 2 / 3 * (q[0] - d[0]), d[1] + 2 / 3 * (q[1] - d[1]))
    edges = cubic_edges(Point(*a), Point(*first), Point(*second), Point(*d))
    assert edges is not None
    expected = 25 * sqrt(2) + 25 * 0.881373587019543
    assert isclose(sum(edge_length(edge) for edge in edges), expected, rel_tol=1e-5)
