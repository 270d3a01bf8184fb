"""The window of template pages, and how a template is turned into it."""

import pytest

from creasewright.booklet.tiling.placing import place
from creasewright.booklet.tiling.spots import moved
from creasewright.booklet.tiling.window import Joining, PageSize, window_of
from creasewright.problems import ProblemsFound
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


def test_butted_tiles_need_no_strip_and_have_a_larger_window():
    # 4.5 for the corner crosses stands where the strip of 8.5 was: 4 more across and down
    window = window_of(PageSize(215.9, 279.4), Joining("butt"))
    assert (window.width, window.height) == pytest.approx((191.9, 222.4))
    assert window.strip == 0


def test_a_wider_overlap_takes_from_the_window():
    window = window_of(PageSize(215.9, 279.4), Joining("overlap", 20.0))
    assert (window.width, window.height) == pytest.approx((187.9 - 11.5, 218.4 - 11.5))


def test_a_printer_that_leaves_more_bare_takes_from_the_window():
    window = window_of(PageSize(210, 297, (12.7, 12.7, 12.7, 12.7)))
    assert (window.left, window.head) == pytest.approx((17.5, 29.5))
    assert (window.width, window.height) == pytest.approx((182 - 11, 236 - 11))


def test_margins_that_leave_no_page_get_one_clear_line():
    with pytest.raises(ProblemsFound) as caught:
        window_of(PageSize(210, 297, (90, 7.2, 80, 7.2)))
    (problem,) = caught.value.problems
    # 210 less 90 + 0.3 + 4.5 and 80 + 0.3 + 8.5
    assert problem.what == "these margins leave 26 × 236 mm of a page for a template, and 120 × 100 mm is the least"
    assert problem.hint == "take a narrower `overlap`, or `joining: butt`; or measure the margins of your printer again"
