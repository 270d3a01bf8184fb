"""The ways of folding rims in space are drawn without corners."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, dist, pi, sin

import pytest

from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.space_paths import PARTS, rounded

ARC = [(30 * cos(k * pi / 12), 30 * sin(k * pi / 12)) for k in range(7)]
"""A quarter of a circle, a place every 15 degrees."""


def bends(spots: Sequence[Spot]) -> list[float]:
    """Degrees between one part of a line and the next."""
    ways = [degrees(atan2(b[1] - a[1], b[0] - a[0])) for a, b in pairwise(spots)]
    return [abs(after - before) for before, after in pairwise(ways)]


def test_a_rounded_way_runs_through_its_places_and_a_straight_one_stays_straight() -> None:
    drawn = rounded(ARC)
    assert [dist(drawn[PARTS * k], spot) for k, spot in enumerate(ARC)] == pytest.approx([0.0] * 7)
    assert all(abs(dist(spot, (0, 0)) - 30) < 0.35 for spot in drawn)
    assert all(y == pytest.approx(2 * x) for x, y in rounded([(0.0, 0.0), (1.0, 2.0), (3.0, 6.0)]))


def test_no_two_parts_of_a_rounded_way_meet_at_an_angle_that_is_seen() -> None:
    assert max(bends(ARC)) == pytest.approx(15.0)
    assert max(bends(rounded(ARC))) < 6.0
