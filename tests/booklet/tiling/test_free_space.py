"""The raster that says where a page is still empty."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.booklet.tiling.free_space import CELL, FreeSpace
from creasewright.booklet.tiling.inner_point import inner_point
from creasewright.geometry.loops import holds


def largest_by_trying(space):
    """The side of the largest free square, cell by cell."""
    free = [[not row >> column & 1 for column in range(space.columns)] for row in space.taken]
    best = 0
    size = [[0] * (space.columns + 1) for _ in range(space.rows + 1)]
    for row in range(space.rows):
        for column in range(space.columns):
            if free[row][column]:
                size[row + 1][column + 1] = 1 + min(size[row][column], size[row][column + 1], size[row + 1][column])
                best = max(best, size[row + 1][column + 1])
    return best


@given(st.lists(st.tuples(*[st.floats(0, 40)] * 4), max_size=5))
def test_the_emptiest_square_is_the_largest_there_is(lines):
    space = FreeSpace(0, 0, 40, 30)
    for line in lines:
        space.mark_line(line)
    largest = largest_by_trying(space)
    found = space.emptiest_square(1)
    assert (found[2] if found else 0) == largest
    if found:
        x, y, side = found
        assert space.is_free((x - side / 2, y - side / 2, x + side / 2, y + side / 2))


def test_a_label_is_placed_as_near_as_there_is_room():
    space = FreeSpace(0, 0, 100, 100)
    space.mark_box((40, 40, 60, 60))
    assert space.nearest_free((50, 50), 10, 4, 60) == (50, 38)  # just above, in steps of 2 mm: 38 + 2 = 40


def test_a_line_between_hides_a_place():
    space = FreeSpace(0, 0, 100, 100)
    space.mark_line((50, 0, 50, 100))
    assert not space.sees((20, 50), (80, 50))
    assert space.sees((20, 50), (40, 90))


@pytest.mark.parametrize(
    "polygon",
    [
        ((0, 0), (100, 0), (100, 50), (0, 50)),
        ((0, 0), (100, 0), (100, 10), (10, 10), (10, 100), (0, 100)),  # its centroid lies outside it
    ],
)
def test_a_name_lies_within_its_panel(polygon):
    assert holds(polygon, *inner_point(polygon))


@given(st.lists(st.tuples(*[st.floats(0, 40)] * 4), max_size=5), st.integers(1, 40))
def test_a_square_is_held_where_one_of_that_size_is_free(lines, cells):
    space = FreeSpace(0, 0, 40, 30)
    for line in lines:
        space.mark_line(line)
    assert space.holds_square(cells * CELL) == (largest_by_trying(space) >= cells)


def test_a_square_larger_than_the_page_is_not_held_and_a_part_of_a_cell_counts_whole():
    space = FreeSpace(0, 0, 20, 10)
    assert space.holds_square(10) and not space.holds_square(10.1)
    space.mark_line((0, 5, 20, 5))  # leaves less than five above it and below it
    assert space.holds_square(4) and not space.holds_square(5.5)
