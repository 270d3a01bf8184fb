"""Curved flaps and scores, and outlines with cubic curves: what lies where on the flat sheet."""

from math import asin, isclose, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from blanks.written_blanks import faults_of, one
from creasewright.blanks.derived import mirror_image
from creasewright.geometry.edges import edge_length, edge_middle
from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Arc

PILLOW = """
base: {name: front, width: 80 mm, height: 140 mm}
flaps:
  back: {at: right of front, depth: 80 mm}
  seam: {at: right of back, depth: 12 mm, ends: 75}
  ear: {at: [head of front, tail of front, head of back, tail of back], depth: 0 mm, far rise: 14 mm, seam rise: 0 mm - 14 mm}
"""


def segment(chord, rise):
    """Area between an arc and its chord: r² asin(c / 2r) - c/2 (r - h), with r = (c²/4 + h²) / 2h."""
    r = (chord * chord / 4 + rise * rise) / (2 * rise)
    return r * r * asin(chord / (2 * r)) - chord / 2 * (r - rise)


def test_the_pillow_has_seven_panels_and_four_ears_between_arcs():
    pillow = one(PILLOW)
    assert {panel.name for panel in pillow.panels} == {"front", "back", "seam", "ear 1", "ear 2", "ear 3", "ear 4"}
    assert (float(pillow.width), float(pillow.height)) == (172, 168)  # 80 + 80 + 12; 140 and an ear of 14 at each end
    for name in ("ear 1", "ear 2", "ear 3", "ear 4"):
        ear = pillow.panel(name)
        assert isclose(ear.area, 2 * segment(80, 14), rel_tol=1e-9)
        assert all(isinstance(edge, Arc) for edge in ear.outline.edges) and len(ear.outline.edges) == 2
    for name in ("front", "back"):
        assert isclose(pillow.panel(name).area, 80 * 140 - 2 * segment(80, 14), rel_tol=1e-9)


def test_a_seam_that_bows_towards_the_base_is_an_arc_into_it():
    pillow = one(PILLOW)
    ear = next(piece for piece in pillow.pieces if piece.score == "ear 1")
    assert isinstance(ear.arc, Arc) and {ear.first, ear.second} == {"ear 1", "front"}
    x, y = edge_middle(ear.edge)
    assert (round(float(x), 9), round(float(y), 9)) == (40, 28)  # the chord at 14, the arc 14 deeper


def test_the_sides_of_a_curved_score_are_told_as_those_of_a_straight_one():
    pillow = one(PILLOW)
    sides = {piece.score: (piece.first, piece.second) for piece in pillow.pieces}
    assert sides["ear 1"] == ("ear 1", "front") and sides["ear 2"] == ("front", "ear 2")  # head first
    assert sides["back"] == ("front", "back")  # left first


@settings(max_examples=40, deadline=None)
@given(st.integers(40, 120), st.integers(60, 200), st.integers(1, 19))
def test_the_panels_of_a_pillow_add_up_to_its_outline(wide, long, part):
    rise = wide * part / 100
    source = PILLOW.replace("80 mm", f"{wide} mm").replace("140 mm", f"{long} mm").replace("14 mm", f"{rise} mm")
    pillow = one(source)
    assert isclose(sum(panel.area for panel in pillow.panels), loop_area(pillow.outline.edges), rel_tol=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.integers(20, 100), st.integers(20, 100), st.integers(2, 6))
def test_a_straight_score_is_the_limit_of_a_flat_arc(wide, high, power):
    rise = 10.0**-power
    head = f"width: {wide} mm\nheight: {high} mm\nscores: {{s: {{line: [[0 mm, {high / 2} mm], [{wide} mm, {high / 2} mm]]"
    straight, curved = one(f"{head}}}}}"), one(f"{head}, rise: {rise:.6f} mm}}}}")
    assert len(straight.panels) == len(curved.panels) == 2
    for a, b in zip(straight.panels, curved.panels, strict=True):
        assert abs(a.area - b.area) <= rise * wide + 1e-6  # the area between arc and chord is about 2/3 of that
    (a,), (b,) = straight.pieces, curved.pieces
    assert a.start == b.start and a.end == b.end and (a.first, a.second) == (b.first, b.second)
    assert -1e-6 < edge_length(b.edge) - edge_length(a.edge) < 3 * rise * rise / wide + 1e-6  # an arc is 8 h²/3c longer than its chord


def test_a_rise_is_to_the_left_of_one_who_goes_along_the_line():
    blank = one("width: 100 mm\nheight: 60 mm\nscores: {s: {line: [[0 mm, 30 mm], [100 mm, 30 mm]], rise: 10 mm}}")
    (score,) = blank.scores
    assert round(float(edge_middle(score.edge).y), 9) == 20  # towards the head


def test_a_straight_score_that_ends_on_an_arc_s_panel_meets_the_arc():
    blank = one(
        "width: 100 mm\nheight: 60 mm\n"
        "scores: {s: {line: [[0 mm, 30 mm], [100 mm, 30 mm]], rise: 10 mm}, t: {from: left, at: 50 mm}}"
    )
    assert len(blank.panels) == 4
    crossing = {tuple(round(float(v), 6) for v in p) for piece in blank.pieces for p in (piece.start, piece.end)}
    assert (50, 20) in crossing
    assert isclose(sum(panel.area for panel in blank.panels), 6000, rel_tol=1e-9)


def test_two_curved_scores_that_cross_make_four_panels():
    blank = one(
        "width: 100 mm\nheight: 60 mm\nscores:\n"
        "  s: {line: [[0 mm, 30 mm], [100 mm, 30 mm]], rise: 10 mm}\n"
        "  t: {line: [[50 mm, 0 mm], [50 mm, 60 mm]], rise: 10 mm}"
    )
    assert len(blank.panels) == 4 and len(blank.pieces) == 4
    assert isclose(sum(panel.area for panel in blank.panels), 6000, rel_tol=1e-9)


def test_a_mirrored_pillow_keeps_its_curves():
    pillow = one(PILLOW)
    image = mirror_image(pillow, "pillow", "")
    for piece in image.pieces:
        own = next(other for other in pillow.pieces if other.name == piece.name or other.score == piece.score)
        if own.arc is not None:
            x, y = edge_middle(piece.edge)
            a, b = edge_middle(own.edge)
            assert isclose(float(x), 172 - float(a), abs_tol=1e-9) and isclose(float(y), float(b), abs_tol=1e-9)


def test_an_outline_with_a_cubic_curve_has_the_curve_s_area():
    # Green's theorem for the cubic (0,0) (0,-40) (60,-40) (60,0): the area over its chord is 3/20 of
    # (x3 y0 ...) which for symmetric handles is 3/4 h · (3c/5 + ...); here by exact integration: ∫ y dx = 3·40·∫ t(1-t) x' dt
    blank = one("outline: [[0 mm, 60 mm], [0 mm, 40 mm], {to: [60 mm, 40 mm], by: [[0 mm, 0 mm], [60 mm, 0 mm]]}, [60 mm, 60 mm]]")
    # x = 180 t² - 120 t³, x' = 360 t (1 - t), height = 120 t (1 - t): ∫ 43200 t² (1 - t)² dt = 43200 / 30 = 1440
    assert isclose(blank.panels[0].area, 60 * 20 + 1440, abs_tol=0.005 * 120)
    assert isclose(float(blank.height), 20 + 30, abs_tol=0.005)  # the curve is 3/4 of its handles high


def test_the_curve_s_edge_may_have_a_name():
    blank = one(
        "outline: [[0 mm, 60 mm], [0 mm, 40 mm], {to: [60 mm, 40 mm], by: [[0 mm, 0 mm], [60 mm, 0 mm]], edge: brow}, "
        "{to: [60 mm, 60 mm], edge: side}]\nedges: {side: {rise: 2 mm}}"
    )
    assert isclose(float(blank.width), 62, abs_tol=0.005)
    assert isclose(sqrt(blank.panels[0].area), sqrt(60 * 20 + 1440 + segment(20, 2)), rel_tol=1e-4)


FLAP = "base: {width: 80 mm, height: 50 mm}\nflaps: {f: {at: head of base, depth: "


@pytest.mark.parametrize(
    ("source", "what", "hint"),
    [
        (FLAP + "0 mm, far rise: 41 mm}}", "`far rise: 41 mm` comes to 41 mm over an edge of 80 mm", "keep a rise to half its edge"),
        (
            FLAP + "0 mm, far rise: 5 mm, seam rise: 9 mm}}", "the far edge of `f` does not clear its seam",
            "give it more `depth` or `far rise`, or less `seam rise`",
        ),
        (
            FLAP + "5 mm, seam rise: 9 mm}}", "the far edge of `f` does not clear its seam",
            "give it more `depth` or `far rise`, or less `seam rise`",
        ),
        (FLAP + "0 mm, far rise: 0 mm}}", "the depth of `f`, `0 mm`, comes to 0 mm", "make it more than 0"),
        (
            "base: {width: 80 mm, height: 20 mm}\nflaps: {f: {at: head of base, depth: 9 mm, seam rise: 0 mm - 25 mm}}",
            "the seam of `f` bows out of `base`", "give it less `seam rise`",
        ),
        (
            "base: {width: 80 mm, height: 20 mm}\n"
            "flaps: {f: {at: [head of base, tail of base], depth: 9 mm, seam rise: 0 mm - 15 mm}}",
            "flap `f 2` lies over `f 1` on the flat sheet", "make it less deep, or its `ends` smaller",
        ),
        (
            FLAP + "9 mm, far rise: 3 mm}, g: {at: far edge of f, depth: 5 mm}}",
            "`g` grows from the far edge of `f`, which is curved", "grow it from a straight edge",
        ),
        (
            "width: 100 mm\nheight: 60 mm\nscores: {s: {line: [[0 mm, 30 mm], [100 mm, 30 mm]], rise: 51 mm}}",
            "`rise: 51 mm` comes to 51 mm over a line of 100 mm", "keep a rise to half its line",
        ),
        (
            "width: 100 mm\nheight: 60 mm\nscores: {s: {line: [[0 mm, 30 mm], [90 mm, 30 mm]], rise: 5 mm}}",
            "score `s` ends inside the panel, at [90 mm, 30 mm]", "run it to an edge, a score or a slit",
        ),
        (
            "width: 100 mm\nheight: 60 mm\n"
            "scores: {s: {line: [[0 mm, 30 mm], [100 mm, 30 mm]], rise: 5 mm}, t: {from: s, at: 5 mm}}",
            "`s` is a curved score, to which no line runs parallel", "measure from an edge or a straight score",
        ),
        (
            "outline: [[0 mm, 60 mm], {to: [0 mm, 0 mm], by: [[0 mm, 0 mm - 180 mm], [0 mm, 240 mm]]}, [60 mm, 0 mm], [60 mm, 60 mm]]",
            "the curve to this point of the outline has a kink", "move its handles apart, or make two curves of it",
        ),
    ],
)  # fmt: skip
def test_a_curve_that_cannot_be_is_refused_in_these_words(source, what, hint):
    assert faults_of(source) == [(what, hint)]
