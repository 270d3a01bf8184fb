"""Dashes that begin and end with a dash, dots that end on a dot, creases that stop short."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.booklet.diagrams.line_code import DASHES, dashed, dotted, line_shape, shortened, too_short
from creasewright.booklet.diagrams.picture_style import LARGE_PRINT, NORMAL


@given(st.sampled_from(sorted(DASHES)), st.floats(30, 2000))
def test_a_dashed_line_ends_with_a_whole_dash_and_is_stretched_little(kind: str, length: float) -> None:
    pattern = dashed(DASHES[kind], length)
    periods = (length - pattern[0]) / sum(pattern)
    assert periods == pytest.approx(round(periods), abs=0.02)
    # the nearest whole number of periods is off by half a period at most, over a line at least that much shorter
    half = 0.5 * sum(DASHES[kind])
    assert pattern[0] / DASHES[kind][0] == pytest.approx(1, abs=half / (length - half) + 0.01)


@given(st.floats(5, 2000))
def test_dots_end_on_a_dot(length: float) -> None:
    dot, gap = dotted(length)
    assert length / (dot + gap) == pytest.approx(round(length / (dot + gap)), abs=0.1)


def test_the_valley_is_dashed_as_the_look_asks() -> None:
    # 10 periods of 7.8 pt and a dash of 5.2 make 83.2 pt: nothing to stretch
    assert dashed((5.2, 2.6), 83.2) == (5.2, 2.6)


def test_a_crease_stops_a_millimetre_short_of_each_end() -> None:
    shape = line_shape("crease", ((0.0, 0.0), (20.0, 0.0)), NORMAL)
    assert shape is not None
    assert shape.path == (("M", 1.0, 0.0), ("L", 19.0, 0.0))


def test_shortening_runs_round_a_bend() -> None:
    assert shortened(((0.0, 0.0), (0.5, 0.0), (0.5, 10.0)), 1.0) == [(0.5, 0.5), (0.5, 9.0)]


def test_a_crease_too_short_to_show_is_left_out() -> None:
    assert line_shape("crease", ((0.0, 0.0), (2.0, 0.0)), NORMAL) is None


def test_large_print_is_drawn_with_heavier_lines() -> None:
    plain, heavy = (line_shape("cut", ((0.0, 0.0), (5.0, 0.0)), style) for style in (NORMAL, LARGE_PRINT))
    assert plain is not None
    assert heavy is not None
    assert plain.pen is not None
    assert heavy.pen is not None
    assert heavy.pen.width == pytest.approx(1.3 * plain.pen.width)


def test_a_line_too_short_for_half_of_its_dashes_is_told() -> None:
    # a mountain's period and one more dash: 8 + 2.4 + 0.9 + 2.4 + 0.9 + 2.4 + 8 = 25 pt, half of it 12.5 pt or 4.41 mm
    assert too_short("mountain", ((0.0, 0.0), (4.4, 0.0)))
    assert not too_short("mountain", ((0.0, 0.0), (4.42, 0.0)))
    assert not too_short("crease", ((0.0, 0.0), (1.0, 0.0)))
