"""The section of a sheet bent by a curved score, against closed forms and against the theory of curved folds."""

from itertools import pairwise
from math import acos, asin, atan, cos, degrees, hypot, isclose, pi, sin, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.geometry.arch import STEEPEST, Arch
from creasewright.geometry.rigid_transform import cross

arches = st.builds(lambda chord, share: Arch(chord, chord * share), st.floats(20, 300), st.floats(0.001, STEEPEST * 0.9999))


def carlson_rf(x, y, z):
    """R_F by B. C. Carlson's duplication, "Numerical computation of real or complex elliptic integrals", Numerical Algorithms
    10 (1995), algorithm 1."""
    for _ in range(30):
        step = sqrt(x * y) + sqrt(y * z) + sqrt(z * x)
        x, y, z = (x + step) / 4, (y + step) / 4, (z + step) / 4
    return 1 / sqrt((x + y + z) / 3)


def carlson_rd(x, y, z):
    """R_D by the same paper, algorithm 4: 3 Σ 4^-n / (√z_n (z_n + λ_n)) + 4^-n z_n^(-3/2)."""
    total, share = 0.0, 1.0
    for _ in range(30):
        step = sqrt(x * y) + sqrt(y * z) + sqrt(z * x)
        total += share / (sqrt(z) * (z + step))
        x, y, z, share = (x + step) / 4, (y + step) / 4, (z + step) / 4, share / 4
    return 3 * total + share / z**1.5


def elliptic_e(angle, m):
    """E(angle | m) by DLMF 19.25.9: s R_F(c², 1 - m s², 1) - m/3 s³ R_D(c², 1 - m s², 1)."""
    s, c = sin(angle), cos(angle)
    return s * carlson_rf(c * c, 1 - m * s * s, 1) - m / 3 * s**3 * carlson_rd(c * c, 1 - m * s * s, 1)


def test_the_closed_form_used_here_knows_the_perimeter_of_an_ellipse():
    # E(90° | 1/2) = 1.3506438810 (DLMF 19.36, Legendre's tables; also Abramowitz and Stegun, table 17.2)
    assert isclose(elliptic_e(pi / 2, 0.5), 1.3506438810, rel_tol=1e-9)


@settings(max_examples=100, deadline=None)
@given(arches)
def test_the_width_is_the_elliptic_integral_r_e_of_phi_and_2(arch):
    angle = asin(arch.chord / 2 / arch.radius)
    assert isclose(arch.width, 2 * arch.radius * elliptic_e(angle, 2), rel_tol=1e-8)


@pytest.mark.parametrize(("chord", "rise"), [(80.0, 14.0), (82.55, 12.7), (95.0, 10.0), (75.0, 14.0)])
def test_the_width_is_what_a_chain_of_short_rulings_spans(chord, rise):
    # each strip keeps its width ds and rises dy, so it spans sqrt(ds² - dy²); 20 000 strips, by the arc's own equation
    radius = (chord**2 / 4 + rise**2) / (2 * rise)
    count = 20_000
    ys = [sqrt(radius**2 - (chord * k / count - chord / 2) ** 2) - (radius - rise) for k in range(count + 1)]
    chain = sum(sqrt((chord / count) ** 2 - (b - a) ** 2) for a, b in pairwise(ys))
    assert isclose(Arch(chord, rise).width, chain, abs_tol=1e-4)


def test_a_pillow_of_80_with_arcs_of_14_closes_to_72_3_with_a_slope_of_0_8_at_its_ends():
    arch = Arch(80.0, 14.0)
    assert round(arch.width, 1) == 72.3
    assert round(arch.slope, 2) == 0.80


@given(arches)
def test_the_slope_at_the_ends_is_the_tangent_of_twice_the_angle_of_the_rise(arch):
    # the angle between chord and tangent is half the arc's, the angle at the chord's end to its top is a quarter (Euclid III 20)
    assert isclose(arch.slope, tan(2 * atan(2 * arch.rise / arch.chord)), rel_tol=1e-9)
    assert arch.slope < 1


def test_the_steepest_share_is_where_the_slope_is_one():
    assert isclose(Arch(100.0, 100.0 * STEEPEST).slope, 1, rel_tol=1e-12)


@given(arches)
def test_a_bent_sheet_is_narrower_than_flat_and_its_halves_are_alike(arch):
    assert arch.width < arch.chord
    assert arch.across(0) == pytest.approx(0, abs=1e-9) and arch.across(arch.chord) == pytest.approx(arch.width)
    for share in (0.1, 0.25, 0.4):
        s = arch.chord * share
        assert arch.across(s) + arch.across(arch.chord - s) == pytest.approx(arch.width)
        assert arch.height(s) == pytest.approx(arch.height(arch.chord - s))


@given(st.floats(20, 300), st.integers(3, 6))
def test_a_flat_arc_bends_the_sheet_hardly(chord, power):
    rise = chord * 10.0**-power
    # the loss is the integral of y'²/2, for a flat arc 8 h² / 3c
    assert chord - Arch(chord, rise).width == pytest.approx(8 * rise * rise / (3 * chord), rel=1e-2, abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(arches, st.floats(0.02, 0.98))
def test_the_crease_s_own_curvature_is_that_on_the_sheet_over_the_cosine_of_its_plane_to_the_sheet(arch, share):
    # D. Fuchs and S. Tabachnikov, "More on paperfolding", American Mathematical Monthly 106 (1999): K cos a = k, with k the
    # curvature on the flat sheet (here 1 / R), K that in space, a the angle between the osculating plane and the sheet
    s, h = arch.chord * share, arch.chord * 1e-4
    places = [(arch.across(s + k * h), arch.height(s + k * h), arch.height(s + k * h)) for k in (-1, 0, 1)]
    (a, b, c) = places
    first = [(c[k] - a[k]) / 2 for k in range(3)]
    second = [c[k] - 2 * b[k] + a[k] for k in range(3)]
    turn = cross((first[0], first[1], first[2]), (second[0], second[1], second[2]))
    bend = hypot(*turn) / hypot(*first) ** 3
    across, up = arch.lean(s)
    normal = (across, 0.0, up)  # the sheet's; rulings run along the middle coordinate
    osculating = [value / hypot(*turn) for value in turn]
    cosine = abs(sum(n * o for n, o in zip(normal, osculating, strict=True)))
    assert bend * cosine == pytest.approx(1 / arch.radius, rel=1e-3)


@given(arches)
def test_the_fold_at_the_ends_is_twice_the_angle_from_the_plane_of_the_crease(arch):
    # the sheet's normal at the end leans by asin(slope); its angle to the plane's normal (0, 1, -1)/√2 gives half the fold
    leaning = asin(arch.slope)
    to_plane = acos(cos(leaning) / sqrt(2))
    assert isclose(arch.fold_at_ends, 180 - 2 * degrees(to_plane), rel_tol=1e-6, abs_tol=1e-6)
    assert 0 <= arch.fold_at_ends < 90
