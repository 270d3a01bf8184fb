"""The bound is never above what is possible, and sharp where the theory says so."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.cutting.search.lower_bound import fewest_possible, measures
from creasewright.cutting.whole_numbers import Shape
from cutting.cutting_cases import TRIMMER, pieces_of, stock


@given(st.integers(min_value=2, max_value=60), st.data())
def test_parts_that_fit_together_never_measure_more_than_the_whole(length, data):
    # The definition of a dual-feasible function, Fekete & Schepers (2004), section 2.
    hints = data.draw(st.lists(st.integers(min_value=1, max_value=length), max_size=6))
    parts, room = [], length
    while room and data.draw(st.booleans()):
        parts.append(data.draw(st.integers(min_value=1, max_value=room)))
        room -= parts[-1]
    for measure in measures(length, hints):
        assert sum(map(measure, parts)) <= measure(length)


@pytest.mark.parametrize(
    "shapes, sheets",
    [
        ([Shape(6, 6, 5, True)], 5),  # 5 x 36 of 100 by area is 2; no two squares over half the sheet share one
        ([Shape(5, 5, 5, True)], 2),  # four quarters a sheet
        ([Shape(4, 4, 5, True)], 2),  # area 80 of 100 says 1; two by two is all that fits: floor(10/4) squared = 4
        ([Shape(10, 10, 3, False), Shape(1, 1, 1, False)], 4),
        ([], 0),
    ],
)
def test_bounds_worked_by_hand(shapes, sheets):
    assert fewest_possible(shapes, 10, 10) == sheets


@given(
    st.lists(
        st.tuples(*[st.integers(min_value=1, max_value=20)] * 2, st.integers(min_value=1, max_value=3)), min_size=1, max_size=5
    ),
    st.booleans(),
)
def test_no_plan_goes_below_the_bound(kit, may_turn):
    plan = plan_rectangles(pieces_of(kit, may_turn=may_turn), [stock(20, 20)], TRIMMER)
    assert plan.lower_bound <= plan.sheet_count
    assert plan.proved == (plan.lower_bound == plan.sheet_count)
