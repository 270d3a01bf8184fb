"""Teeth of an outline go, round and deep places stay."""

from math import cos, pi, sin

import pytest

from creasewright.booklet.diagrams.plain_outline import without_teeth
from creasewright.geometry.clip import area


def test_steps_of_layers_on_both_sides_of_a_line_become_one_line() -> None:
    # a square of 100 whose right side is a stair: 0 and 1 mm in, by turns
    stair = [(100.0 - k % 2, 10.0 * k + by) for k in range(10) for by in (0.0, 10.0)]
    plain = without_teeth(((0.0, 0.0), *stair, (0.0, 100.0)), 1.5)
    assert set(plain) == {(0.0, 0.0), (100.0, 0.0), (100.0, 90.0), (99.0, 100.0), (0.0, 100.0)}


def test_a_deep_notch_stays_without_the_teeth_inside_it() -> None:
    notch = ((60.0, 0.0), (60.0, 30.0), (50.0, 30.0), (50.0, 31.0), (40.0, 31.0), (40.0, 0.0))
    plain = without_teeth(((0.0, 0.0), *notch[::-1], (100.0, 0.0), (100.0, 80.0), (0.0, 80.0)), 1.5)
    # the step of 1 mm at its bottom is gone: a straight line from (60, 30) to (50, 31), the inner corner between them left out
    assert (50.0, 30.0) not in plain
    assert set(notch) - {(50.0, 30.0)} <= set(plain)
    assert len(plain) == 9


@pytest.mark.parametrize("start", range(0, 60, 7))
def test_a_round_outline_keeps_every_corner_wherever_it_begins(start: int) -> None:
    ring = tuple((20 * cos(pi * k / 30), 20 * sin(pi * k / 30)) for k in range(start, start + 60))
    plain = without_teeth(ring, 1.5)
    assert area(plain) == pytest.approx(area(ring))
    assert len(plain) == 60
