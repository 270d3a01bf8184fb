"""Faces of crossing lines, against the sums they must obey and against an independent polygonizer."""

from fractions import Fraction as F
from math import isclose

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, polygonize, unary_union

from creasewright.geometry.arrangement import Strand, arrange
from creasewright.geometry.edges import arc_with_rise
from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point


def loop(*corners):
    points = [Point(F(x), F(y)) for x, y in corners]
    return [Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)]


def line(x0, y0, x1, y1):
    return Line(Point(F(x0), F(y0)), Point(F(x1), F(y1)))


def faces_of(edges):
    return arrange([Strand(edge, 0) for edge in edges]).faces


SQUARE = loop((0, 0), (100, 0), (100, 100), (0, 100))


def test_a_square_is_one_face():
    (face,) = faces_of(SQUARE)
    assert loop_area(face.edges) == 10000


def test_two_crossing_lines_make_four_faces_that_meet_in_one_exact_point():
    found = arrange([Strand(edge, 0) for edge in [*SQUARE, line(0, 0, 100, 100), line(0, 100, 100, 0)]])
    assert sorted(loop_area(face.edges) for face in found.faces) == [2500] * 4
    assert sum(Point(F(50), F(50)) in [edge.start for edge in face.edges] for face in found.faces) == 4


def test_a_line_that_ends_on_another_divides_only_one_side():
    faces = faces_of([*SQUARE, line(50, 0, 50, 100), line(50, 40, 100, 40)])
    assert sorted(loop_area(face.edges) for face in faces) == [2000, 3000, 5000]


def test_a_line_that_hangs_in_the_air_bounds_nothing_and_is_told():
    found = arrange([Strand(edge, 0) for edge in [*SQUARE, line(50, 0, 50, 40)]])
    assert len(found.faces) == 1
    assert [(end.strand, end.at) for end in found.loose] == [(4, Point(F(50), F(40)))]


def test_where_two_lines_lie_on_each_other_the_lower_rank_stays():
    found = arrange([Strand(edge, 0) for edge in SQUARE] + [Strand(line(0, 50, 60, 50), 1), Strand(line(0, 50, 100, 50), 2)])
    ranks = {(float(bit.edge.start.x), float(bit.edge.end.x)): bit.strand for bit in found.bits if bit.strand > 3}
    assert ranks == {(0, 60): 4, (60, 100): 5}


def test_a_square_inside_a_face_is_its_inner_rim():
    found = arrange([Strand(edge, 0) for edge in [*SQUARE, *loop((40, 40), (60, 40), (60, 60), (40, 60))]])
    assert [len(face.inner) for face in sorted(found.faces, key=lambda face: loop_area(face.edges))] == [0, 1]
    assert len(found.outer) == 1


def test_a_line_ends_exactly_on_an_arc_and_the_arc_stays_an_arc():
    # a head edge 100 wide that rises 25: radius (50² + 25²) / (2 · 25) = 62.5, centre 37.5 below the edge
    arc = arc_with_rise(Point(F(0), F(0)), Point(F(100), F(0)), F(25))
    assert arc.centre == Point(50, F(75, 2))
    faces = faces_of([arc, *SQUARE[1:], line(50, -25, 50, 100)])
    areas = [loop_area(face.edges) for face in faces]
    assert isclose(areas[0], areas[1])
    assert isclose(sum(areas), loop_area([arc, *SQUARE[1:]]))
    # the segment of radius 62.5 and half chord 50: r² asin(50 / 62.5) - 50 · 37.5
    assert isclose(sum(areas), 10000 + 62.5**2 * 0.9272952180016122 - 1875)


chords = st.tuples(st.integers(0, 3), st.integers(1, 99), st.integers(0, 3), st.integers(1, 99))


def on_side(side, at):
    return [(at, 0), (100, at), (100 - at, 100), (0, 100 - at)][side]


@settings(max_examples=150, deadline=None)
@given(st.lists(chords, max_size=7))
def test_faces_are_those_of_an_independent_polygonizer(found):
    edges = [*SQUARE]
    for side, at, other, at_other in found:
        a, b = on_side(side, at), on_side(other, at_other)
        if side != other:
            edges.append(line(*a, *b))
    ours = sorted(loop_area(face.edges) for face in faces_of(edges))
    lines = [LineString([tuple(map(float, e.start)), tuple(map(float, e.end))]) for e in edges]
    theirs = sorted(polygon.area for polygon in polygonize([unary_union(lines)]).geoms)
    theirs = [area for area in theirs if area > 1e-9]
    assert isclose(sum(ours), 10000, rel_tol=1e-9)
    assert len(ours) == len(theirs)
    assert all(isclose(a, b, rel_tol=1e-6, abs_tol=1e-6) for a, b in zip(ours, theirs, strict=True))
