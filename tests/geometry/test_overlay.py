"""Cells of shapes laid over one another, judged by shapely, an independent geometry library."""

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon as Judge
from shapely import make_valid

from creasewright.geometry.clip import total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.overlay import Cell, overlay

SQUARE: Polygon = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def moved(polygon: Polygon, x: float, y: float) -> Polygon:
    return tuple((a + x, b + y) for a, b in polygon)


def areas(cells: list[Cell]) -> dict[tuple[int, ...], float]:
    """Shapes that cover it to the area that just these cover."""
    found: dict[tuple[int, ...], float] = {}
    for cell in cells:
        key = tuple(cell.numbers())
        found[key] = found.get(key, 0.0) + cell.area
    return found


def test_two_squares_half_over_each_other_make_three_cells():
    cells = overlay([[SQUARE], [moved(SQUARE, 5, 0)]], [3, 4])
    assert areas(cells) == pytest.approx({(0,): 50.0, (0, 1): 50.0, (1,): 50.0})
    assert sorted(cell.weight for cell in cells) == [3, 4, 7]


def test_a_place_covered_alike_in_two_parts_is_two_cells():
    cells = overlay([[SQUARE], [((4.0, -1.0), (6.0, -1.0), (6.0, 11.0), (4.0, 11.0))]], [1, 1])
    # the square parted in two by the bar, the bar's ends above and below
    assert sorted(tuple(cell.numbers()) for cell in cells) == [(0,), (0,), (0, 1), (1,), (1,)]


def test_a_frame_is_one_cell_with_a_hole():
    inner = ((3.0, 3.0), (7.0, 3.0), (7.0, 7.0), (3.0, 7.0))
    cells = overlay([[SQUARE], [inner]], [1, 1])
    frame = next(cell for cell in cells if cell.numbers() == [0])
    assert len(frame.polygons()) == 2
    assert total_area(frame.polygons()) == pytest.approx(100 - 16)


def test_a_shape_of_two_polygons_has_a_hole_where_both_lie():
    inner = ((3.0, 3.0), (7.0, 3.0), (7.0, 7.0), (3.0, 7.0))
    (cell,) = overlay([[SQUARE, inner]], [5])
    assert (cell.area, cell.weight) == (pytest.approx(84.0), 5)


def test_edges_that_agree_but_for_rounding_make_no_slivers():
    cells = overlay([[SQUARE], [moved(SQUARE, 1e-9, -1e-9)], [moved(SQUARE, -4e-10, 0)]], [1, 1, 1])
    assert areas(cells) == pytest.approx({(0, 1, 2): 100.0})


def test_slanted_edges_that_cross_part_the_cells_where_they_cross():
    # a triangle and its mirror image over one base: the roof of a kite between them
    left = ((0.0, 0.0), (20.0, 20.0), (0.0, 20.0))
    right = ((20.0, 0.0), (20.0, 20.0), (0.0, 20.0))
    # they share the triangle under the crossing at (10, 10): 20 * 10 / 2; each keeps 200 - 100
    assert areas(overlay([[left], [right]], [1, 1])) == pytest.approx({(0, 1): 100.0, (0,): 100.0, (1,): 100.0})


@st.composite
def shapes(draw: st.DrawFn) -> Polygon:
    x, y = draw(st.integers(0, 50)), draw(st.integers(0, 50))
    if draw(st.booleans()):
        wide, high = draw(st.sampled_from([10, 20, 35])), draw(st.sampled_from([10, 20, 35]))
        return ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    corners, radius, turn = draw(st.integers(3, 9)), draw(st.integers(5, 30)), draw(st.integers(0, 89)) * pi / 180
    return tuple((x + radius * cos(turn + 2 * pi * k / corners), y + radius * sin(turn + 2 * pi * k / corners)) for k in range(corners))


@given(st.lists(shapes(), min_size=1, max_size=5))
@settings(max_examples=60, deadline=None)
def test_every_set_of_shapes_covers_what_shapely_says(polygons: list[Polygon]):
    found = areas(overlay([[polygon] for polygon in polygons], [1] * len(polygons)))
    judges = [make_valid(Judge(polygon)) for polygon in polygons]
    for bits in range(1, 1 << len(polygons)):
        inside = [k for k in range(len(polygons)) if bits >> k & 1]
        left = judges[inside[0]]
        for k, judge in enumerate(judges):
            left = left.intersection(judge) if k in inside else left.difference(judge)
        # 1e-3 mm of snapping along rims of at most 600 mm
        assert found.get(tuple(inside), 0.0) == pytest.approx(left.area, abs=0.3)


@given(st.lists(shapes(), min_size=1, max_size=5), st.lists(st.integers(1, 9), min_size=5, max_size=5))
@settings(max_examples=40, deadline=None)
def test_weights_times_areas_add_up_to_the_shapes_own(polygons: list[Polygon], weights: list[int]):
    cells = overlay([[polygon] for polygon in polygons], weights)
    whole = sum(abs(total_area([polygon])) * weight for polygon, weight in zip(polygons, weights, strict=False))
    assert sum(cell.area * cell.weight for cell in cells) == pytest.approx(whole, abs=0.5)
    assert all(cell.weight == sum(weights[k] for k in cell.numbers()) for cell in cells)
