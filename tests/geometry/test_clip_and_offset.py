"""Polygons clipped and moved in."""

from fractions import Fraction as F
from math import cos, isclose, pi, sin, tan

from hypothesis import given
from hypothesis import strategies as st

from creasewright.geometry.clip import area, clockwise, difference, intersection, total_area, union
from creasewright.geometry.corner import rounded
from creasewright.geometry.loops import loop_area, perimeter
from creasewright.geometry.offset import inset, inset_edges, inset_outline
from creasewright.geometry.outline import Arc, Line, Outline
from creasewright.geometry.point import Point


def box(left, head, right, tail):
    return ((float(left), float(head)), (float(right), float(head)), (float(right), float(tail)), (float(left), float(tail)))


def outline(*corners):
    points = [Point(F(x), F(y)) for x, y in corners]
    return Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))


def test_what_two_squares_share():
    (shared,) = intersection([box(0, 0, 10, 10)], [box(6, 7, 20, 20)])
    assert isclose(area(shared), 4 * 3)


def test_a_hole_runs_the_other_way_so_that_areas_add_up():
    left = difference([box(0, 0, 10, 10)], [box(4, 4, 6, 6)])
    assert isclose(total_area(left), 100 - 4)
    assert sorted(area(polygon) > 0 for polygon in left) == [False, True]
    assert isclose(total_area(intersection(left, [box(0, 0, 10, 5)])), 50 - 2)


def test_touching_squares_become_one():
    (whole,) = union([box(0, 0, 10, 10), box(10, 0, 20, 10)])
    assert isclose(area(whole), 200)


def test_slivers_are_left_out():
    assert intersection([box(0, 0, 10, 10)], [box(9.999995, 0, 20, 10)]) == []


def test_nothing_against_nothing_is_nothing():
    assert intersection([], [box(0, 0, 1, 1)]) == []
    assert difference([box(0, 0, 1, 1)], [])[0] == clockwise(difference([box(0, 0, 1, 1)], [])[0])


def test_moving_in_keeps_the_corners_sharp():
    (inner,) = inset(box(0, 0, 100, 60), 5)
    assert sorted(inner) == sorted(box(5, 5, 95, 55))
    assert inset(box(0, 0, 100, 60), 31) == []


def test_moving_out_keeps_them_too():
    (outer,) = inset(box(0, 0, 100, 60), -5)
    assert isclose(area(outer), 110 * 70)


def test_only_the_named_edges_move():
    # edge 0 is the head, edge 3 the left
    (inner,) = inset_edges(box(0, 0, 100, 60), [(0, 5), (3, 10)])
    assert isclose(area(inner), 90 * 55)


def test_an_edge_moved_in_between_slanted_neighbours():
    # a trapezium, head 60, tail 100, 40 high: 10 off the tail leaves 60 to 90 wide, 30 high
    trapezium = ((20.0, 0.0), (80.0, 0.0), (100.0, 40.0), (0.0, 40.0))
    (inner,) = inset_edges(trapezium, [(2, 10)])
    assert isclose(area(inner), (60 + 90) / 2 * 30, rel_tol=1e-6)
    # 10 off the head, where the sides open: the head is 70 wide there
    (inner,) = inset_edges(trapezium, [(0, 10)])
    assert isclose(area(inner), (70 + 100) / 2 * 30, rel_tol=1e-6)


def test_an_outline_moves_in_exactly():
    inner = inset_outline(outline((0, 0), (100, 0), (100, 60), (0, 60)), F(5))
    assert inner == outline((5, 5), (95, 5), (95, 55), (5, 55))


def test_an_arc_keeps_its_centre_and_goes_when_its_radius_is_used_up():
    before, after = Line(Point(F(0), F(60)), Point(F(0), F(0))), Line(Point(F(0), F(0)), Point(F(100), F(0)))
    arc = rounded(before, after, F(8))
    edges = (
        arc, Line(arc.end, Point(F(100), F(0))), Line(Point(F(100), F(0)), Point(F(100), F(60))),
        Line(Point(F(100), F(60)), Point(F(0), F(60))), Line(Point(F(0), F(60)), arc.start),
    )  # fmt: skip
    inner = inset_outline(Outline(edges), F(3))
    assert isinstance(inner.edges[0], Arc)
    assert inner.edges[0].centre == Point(8, 8)
    assert isclose(loop_area(inner.edges), 94 * 54 - (1 - pi / 4) * 25)  # radius 8 - 3
    assert inset_outline(Outline(edges), F(8)) == outline((8, 8), (92, 8), (92, 52), (8, 52))
    assert inset_outline(Outline(edges), F(30)) is None


def test_a_short_edge_between_two_long_ones_goes_when_they_meet_before_it():
    cut = outline((10, 0), (100, 0), (100, 100), (0, 100), (0, 10))
    inner = inset_outline(cut, F(40))
    # 40 in, the slanted edge's line x + y = 10 + 40 √2 = 66.6 passes outside the corner (40, 40), where the sum is 80
    assert len(inner.edges) == 4
    assert isclose(loop_area(inner.edges), 400)


@given(st.integers(3, 12), st.floats(0.5, 8))
def test_a_regular_polygon_moves_in_by_its_apothem(sides, mm):
    corners = [(50 * cos(2 * pi * k / sides), 50 * sin(2 * pi * k / sides)) for k in range(sides)]
    points = [Point(x, y) for x, y in corners]
    whole = Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))
    inner = inset_outline(whole, mm)
    # area n · a² · tan(180°/n) with apothem a, for check-values 10.12
    apothem = 50 * cos(pi / sides)
    assert isclose(loop_area(inner.edges), sides * (apothem - mm) ** 2 * tan(pi / sides), rel_tol=1e-6)
    assert isclose(perimeter(inner.edges), 2 * sides * (apothem - mm) * tan(pi / sides), rel_tol=1e-6)
    (flat,) = inset(tuple(corners), mm)
    assert isclose(area(flat), loop_area(inner.edges), rel_tol=1e-4)
