"""Which way a fold goes: one strip, worked out by hand, fixes the sign for everything else."""

import pytest

from creasewright.folding.state import front_normal
from creasewright.geometry.rigid_transform import apply
from small_designs import Seen, from_the_table, made, seen_at, with_steps

STRIP = "strip: {height: 50 mm, across: [near: 60 mm, far: 40 mm]}"


def test_a_valley_brings_the_fronts_together_with_the_far_panel_on_top():
    state = made(with_steps(STRIP, "{fold: near/far}"))
    assert state.angles == {("strip", "near/far"): 180.0}
    # z runs down through the sheet, so a front that looks up looks along -z; the far panel now shows its back
    assert front_normal(state.placed[("strip", "near")]) == (0.0, 0.0, -1.0)
    assert front_normal(state.placed[("strip", "far")]) == pytest.approx((0.0, 0.0, 1.0))
    assert from_the_table(state, "strip") == [("strip", "near"), ("strip", "far")]
    # the far panel reached from 60 to 100; folded over the score at 60 it reaches from 60 - 40 = 20 to 60
    assert seen_at(state, ("strip", "far")) == Seen(20, 0, 60, 50)
    assert seen_at(state, ("strip", "near")) == Seen(0, 0, 60, 50)


def test_a_mountain_brings_the_backs_together_with_the_far_panel_beneath():
    state = made(with_steps(STRIP, "{mountain: near/far}"))
    assert state.angles == {("strip", "near/far"): -180.0}
    assert from_the_table(state, "strip") == [("strip", "far"), ("strip", "near")]
    assert seen_at(state, ("strip", "far")) == Seen(20, 0, 60, 50)


def test_a_valley_of_90_lifts_the_far_panel_towards_the_maker():
    state = made(with_steps(STRIP, "{fold: near/far, to: 90}"))
    # the far edge, 40 mm beyond the score at x = 60, stands 40 mm above the table: z = -40
    assert apply(state.placed[("strip", "far")], (100.0, 25.0, 0.0)) == pytest.approx((60.0, 25.0, -40.0))


def test_a_mountain_of_90_hangs_the_far_panel_below():
    state = made(with_steps(STRIP, "{mountain: near/far, to: 90}"))
    assert apply(state.placed[("strip", "far")], (100.0, 25.0, 0.0)) == pytest.approx((60.0, 25.0, 40.0))


def test_a_valley_with_the_back_up_brings_the_backs_together():
    state = made(with_steps(STRIP, "{lay: strip, up: back}", "{fold: near/far}"))
    assert state.angles == {("strip", "near/far"): -180.0}
    # turned over like a page: x is mirrored, so near reaches from -60 to 0, and far lies on top of it, as seen
    assert seen_at(state, ("strip", "near")) == Seen(-60, 0, 0, 50)
    assert seen_at(state, ("strip", "far")) == Seen(-60, 0, -20, 50)
    assert from_the_table(state, "strip") == [("strip", "near"), ("strip", "far")]


def test_seen_from_the_front_a_fold_is_a_valley_whichever_side_is_up():
    state = made(with_steps(STRIP, "{lay: strip, up: back}", "{fold: near/far, seen from: front}"))
    assert state.angles == {("strip", "near/far"): 180.0}
    assert from_the_table(state, "strip") == [("strip", "far"), ("strip", "near")]


def test_the_larger_side_stays_unless_another_is_named():
    fold, other = (made(with_steps(STRIP, step)) for step in ("{fold: near/far}", "{fold: near/far, stays: far}"))
    assert seen_at(fold, ("strip", "near")) == Seen(0, 0, 60, 50)
    assert seen_at(other, ("strip", "far")) == Seen(60, 0, 100, 50)
    # near reached from 0 to 60; over the score at 60 it comes to 60 to 120
    assert seen_at(other, ("strip", "near")) == Seen(60, 0, 120, 50)
    assert from_the_table(other, "strip") == [("strip", "far"), ("strip", "near")]


def test_a_fold_along_the_head_tail_direction_obeys_the_same_sign():
    state = made(with_steps("strip: {width: 50 mm, down: [upper: 40 mm, lower: 60 mm]}", "{fold: upper/lower}"))
    assert seen_at(state, ("strip", "upper")) == Seen(0, 40, 50, 80)
    assert from_the_table(state, "strip") == [("strip", "lower"), ("strip", "upper")]
    assert front_normal(state.placed[("strip", "upper")]) == pytest.approx((0.0, 0.0, 1.0))
