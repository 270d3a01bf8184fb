"""The window of template pages, and how a template is turned into it."""

import pytest

from creasewright.booklet.tiling.placing import place
from creasewright.booklet.tiling.spots import moved
from creasewright.booklet.tiling.window import PageSize, window_of
from template_cases import rectangle


@pytest.mark.parametrize(
    ("page", "width", "height"),
    [
        # the look's section on template pages: 12 from the left, 24 from the head, 16 from the right, 37 from the tail
        (PageSize(215.9, 279.4), 187.9, 218.4),  # letter: 215.9 - 28, 279.4 - 61
        (PageSize(210.0, 297.0), 182.0, 236.0),  # A4 (ISO 216): 210 - 28, 297 - 61
    ],
)
def test_the_window_is_what_the_margins_leave(page, width, height):
    window = window_of(page)
    assert (window.left, window.head) == (12, 24)
    assert (window.width, window.height) == pytest.approx((width, height))


def test_a_quarter_turn_brings_the_head_to_the_right():
    placed = place(rectangle("strip", 100, 40), 90, 10, 20)
    assert (placed.width, placed.height) == (40, 100)
    assert moved(placed.to_grid, (0, 0)) == pytest.approx((10 + 40, 20))  # head-left goes to head-right
    assert moved(placed.to_grid, (100, 40)) == pytest.approx((10, 20 + 100))
