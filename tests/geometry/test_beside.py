"""The side of a line on which an outline lies, told by the edge on it."""

import pytest

from creasewright.geometry.beside import lies_beyond

# a floor that reaches round behind a step: its inner edge lies at y = 40, most of its corners above that
FLOOR = ((0.0, 10.0), (0.0, 60.0), (100.0, 60.0), (100.0, 10.0), (70.0, 10.0), (70.0, 40.0), (30.0, 40.0), (30.0, 10.0))
SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


@pytest.mark.parametrize("way", [1, -1])
def test_an_outline_that_reaches_behind_its_edge_lies_where_its_paper_is(way):
    polygon = FLOOR[::way]
    # from left to right along y = 40 with y down: (1, 0) x (0, 1) is positive towards the tail, where the floor's paper is
    assert lies_beyond(polygon, (30.0, 40.0), (70.0, 40.0))
    assert not lies_beyond(polygon, (70.0, 40.0), (30.0, 40.0))


@pytest.mark.parametrize("way", [1, -1])
def test_each_edge_of_a_square_has_the_square_on_one_side(way):
    polygon = SQUARE[::way]
    for k, (start, end) in enumerate(zip(SQUARE, (*SQUARE[1:], SQUARE[0]), strict=True)):
        assert lies_beyond(polygon, start, end), k
        assert not lies_beyond(polygon, end, start), k


def test_part_of_an_edge_will_do():
    assert lies_beyond(SQUARE, (2.0, 0.0), (4.0, 0.0))


def test_without_an_edge_on_the_line_the_corners_decide():
    assert lies_beyond(SQUARE, (0.0, -5.0), (10.0, -5.0))
