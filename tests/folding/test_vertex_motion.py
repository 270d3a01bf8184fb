"""Vertices of four creases on their way: the published half-angle rule, and vertices that do not fold."""

from math import atan, cos, degrees, radians, sin, tan

import pytest
from flat_vertices import folded_at_once, vertex_sheet
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.folding.panel_graph import links
from creasewright.folding.state import State
from creasewright.folding.transforms import loop_error
from small_designs import PLAIN_PAPER, last_run, made, with_steps


def driven(angles: list[float], to: float, crease: str = "crease 1") -> State:
    """A vertex with its first crease turned to an angle and the others following; they set out as a valley, two and a mountain."""
    follow = "{crease 2: -20, crease 3: 20, crease 4: 20}"
    return made(with_steps(vertex_sheet(angles), f"{{fold: {{{crease}: {to}}}, follow: {follow}, seen from: front}}"), PLAIN_PAPER)


def closing_error(state: State) -> tuple[float, float]:
    """The largest error of any loop, mm and degrees: every link is checked from both of its panels."""
    worst = (0.0, 0.0)
    for body in state.bodies:
        for link in links(state, body.parts):
            fault = loop_error(state, link, dict(state.placed), state.angles)
            if fault is not None:
                worst = max(worst, (fault.gap_mm, fault.gap_degrees))
    return worst


# Sector angles a, b, 180 - a, 180 - b: opposite creases carry equal angles (one pair with opposite signs), and
# tan(r2 / 2) = p tan(r1 / 2) with p = cos((a + b) / 2) / cos((a - b) / 2).
# arXiv:1812.01160, theorem 6. For a = b = 60 (the vertex of a Miura sheet) p is 1/2.
@pytest.mark.parametrize(("a", "b", "r1", "r2"), [(60, 60, 90, 53.130102), (75, 60, 80, 35.892242)])
def test_a_flat_foldable_vertex_of_four_creases_moves_as_published(a, b, r1, r2):
    assert degrees(2 * atan(cos(radians((a + b) / 2)) / cos(radians((a - b) / 2)) * tan(radians(r1 / 2)))) == pytest.approx(r2, abs=1e-6)
    state = driven([a, b, 180 - a, 180 - b], r1)
    found = sorted(abs(angle) for angle in state.angles.values())
    assert found == pytest.approx(sorted([r1, r1, r2, r2]), abs=1e-5)
    signs = sorted(angle > 0 for angle in state.angles.values())
    assert signs in ([False, True, True, True], [False, False, False, True])


@given(st.integers(35, 85), st.integers(35, 85), st.integers(5, 170))
@settings(max_examples=30, deadline=None)
def test_any_flat_foldable_vertex_keeps_the_half_angle_rule_on_its_way(a, b, r1):
    state = driven([a, b, 180 - a, 180 - b], r1)
    four = [abs(state.angles[("sheet", f"crease {k}")]) for k in (1, 2, 3, 4)]
    assert four[0] == pytest.approx(four[2], abs=1e-4)
    assert four[1] == pytest.approx(four[3], abs=1e-4)
    p = cos(radians((a + b) / 2)) / cos(radians((a - b) / 2))
    halves = tan(radians(four[1] / 2)) / tan(radians(four[0] / 2))
    assert min(abs(halves - p), abs(1 / halves - p), abs(halves - q(a, b)), abs(1 - q(a, b) * halves)) < 1e-4
    assert closing_error(state) == (0.0, 0.0)


def q(a: float, b: float) -> float:
    """The factor of the vertex's other way to fold: sines in place of cosines (from memory)."""
    return sin(radians(abs(a - b) / 2)) / sin(radians((a + b) / 2))


def test_a_vertex_that_cannot_fold_flat_is_refused_with_its_gap():
    # alternate angles sum to 190 and 170, not to 180 each: T. Kawasaki's theorem
    run = folded_at_once([100, 80, 90, 90], "VVVM")
    assert run.refused is not None
    assert "do not meet when this is folded" in run.refused[0]
    assert run.refused[0].endswith("are left")
    assert run.after == run.before


def test_a_vertex_of_three_creases_does_not_move_at_all():
    # three panels round a point are stiff: two angles cannot follow the third
    run = last_run(with_steps(vertex_sheet([120, 120, 120]), "{fold: {crease 1: 40}, follow: {crease 2: 20, crease 3: 20}}"))
    assert run.refused is not None
    assert "cannot follow: the loop does not close" in run.refused[0]
