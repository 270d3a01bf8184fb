"""The way of the thread: holes, order and length."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.joining.refused import JoinRefused
from creasewright.joining.thread_way import check_order, even_stations, thread_way, usual_order


def test_three_holes_in_140_mm_with_a_margin_of_25_stand_at_25_70_and_115():
    assert even_stations(3, 140, 25) == (25, 70, 115)


def test_the_usual_way_through_three_holes_is_the_pamphlet_stitch():
    # middle, one end, over the middle to the other end, middle: any book of hand binding; common practice, no source
    assert usual_order(3) == (2, 1, 3, 2)
    assert usual_order(5) == (3, 2, 1, 2, 4, 5, 4, 3)
    assert usual_order(2) == (1, 2)
    assert usual_order(4) == (2, 1, 2, 3, 4, 3)


@given(st.integers(2, 40))
def test_the_usual_way_can_be_tied_and_holds_every_stretch_between_two_holes(count: int):
    order = usual_order(count)
    check_order(order, count)
    covered = {hole for a, b in pairwise(order) for hole in range(min(a, b), max(a, b))}
    # between the two middle holes of an even number the knot itself lies: there the thread runs once at least all the same
    assert covered == set(range(1, count))


@given(st.lists(st.floats(1, 300), min_size=3, max_size=3, unique=True), st.floats(0, 5))
def test_a_pamphlet_stitch_takes_twice_the_span_and_four_times_the_thickness(places: list[float], thick: float):
    first, middle, last = sorted(places)
    # out at the middle; middle to head, head to tail, tail to middle: (m - f) + (l - f) + (l - m) = 2 (l - f); four passes
    assert thread_way((first, middle, last), (2, 1, 3, 2), thick) == pytest.approx(2 * (last - first) + 4 * thick)


@pytest.mark.parametrize(
    ("order", "what", "hint"),
    [
        ((2, 4, 3, 2), "`order` names hole 4, and there are 3", "count the holes from 1 at the head"),
        ((2, 2, 1, 3), "`order` goes through hole 2 and straight back", "the thread would pull out: go on to another hole"),
        ((2, 1, 2, 1), "`order` never passes hole 3", "take it into the way of the thread, or make a hole less"),
        (
            (1, 2, 3),
            "the thread passes 3 holes, so it ends on the other side of the fold from where it began",
            "let it pass an even number, so that its two ends can be tied",
        ),
    ],
)
def test_a_way_that_a_needle_cannot_take_is_refused(order: tuple[int, ...], what: str, hint: str):
    with pytest.raises(JoinRefused) as caught:
        check_order(order, 3)
    assert (caught.value.what, caught.value.hint) == (what, hint)


@pytest.mark.parametrize(
    ("count", "margin", "what"),
    [(1, 20, "1 hole holds no thread"), (3, 50, "a margin of 50.0 mm at either end leaves nothing of a line of 100.0 mm")],
)
def test_holes_that_find_no_place_are_refused(count: int, margin: float, what: str):
    with pytest.raises(JoinRefused) as caught:
        even_stations(count, 100, margin)
    assert caught.value.what == what
