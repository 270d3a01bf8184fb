"""Flaps that go in under what lies there, not on top of it."""

import pytest

from creasewright.geometry.clip import area
from small_designs import from_the_table, last_run, made, with_steps

STRIP = "strip: {height: 60 mm, across: [a: 30 mm, page: 80 mm, b: 70 mm]}"


def order(*steps: str) -> list[str]:
    return [name for _, name in from_the_table(made(with_steps(STRIP, *steps)), "strip")]


def test_folded_it_lies_on_top_and_tucked_beneath():
    assert order("{fold: a}", "{fold: b}") == ["page", "a", "b"]
    assert order("{fold: a}", "{tuck: b, under: a}") == ["page", "b", "a"]
    assert order("{lay: strip, up: back}", "{fold: a}", "{tuck: b, under: a}") == ["page", "b", "a"]


def test_tucked_between_two_it_lies_on_the_lower():
    assert order("{fold: a}", "{tuck: b, between: [a, page]}") == ["page", "b", "a"]


def test_a_flap_cannot_be_tucked_in_through_a_fold():
    # a is folded at its left end; b reaches from the right past that fold, where a and the page are one piece of paper
    long = "strip: {height: 60 mm, across: [a: 30 mm, page: 80 mm, b: 90 mm]}"
    run = last_run(with_steps(long, "{fold: a, stays: page}", "{tuck: b, under: a, stays: page}"))
    assert run.refused == (
        "b of strip cannot be tucked under a of strip: a fold closes the way there",
        "tuck it in on an open side, or fold what closes the way later",
    )


def test_what_lies_elsewhere_is_no_place_to_tuck_under():
    run = last_run(with_steps(STRIP, "{fold: a, to: 90}", "{tuck: b, under: a}"))
    assert run.refused == ("a of strip does not lie where b of strip is tucked in", "fold it there first")


def test_adhesive_keeps_clear_of_the_panels_named():
    blanks = "page: {width: 100 mm, height: 80 mm}\nmat: {width: 60 mm, height: 40 mm}\nslip: {width: 100 mm, height: 80 mm}"
    glue = "materials: {glue: {kind: glue}}\n"
    steps = ["{place: mat, onto: page, meet: centre}", "{join: slip, under: page, keep clear: mat, setback: 0 mm}"]
    state = made(glue + with_steps(blanks, *steps))
    # 100 x 80 less the 60 x 40 under the mat
    assert sum(area(patch.polygon) for patch in state.glue) == pytest.approx(8000 - 2400, abs=0.01)
