"""A ribbon runs straight over small steps and cut corners of what it goes round."""

import pytest

from creasewright.booklet.closing_pictures import GIVE, taut


def corners(outline: list[tuple[float, float]]) -> list[tuple[float, float]]:
    return sorted((round(x, 6), round(y, 6)) for x, y in taut(outline))


def test_over_a_raised_mat_and_a_cut_corner_it_has_four_corners() -> None:
    # 100 long and 6 thick, a mat from 20 to 80 that is 2 higher, one corner cut off by 0.2
    outline = [(0.0, 0.0), (0.2, -0.2), (20.0, -2.0), (80.0, -2.0), (100.0, 0.0), (100.0, 6.0), (0.0, 6.0)]
    assert corners(outline) == [(0.0, -2.0), (0.0, 6.0), (100.0, -2.0), (100.0, 6.0)]


def test_over_a_high_step_it_slopes() -> None:
    high = -(GIVE + 2.0)
    outline = [(0.0, 0.0), (20.0, high), (80.0, high), (100.0, 0.0), (100.0, 6.0), (0.0, 6.0)]
    assert corners(outline) == sorted(outline)


@pytest.mark.parametrize("outline", [[(0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (0.0, 4.0)], [(0.0, 0.0), (10.0, 0.0), (5.0, 8.0)]])
def test_plain_outlines_stay(outline: list[tuple[float, float]]) -> None:
    assert taut(outline) == outline
