"""Pieces and sheets as drawings for machines: layers, borders drawn once, pieces lying as planned, perforated scores."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.blanks.blank import Score, ScorePiece
from creasewright.cutfiles.blank_drawing import score_lines
from creasewright.cutfiles.cut_drawing import CutDrawing, Stroke
from creasewright.cutfiles.perforation import Perforation, dashes, perforated
from creasewright.cutfiles.sheet_drawing import opened
from creasewright.cutfiles.unshared import edge_between, unshared
from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Arc, Line
from creasewright.geometry.point import Point


def line(x0, y0, x1, y1):
    return Line(Point(float(x0), float(y0)), Point(float(x1), float(y1)))


def box(left, head, right, tail):
    corners = [(left, head), (right, head), (right, tail), (left, tail)]
    return tuple(line(*a, *b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


QUARTER = Arc(Point(10.0, 0.0), Point(0.0, 10.0), Point(0.0, 0.0), True)
"""Of a circle of radius 10, from the right downwards: 5 pi long."""


@pytest.mark.parametrize(
    ("other", "left"),
    [
        (line(0, 5, 100, 5), [(0, 100)]),
        (line(20, 0, 40, 0), [(0, 20), (40, 100)]),
        (line(40, 0, 20, 0), [(0, 20), (40, 100)]),
        (line(-10, 0, 30, 0), [(30, 100)]),
        (line(-10, 0, 130, 0), []),
        (line(100, 0, 130, 0), [(0, 100)]),
        (line(50, -5, 50, 5), [(0, 100)]),
        (line(0, 0, 100, 1), [(0, 100)]),
    ],
)
def test_what_lies_on_another_line_is_not_drawn_again(other, left):
    found = unshared(line(0, 0, 100, 0), [other])
    assert [(part.start.x, part.end.x) for part in found] == [(pytest.approx(a), pytest.approx(b)) for a, b in left]


def test_an_arc_is_drawn_once_whichever_way_it_is_told():
    back = Arc(QUARTER.end, QUARTER.start, QUARTER.centre, False)
    assert unshared(QUARTER, [back]) == []
    half = edge_between(QUARTER, 0.0, 0.5)
    (rest,) = unshared(QUARTER, [half])
    assert edge_length(rest) == pytest.approx(edge_length(QUARTER) / 2)
    assert rest.end == QUARTER.end


@given(st.lists(st.tuples(st.integers(0, 99), st.integers(1, 40)), max_size=8))
def test_drawn_and_left_parts_of_a_line_make_up_the_whole(spans):
    drawn = [line(low, 0, low + size, 0) for low, size in spans]
    covered = {k for low, size in spans for k in range(low, min(100, low + size))}
    assert sum(edge_length(part) for part in unshared(line(0, 0, 100, 0), drawn)) == pytest.approx(100 - len(covered))


def test_an_outline_that_shares_a_border_is_open_there_and_whole_elsewhere():
    upper, lower = Stroke("cut", box(0, 0, 60, 40), True), Stroke("cut", box(0, 40, 60, 80), True)
    assert opened(upper, []) == [upper]
    (run,) = opened(lower, list(upper.edges))
    assert not run.closed
    assert [edge_length(edge) for edge in run.edges] == [40, 60, 40]
    assert all(before.end == after.start for before, after in pairwise(run.edges))


def score_of(*pieces):
    found = [
        ScorePiece(f"s {k}", "s", Point(0.0, float(a)), Point(0.0, float(b)), "left", "right") for k, (a, b) in enumerate(pieces, 1)
    ]
    return Score("s", Point(0.0, 0.0), Point(0.0, 100.0)), found


def told(lines):
    return [(layer, edge.start.y, edge.end.y) for layer, edge in lines]


@pytest.mark.parametrize(
    ("folds", "lines"),
    [
        ({"s 1": (180.0,), "s 2": (90.0,)}, [("score valley", 0, 100)]),
        ({"s 1": (-180.0,), "s 2": (-90.0,)}, [("score mountain", 0, 100)]),
        ({"s 1": (180.0, -180.0), "s 2": (-5.0, 5.0)}, [("score both ways", 0, 100)]),
        ({}, [("score not folded", 0, 100)]),
        ({"s 1": (180.0,), "s 2": (-180.0,)}, [("score valley", 0, 60), ("score mountain", 60, 100)]),
    ],
)
def test_a_score_lies_on_the_layer_of_its_folds(folds, lines):
    assert told(score_lines(*score_of((0, 60), (60, 100)), folds)) == lines


def test_a_stretch_of_a_score_between_no_panels_is_drawn_too():
    folds = {"s 1": (180.0,), "s 2": (-180.0,)}
    assert told(score_lines(*score_of((0, 30), (60, 100)), folds)) == [
        ("score valley", 0, 30), ("score mountain", 60, 100), ("score not folded", pytest.approx(30), 60),
    ]  # fmt: skip


def test_dashes_keep_their_length_and_stay_off_both_ends():
    # 46 / (3 + 1) = 11.5: eleven dashes, a pitch of 46/11 = 4.1818, so gaps of 1.1818, half of one at either end
    found = dashes(line(0, 0, 46, 0), Perforation(3.0, 1.0))
    assert len(found) == 11
    assert [edge_length(dash) for dash in found] == [pytest.approx(3)] * 11
    assert float(found[0].start.x) == pytest.approx((46 / 11 - 3) / 2)
    assert float(found[-1].end.x) == pytest.approx(46 - (46 / 11 - 3) / 2)
    assert min(float(b.start.x) - float(a.end.x) for a, b in pairwise(found)) >= 1


def test_a_score_shorter_than_one_dash_keeps_its_share():
    (dash,) = dashes(line(0, 0, 2, 0), Perforation(3.0, 1.0))
    assert edge_length(dash) == pytest.approx(1.5)


@given(st.fractions(Fraction(1, 2), 300), st.fractions(Fraction(1, 5), 50), st.fractions(Fraction(1, 5), 50))
def test_dashes_of_an_arc_lie_on_it_and_leave_their_gaps(length, dash, gap):
    radius = float(length) / (3.14159 / 2)
    arc = Arc(Point(radius, 0.0), Point(0.0, radius), Point(0.0, 0.0), True)
    found = dashes(arc, Perforation(float(dash), float(gap)))
    size = edge_length(arc)
    total = sum(edge_length(one) for one in found)
    assert all((float(at.x) ** 2 + float(at.y) ** 2) ** 0.5 == pytest.approx(radius) for one in found for at in (one.start, one.end))
    assert size - total >= min(len(found) * float(gap), size * float(gap / (dash + gap))) - 1e-6


def test_only_scores_are_perforated():
    drawing = CutDrawing("p", 60, 40, (Stroke("cut", box(0, 0, 60, 40), True), Stroke("score valley", (line(30, 0, 30, 40),))), ())
    new = perforated(drawing, Perforation(3.0, 1.0))
    assert new.strokes[0] == drawing.strokes[0]
    assert [stroke.layer for stroke in new.strokes[1:]] == ["score valley"] * 10
