"""The deepest place of a region: centres of the largest rounds, worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from creasewright.geometry.clip import clockwise
from creasewright.geometry.deepest import deepest_place


@pytest.mark.parametrize(
    ("polygon", "spot", "depth"),
    [
        (((0, 0), (40, 0), (40, 20), (0, 20)), (20, 10), 10),
        (((0, 0), (60, 0), (60, 60), (0, 60)), (30, 30), 30),
        # 3-4-5: the inscribed round has the radius (3 + 4 - 5) / 2
        (((0, 0), (40, 0), (0, 30)), (10, 10), 10),
    ],
)
def test_the_middle_of_the_largest_round(polygon: tuple[tuple[float, float], ...], spot: tuple[float, float], depth: float) -> None:
    found, deep = deepest_place([clockwise(polygon)])
    assert found == pytest.approx(spot, abs=0.5)
    assert deep == pytest.approx(depth, rel=0.04)


def test_of_several_the_one_with_the_most_room() -> None:
    narrow = ((0.0, 0.0), (300.0, 0.0), (300.0, 8.0), (0.0, 8.0))
    wide = ((0.0, 100.0), (20.0, 100.0), (20.0, 120.0), (0.0, 120.0))
    spot, deep = deepest_place([narrow, wide])
    assert spot == pytest.approx((10, 110), abs=0.5)
    assert deep == pytest.approx(10, rel=0.15)


@given(st.floats(5, 90), st.floats(5, 90))
def test_it_is_as_deep_as_it_is_said_to_be(x: float, y: float) -> None:
    corner = clockwise(((0.0, 0.0), (100.0, 0.0), (100.0, y), (x, y), (x, 100.0), (0.0, 100.0)))
    spot, deep = deepest_place([corner])
    shape = Polygon(corner)
    assert shape.contains(Point(spot))
    assert shape.exterior.distance(Point(spot)) >= deep - 1e-3
