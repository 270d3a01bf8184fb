import pytest
from hypothesis import given
from hypothesis import strategies as st
from square_ruler import SquareRuler

from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.drawing import Words
from creasewright.booklet.scoring.running_measure import APART, Mark, level_measure, pushed_apart


def test_two_close_values_are_pushed_outward_by_the_same_way() -> None:
    # middles at 10 and 12, each 4 wide, 1 apart: they need 5 from middle to middle, so 11 - 2.5 and 11 + 2.5
    assert pushed_apart([10, 12], [2, 2], 1) == pytest.approx([8.5, 13.5])


def test_values_with_room_stay_over_their_places() -> None:
    assert pushed_apart([0, 20, 40], [2, 3, 4], 1.5) == [0, 20, 40]


@given(st.lists(st.tuples(st.floats(0, 90), st.floats(0.5, 6)), min_size=1, max_size=8))
def test_values_never_touch_and_keep_their_order(pairs: list[tuple[float, float]]) -> None:
    wishes, halves = sorted(wish for wish, _ in pairs), [half for _, half in pairs]
    middles = pushed_apart(wishes, halves, APART)
    for k in range(len(middles) - 1):
        assert middles[k + 1] - middles[k] >= halves[k] + halves[k + 1] + APART - 1e-6


def test_there_is_one_ring_one_line_and_an_arrowhead_for_each_value() -> None:
    drawn = level_measure([Mark(20, "4"), Mark(50, "10 in")], -4, [0, 0, 0], SquareRuler(), NORMAL)
    roles = [getattr(item, "role", "") for item in drawn.items]
    assert [roles.count(role) for role in ("measure zero", "dimension", "measure head", "measure")] == [1, 1, 2, 3]
    assert [item.runs[0].text for item in drawn.items if isinstance(item, Words)] == ["0", "4", "10 in"]
